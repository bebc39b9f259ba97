package print

import (
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/layout/card"
	"chablon/layout/page"
	"chablon/layout/ticket"
)

func ticketKind() *Kind {
	return &Kind{
		Name: "ticket", File: "ticket", One: "ticket", Many: "tickets",
		Short:   "Print the counter tickets of products",
		Long:    "Prints tickets for the counter from the same facts as the labels: one side for\nthe buyer, one for the staff. A ticket moves with its tray, and is printed again\nwhenever the label changes. For loose food the law of the country decides the\nlanguage.",
		Example: "  chablon ticket pear-hazelnut-tartlet\n  chablon ticket pistachio-choux passion-caramel-bar --paper a4-ticket-4 --languages en,fr",
		Next:    "Fold it, stand it beside the product, and throw the old one away.",
		Of:      Products, Speaks: National, Langs: 2, Usual: 1, Together: true,
		Paper:   func(*Job) string { return "ticket-a7-tent" },
		Judge:   func(j *Job) market.Pack { return j.Facts.AsLoose() },
		Compose: composeTicket,
		Runs: func(_ *Press, r shop.Run) (Request, bool) {
			return Request{Paper: "a4-ticket-4", pieces: r.Pieces.V}, true
		},
	}
}

// composeTicket sets one ticket, with the check word of the card that it goes
// with.
func composeTicket(j *Job) (Set, error) {
	c, err := j.cardOf(Request{Pack: j.Request.Pack, Own: &CardOptions{Pieces: j.Request.pieces}}, j.ID)
	if err != nil {
		return Set{}, err
	}
	art := ticket.Compose(ticket.Ticket{Facts: j.Facts, Told: j.Told, Langs: j.Langs, Shop: j.Shop, Pack: j.Pack,
		CheckWord: card.CheckWord(c), Stock: j.Stock, Dots: j.Printer.Resolution.V, Look: j.lookOf("tickets")}, j.faces, j.Found)
	if art == nil {
		return Set{}, nil
	}
	return Set{Arts: []*page.Art{art}, Heights: ticket.Heights(j.faces)}, nil
}
