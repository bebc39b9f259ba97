package print

import (
	"chablon/labels/declare"
	"chablon/layout/order"
)

func orderKind() *Kind {
	return &Kind{
		Name: "allergen-order", File: "allergen-order", One: "order by allergens", Many: "orders by allergens",
		Short:   "Print what is made before what, so that least must be cleaned",
		Long:    "Prints a proposal for the order of today's plan (or that of --today) by allergens:\nthe fewest first, and a line for cleaning, with its check, wherever an allergen\nleaves. It never cleans more often than the plan's own order. The shop's own plan\nand local law decide.",
		Example: "  chablon allergen-order samples/quoin-and-crumb --today 2026-03-17",
		Next:    "Hold it against your own plan; write who cleaned, and who looked.",
		Inside:  true,
		Of:      Plan, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Compose: composeOrder,
		Day:     once,
	}
}

func composeOrder(j *Job) (Set, error) {
	s := order.Sheet{Shop: j.Shop, Lang: j.Langs[0], Day: j.Today, Stock: j.Stock, Dots: j.Printer.Resolution.V}
	for _, r := range j.Plan.Runs {
		if p := j.Shop.Products[r.Product.V]; p != nil {
			s.Runs = append(s.Runs, order.Run{Product: p, Pieces: r.Pieces.V, Contains: declare.OnCard(j.Shop, p)})
		}
	}
	return Set{Pages: order.Compose(s, j.faces, j.Found), Heights: order.Heights()}, nil
}
