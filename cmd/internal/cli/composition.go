package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/usage"
	"chablon/labels/composition"
)

// mostFoods is how many foods a search shows.
const mostFoods = 12

// composition looks foods up in the table that comes with the program.
func (a *app) composition() *cobra.Command {
	return &cobra.Command{
		Use: "composition WORD...", Short: "Look up what a food holds, where the supplier does not say",
		Long: "Finds foods by their English, French or German name, or by their code, in\n" + composition.Licence + ".\n" +
			"A file takes the figures by the code: per-100-g: {from-table: 15004}. The supplier's\nown figures come first: a table knows the food, not what you bought.",
		Example: "  chablon composition hazelnut",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage.Errorf("give a word of its name, such as hazelnut", "which food?")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			words := strings.Join(args, " ")
			hits := composition.Search(words)
			if f, ok := composition.Get(words); ok {
				hits = []composition.Food{f}
			}
			if len(hits) == 0 {
				return usage.Errorf("try one plain word, in English, French or German", "the table has no food with %q in its name", words)
			}
			showFoods(a.Out, hits)
			return nil
		},
	}
}

func showFoods(w io.Writer, hits []composition.Food) {
	for n, f := range hits {
		if n == mostFoods {
			fmt.Fprintf(w, "and %d more: add a word\n\n", len(hits)-n)
			break
		}
		fmt.Fprintf(w, "%s  %s\n", f.Code, strings.Join(f.Names[:], " · "))
		fmt.Fprintf(w, "       %s\n\n", strings.Join(figures(f), ", "))
	}
	fmt.Fprintf(w, "in 100 g, from %s\nper-100-g: {from-table: %s} takes the first\n", composition.Licence, hits[0].Code)
}

// figures says each value as the table does, and which it does not know.
func figures(f composition.Food) []string {
	var out, unknown []string
	for _, key := range composition.Keys() {
		switch v := f.Value(key); {
		case !v.Known:
			unknown = append(unknown, key)
		default:
			out = append(out, key+" "+f.Text(key)+" g")
		}
	}
	if len(unknown) > 0 {
		out = append(out, "not known: "+strings.Join(unknown, ", "))
	}
	return out
}
