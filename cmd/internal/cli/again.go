package cli

import (
	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
	"chablon/cmd/internal/usage"
)

// again prints carton labels once more.
func (a *app) again() *cobra.Command {
	var q print.Again
	c := &cobra.Command{
		Use: "again SSCC...", Short: "Print carton labels once more that are lost or spoilt",
		Long:    "Prints the labels with these numbers as they were the first time, and notes why. A\nlabel that would say something else today is refused. Destroy what is left of the\nfirst one: a number stands on one carton.",
		Example: "  chablon again 095200010000000010 --because \"jam in the printer\" --shop my-shop",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage.Errorf("give the 18 digits under the bars", "which carton labels?")
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.open(a.shop)
			if err != nil {
				return err
			}
			q.SSCCs = args
			b, err := p.PrintAgain(q)
			if err != nil {
				return asked(err)
			}
			return a.write(p, b, "Destroy what is left of the first label.")
		},
	}
	c.Flags().StringVar(&q.Why, "because", "", "why it is printed once more")
	return a.fromShop(a.writes(c))
}
