package print

import (
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/layout/prep"
)

// PrepOptions are the flags of the prep list alone.
type PrepOptions struct {
	Ready unit.Clock `flag:"ready" is:"time" help:"time of day by which all is ready, such as 09:00"`
}

func prepKind() *Kind {
	return &Kind{
		Name: "prep", File: "prep", One: "prep list", Many: "prep lists",
		Short:   "Print what is made for the whole day",
		Long:    "Prints the prep list of today's plan (or of the day given with --today): every\nformula once, for all products that share it, with its split weights and when it\nis due.",
		Example: "  chablon prep samples/quoin-and-crumb --today 2026-03-17 --ready 09:00",
		Next:    "Tick what is made, and label every tub.",
		Inside:  true,
		Of:      Plan, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Own:     func() any { return &PrepOptions{} },
		Compose: composePrep,
		Day:     once,
	}
}

func composePrep(j *Job) (Set, error) {
	day, err := scale.PlanDay(j.Shop, j.Plan)
	if err != nil {
		j.Found.Errorf(j.Plan.Pos, "plan", "look at the formulas of the plan", "%v", err)
		return Set{}, nil
	}
	pages := prep.Compose(prep.Sheet{Shop: j.Shop, Lang: j.Langs[0], Date: j.Today, Day: day,
		Ready: unit.Span(own[PrepOptions](j).Ready), Stock: j.Stock, Dots: j.Printer.Resolution.V}, j.faces, j.Found)
	return Set{Pages: pages, Heights: prep.Heights()}, nil
}
