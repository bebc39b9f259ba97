package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
)

func (a *app) measured() *cobra.Command {
	var r print.MeasureRequest
	c := &cobra.Command{
		Use: "measured FORMULA-or-PRODUCT", Short: "Note what was weighed at a stage, or how long a step took",
		Long:    "Writes into measured.yaml of the shop what was weighed before and after a stage that\nloses something, or how long a step took, and says how that stands beside what is\nwritten. Where the two part, check and the audit sheet say so.",
		Example: "  chablon measured passion-caramel --stage boil --before \"1013 g\" --after \"748 g\" --shop my-shop\n  chablon measured pear-hazelnut-tartlet --step A3 --pieces 48 --hands-on \"62 min\" --shop my-shop",
		Args:    exactlyOne("formula or product"),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			r.ID = args[0]
			said, file, err := p.Measure(r)
			if err == nil {
				fmt.Fprintf(a.Out, "%s\nwritten to %s\n", said, file)
			}
			return err
		},
	}
	bind(c.Flags(), &r, nil)
	return a.ids(a.fromShop(c), func(p *print.Press) []string { return p.KindOf("card").IDs(p) })
}
