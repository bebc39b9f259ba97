package cli

import (
	"github.com/spf13/cobra"

	"chablon/cmd/internal/print"
)

func (a *app) ticket() *cobra.Command {
	var r print.TicketRequest
	c := &cobra.Command{
		Use:     "ticket PRODUCT...",
		Short:   "Print the counter tickets of products",
		Long:    "Prints tickets for the counter from the same facts as the labels: one side for\nthe buyer, one for the staff. A ticket moves with its tray, and is printed again\nwhenever the label changes.",
		Example: "  chablon ticket pear-hazelnut-tartlet\n  chablon ticket pistachio-choux passion-caramel-bar --paper a4-ticket-4 --languages en,fr",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return exactlyOne("product")(c, args)
			}
			return nil
		},
		RunE: a.printing(func(p *print.Press, args []string) ([]print.Paper, error) {
			r.IDs = args
			return p.Tickets(r)
		}, next(&r.Draft, "Fold it, stand it beside the product, and throw the old one away.")),
	}
	c.Flags().StringVar(&r.Pack, "pack", "", "id of the pack; the first of each product when left out")
	c.Flags().StringVar(&r.Paper, "paper", "", "id of the ticket paper: ticket-a7-tent, a4-ticket-4, shelf-100x39 and others; a standing ticket when left out")
	c.Flags().StringVar(&r.Market, "market", "", "code of the market; the shop's first when left out")
	c.Flags().StringSliceVar(&r.Languages, "languages", nil, "one or two languages, such as en,fr; the first of the label when left out")
	c.Flags().BoolVar(&r.Draft, "draft", false, "print what is not approved, with the mark of a draft")
	return a.ids(a.fromShop(a.writes(c)), (*print.Press).ProductIDs)
}

func (a *app) audit() *cobra.Command {
	var r print.AuditRequest
	c := &cobra.Command{
		Use:     "audit PRODUCT",
		Short:   "Print why a label says what it says, and who approved it",
		Long:    "Prints the audit sheet of a product: formulas and specifications used, the\ningredient list with masses and shares, where each allergen comes from, what the\nrules decided, and the approval. It says what was computed from what the tool was\ntold; a competent person approves, local law and the authority decide.",
		Example: "  chablon audit rye-shortbread-tin",
		Args:    exactlyOne("product"),
		RunE: a.printing(func(p *print.Press, args []string) ([]print.Paper, error) {
			r.ID = args[0]
			return p.Audit(r)
		}, then("Read it against the suppliers' papers, then sign with chablon approve.")),
	}
	c.Flags().StringVar(&r.Pack, "pack", "", "id of the pack; the product's first when left out")
	c.Flags().StringVar(&r.Market, "market", "", "code of the market; the shop's first when left out")
	c.Flags().StringVar(&r.Language, "language", "", "language of the sheet: en, fr or de; that of the cards when left out")
	c.Flags().Var(textFlag(&r.Made, "day"), "made", "the day made; today when left out")
	return a.ids(a.fromShop(a.writes(c)), (*print.Press).ProductIDs)
}
