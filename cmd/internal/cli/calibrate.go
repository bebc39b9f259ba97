package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
	"chablon/labels/unit"
	"chablon/layout/calibrate"
)

// calibrate prints the page that a printer is measured by, or says what to write
// for it once that was done.
func (a *app) calibrate() *cobra.Command {
	var paper string
	var m struct{ left, top, wide, high string }
	c := &cobra.Command{
		Use: "calibrate PRINTER", Short: "Print a page to measure a printer by, and say what to write for it",
		Long: "Without --left and --top it prints a page with a frame 2 mm inside the edge of the\n" +
			"paper. Print it on that printer at its actual size, without fitting to the page, and\n" +
			"measure with a ruler: from the left edge of the paper to the outside of the frame\n" +
			"(--left) and from the upper edge (--top); and, best of all on the largest paper, how\n" +
			"wide and high the frame came out (--wide, --high). With what was measured it says the\n" +
			"lines to write under the printer in shop.yaml. What is set there already does not\n" +
			"move this page.",
		Example: "  chablon calibrate office --paper a4-8\n  chablon calibrate office --paper a4-8 --left 1.4mm --top 2.6mm --wide 205.8mm --high 293mm",
		Args:    exactlyOne("printer"),
	}
	a.fromShop(a.writes(c))
	c.Flags().StringVar(&paper, "paper", "", "the paper that is in it; the first of its papers when left out")
	c.Flags().StringVar(&m.left, "left", "", "measured from the left edge of the paper to the frame, such as 1.4mm")
	c.Flags().StringVar(&m.top, "top", "", "measured from the upper edge of the paper to the frame, such as 2.6mm")
	c.Flags().StringVar(&m.wide, "wide", "", "measured width of the frame, outside, such as 205.8mm")
	c.Flags().StringVar(&m.high, "high", "", "measured height of the frame, outside, such as 293mm")
	c.RunE = func(c *cobra.Command, args []string) error {
		p, err := a.open(a.shop)
		if err != nil {
			return err
		}
		if !c.Flags().Changed("left") && !c.Flags().Changed("top") && !c.Flags().Changed("wide") && !c.Flags().Changed("high") {
			return a.toMeasure(p, args[0], paper)
		}
		var got calibrate.Measured
		for _, l := range []struct {
			flag, said string
			into       *unit.Length
			must       bool
		}{{"left", m.left, &got.Left, true}, {"top", m.top, &got.Top, true}, {"wide", m.wide, &got.Wide, false}, {"high", m.high, &got.High, false}} {
			if err := readLength(l.flag, l.said, l.must, l.into); err != nil {
				return err
			}
		}
		return a.measuredPrinter(p, args[0], paper, got)
	}
	return a.ids(c, (*print.Press).PrinterIDs)
}

// toMeasure prints the page.
func (a *app) toMeasure(p *print.Press, printer, paper string) error {
	b, meant, err := p.Calibrate(printer, paper)
	if err != nil {
		return asked(err)
	}
	return a.write(p, b, "Print it without scaling (\"actual size\"), measure the frame, and give what the ruler\nsays in place of what it should say:\n"+
		"chablon calibrate "+printer+" "+meant)
}

func readLength(flag, said string, must bool, into *unit.Length) error {
	if said == "" && !must {
		return nil
	}
	l, err := unit.ParseLength(said)
	if err != nil {
		return usage.Errorf("measure it on the page of this command and write it like --"+flag+" 1.4mm", "--%s %q is no length", flag, said)
	}
	*into = l
	return nil
}

// measuredPrinter says what to write for a printer.
func (a *app) measuredPrinter(p *print.Press, printer, paper string, m calibrate.Measured) error {
	got, err := p.Measured(printer, paper, m)
	if err != nil {
		return err
	}
	lines := got.Lines()
	if len(lines) == 0 {
		fmt.Fprintf(a.Out, "%s prints where it should; take right:, down:, wide-100-mm: and high-100-mm: out of its lines in shop.yaml\n", printer)
		return nil
	}
	fmt.Fprintf(a.Out, "Write this in shop.yaml, and nothing else of right:, down:, wide-100-mm:, high-100-mm:\n\nprinters:\n  %s:\n    %s\n", printer, strings.Join(lines, "\n    "))
	return nil
}
