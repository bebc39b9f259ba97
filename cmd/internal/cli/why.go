package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
)

func (a *app) why() *cobra.Command {
	var r print.WhyRequest
	var asJSON bool
	c := &cobra.Command{
		Use:   "why PRODUCT WORD",
		Short: "Say how a word came onto a label, or why it did not",
		Long: `Goes from the label back through product, formulas and ingredients to the
specification of the supplier, with file and line, the masses on the way, what
is lost and whether somebody weighed it, the rule of rounding and the tolerance;
then how far each figure of the formulas may be off before the label changes.
The word may be a name in any language, an id, an allergen, "water", a percentage
such as "12 %", a nutrient, or "date".

With --json the same reasons are written for another program: each with its
key, its values in units, its place in a file, and what stands behind it.`,
		Example: "  chablon why pear-hazelnut-tartlet hazelnuts\n  chablon why lemon-thyme-marshmallow sulphites\n  chablon why pistachio-choux water\n  chablon why pear-hazelnut-tartlet fat --json",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) < 2 {
				return usage.Errorf("write it like:"+firstLine(c.Example), "which product, and which word?")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			r.ID, r.Word = args[0], strings.Join(args[1:], " ")
			p = p.About(r.ID)
			w, err := p.Why(r)
			if err != nil {
				return err
			}
			if err := a.report(p, p.Found); err != nil {
				return err
			}
			w.FindMargins()
			if !asJSON {
				fmt.Fprint(a.Out, w.Text())
				return nil
			}
			data, err := w.JSON()
			if err == nil {
				_, err = a.Out.Write(data)
			}
			return err
		},
	}
	bind(c.Flags(), &r, nil)
	c.Flags().BoolVar(&asJSON, "json", false, "write JSON, for another program")
	return a.ids(a.fromShop(c), (*print.Press).ProductIDs)
}
