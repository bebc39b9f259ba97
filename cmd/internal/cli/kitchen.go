package cli

import (
	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
)

func (a *app) prep() *cobra.Command {
	var r print.PrepRequest
	c := &cobra.Command{
		Use:     "prep [SHOP]",
		Short:   "Print what is made for the whole day, and what must be bought",
		Long:    "Prints the prep list of today's plan (or of the day given with --today): every\nformula once, for all products that share it, with its split weights and when it\nis due; and the shopping list by supplier.",
		Example: "  chablon prep samples/quoin-and-crumb --today 2026-03-17 --ready 09:00",
		Args:    atMost(1),
		RunE: func(_ *cobra.Command, args []string) error {
			p, err := a.openNamed(args)
			if err != nil {
				return err
			}
			return a.write(p, func() ([]print.Paper, error) { return p.Prep(r) }, "Tick what is made and what is in the house; order the rest.")
		},
	}
	c.Flags().Var(clock{&r.Ready}, "ready", "time of day by which all is ready, such as 09:00")
	c.Flags().StringVar(&r.Language, "language", "", "language of the list: en, fr or de; that of the cards when left out")
	return a.fromShop(a.writes(c))
}

func (a *app) tub() *cobra.Command {
	var r print.TubRequest
	c := &cobra.Command{
		Use:     "tub FORMULA",
		Short:   "Print the labels for the tubs of a sub-batch",
		Long:    "Prints what must stand on a tub in the cold room: name, day made, use by, batch,\nstorage, allergens, and whether it is raw.",
		Example: "  chablon tub pistachio-pastry-cream --mass \"1.5 kg\" --count 2",
		Args:    exactlyOne("formula"),
		RunE: a.printing(func(p *print.Press, args []string) ([]print.Paper, error) {
			r.ID = args[0]
			return p.Tubs(r)
		}, then("Stick it on the tub, not on the lid.")),
	}
	c.Flags().Var(textFlag(&r.Mass, "mass"), "mass", "how much is in each tub; a line to write on when left out")
	c.Flags().Var(textFlag(&r.Count, "number"), "count", "how many tubs; 1 when left out")
	c.Flags().Var(textFlag(&r.Made, "day"), "made", "the day made; today when left out")
	c.Flags().StringVar(&r.Batch, "batch", "", "batch code; by the shop's rule when left out")
	c.Flags().StringVar(&r.Paper, "paper", "", "id of the label paper; roll-100x60 when left out")
	c.Flags().StringSliceVar(&r.Languages, "languages", nil, "one or two languages, such as en,fr; the cards' when left out")
	return a.ids(a.fromShop(a.writes(c)), (*print.Press).FormulaIDs)
}
