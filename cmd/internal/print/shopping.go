package print

import (
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/layout/shopping"
)

// Span is how many days a list is for.
type Span struct {
	Days unit.Count `flag:"days" is:"number" help:"how many days it is for, today being the first; 1 when left out"`
}

func shoppingKind() *Kind {
	return &Kind{
		Name: "shopping", File: "shopping", One: "shopping list", Many: "shopping lists",
		Short:   "Print what must be ordered, by supplier",
		Long:    "Prints what the plans of some days take of each ingredient together: by supplier,\nas delivered, in whole packs. The plan of a day is its own, or the one for every day.",
		Example: "  chablon shopping samples/quoin-and-crumb --today 2026-03-17 --days 3",
		Next:    "Take off what is in the house, and order the rest.",
		Inside:  true,
		Of:      Plan, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Own:     func() any { return &Span{} },
		Tells:   tellsSpan,
		Compose: composeShopping,
		Day:     once,
	}
}

func composeShopping(j *Job) (Set, error) {
	days, err := j.days(own[Span](j))
	if err != nil || j.Found.Errors() > 0 {
		return Set{}, err
	}
	sheet := shopping.Sheet{Shop: j.Shop, Lang: j.Langs[0], From: j.Today, Days: len(days), Buy: scale.Together(days...), Stock: j.Stock, Dots: j.Printer.Resolution.V}
	return Set{Pages: shopping.Compose(sheet, j.faces, j.Found), Heights: shopping.Heights()}, nil
}
