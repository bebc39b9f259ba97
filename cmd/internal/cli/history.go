package cli

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/labels/register"
)

// history says what was printed, as the print book has it.
func (a *app) history() *cobra.Command {
	var table, batch string
	c := &cobra.Command{
		Use: "history [PRODUCT]", Short: "Say what was printed, when, how many, and why again",
		Long:    "Lists what the print book knows to have been printed, the oldest first: labels,\ncartons and cards with their numbers, and the reason of all that was printed once\nmore. What never reached the disk says so.",
		Example: "  chablon history --shop my-shop\n  chablon history bench-tin --batch L26075A --csv - --shop my-shop",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			all, err := p.Printed(context.Background(), 0, math.MaxInt)
			if err != nil {
				return asked(err)
			}
			slices.Reverse(all)
			all = slices.DeleteFunc(all, func(q register.Print) bool {
				return len(args) > 0 && q.ID != args[0] || batch != "" && q.Batch != batch
			})
			if table != "" {
				return a.toFile(table, func(w io.Writer) error { return historyTable(w, p, all) })
			}
			for _, q := range all {
				fmt.Fprintln(a.Out, historyLine(p, q))
			}
			return nil
		},
	}
	c.Flags().StringVar(&batch, "batch", "", "of this batch alone")
	c.Flags().StringVar(&table, "csv", "", "write a table to this file; - for the screen")
	return a.ids(a.fromShop(c), func(p *print.Press) []string { return p.KindOf("label").IDs(p) })
}

// historyLine is one print in a line.
func historyLine(p *print.Press, q register.Print) string {
	words := []string{q.At.Format("2006-01-02 15:04"), fmt.Sprintf("%d × %s of %s", q.Count, q.Kind, q.ID)}
	for _, more := range [][2]string{{"batch ", q.Batch}, {"", numbersOf(p, q)}, {"on ", q.Paper}, {"once more: ", q.Again}} {
		if more[1] != "" {
			words = append(words, more[0]+more[1])
		}
	}
	if !q.Written {
		words = append(words, "it never reached the disk")
	}
	return strings.Join(words, ", ")
}

// numbersOf are the numbers that a print bears: of cartons the SSCC of the first
// and the last.
func numbersOf(p *print.Press, q register.Print) string {
	if all := p.SSCCs(q); len(all) > 0 {
		return between(all[0], all[len(all)-1])
	}
	if q.Series == "" {
		return ""
	}
	return between(fmt.Sprintf("%04d", q.From), fmt.Sprintf("%04d", q.To))
}

func between(first, last string) string {
	if first == last {
		return first
	}
	return first + " to " + last
}

// historyTable writes prints as a table: RFC 4180, times in UTC (RFC 3339).
func historyTable(w io.Writer, p *print.Press, all []register.Print) error {
	c := csv.NewWriter(w)
	rows := [][]string{{"at", "what", "id", "version", "pack", "market", "batch", "made", "count", "numbers", "languages", "paper", "asked-by", "again-because", "file", "on-disk"}}
	for _, q := range all {
		disk := "no"
		if q.Written {
			disk = "yes"
		}
		rows = append(rows, []string{q.At.Format(time.RFC3339), q.Kind, q.ID, q.Version, q.Pack, q.Market, q.Batch, q.Made,
			strconv.FormatInt(q.Count, 10), numbersOf(p, q), q.Langs, q.Paper, q.Asked, q.Again, q.File, disk})
	}
	if err := c.WriteAll(rows); err != nil {
		return fmt.Errorf("write the table: %w", err)
	}
	return nil
}
