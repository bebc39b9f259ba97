package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
)

// tally notes and counts where the labels of a batch went.
func (a *app) tally() *cobra.Command {
	var r print.TallyRequest
	c := &cobra.Command{
		Use: "tally PRODUCT", Short: "Account for the labels of a batch: printed = applied + spoilt + left",
		Long:    "Notes which labels of a batch were spoilt and how many are on packs, and says where\nall of them went. A count that does not come out even is refused: a label that is\nmissing may be on another product. A spoilt number is never printed again. Without\n--applied and --spoilt nothing is noted.",
		Example: "  chablon tally bench-tin --batch L26075A --applied 21 --spoilt 0007,0012 --shop my-shop\n  chablon tally bench-tin --batch L26075A --shop my-shop",
		Args:    exactlyOne("product"),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			r.ID = args[0]
			t, err := p.Tally(context.Background(), r)
			if err != nil {
				return asked(err)
			}
			fmt.Fprint(a.Out, t.Text())
			return nil
		},
	}
	bind(c.Flags(), &r, nil)
	return a.ids(a.fromShop(c), func(p *print.Press) []string { return p.KindOf("label").IDs(p) })
}
