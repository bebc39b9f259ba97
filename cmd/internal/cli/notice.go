package cli

import (
	"context"

	"github.com/spf13/cobra"

	"chablon/cmd/internal/follow"
	"chablon/cmd/internal/print"
	"chablon/labels/trace"
)

// notice prints what buyers are told of a recall.
func (a *app) notice() *cobra.Command {
	var of string
	var q print.Recalled
	c := &cobra.Command{
		Use: "notice CODE", Short: "Print the recall notice for the shop's door and for customers",
		Long:    "Prints a sheet for each language of the labels: what is recalled, with batch, date\nand packs, the reason, what to do, and whom to ask. It is of a lot or batch that was\nwithdrawn with chablon recall, and of all that was made of it; the reason must have\nbeen said in each language, with --tell or --undeclared.",
		Example: "  chablon notice OF-71 --languages en --shop my-shop",
		Args:    exactlyOne("lot or batch code"),
		RunE: func(_ *cobra.Command, args []string) error {
			return a.desk(func(ctx context.Context, d *follow.Desk, p *print.Press) (err error) {
				if q.Of, err = d.Named(ctx, args[0], of, trace.Lot, trace.Batch); err != nil {
					return err
				}
				b, err := p.Notice(ctx, q)
				if err != nil {
					return err
				}
				return a.write(p, b, p.KindOf("notice").Next)
			})
		},
	}
	c.Flags().StringVar(&of, "of", "", "id of what it is of, where several bear the code")
	c.Flags().StringSliceVar(&q.Languages, "languages", nil, "languages, such as en,fr; those of the labels when left out")
	c.Flags().StringVar(&q.Paper, "paper", "", "id of the paper, such as card-a4 or card-a3; card-a4 when left out")
	return a.fromShop(a.writes(c))
}
