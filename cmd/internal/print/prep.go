package print

import (
	"cmp"

	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/layout/prep"
)

// PrepOptions are the flags of the prep list alone.
type PrepOptions struct {
	Ready unit.Clock `flag:"ready" is:"time" help:"time of day by which all is ready, such as 09:00; that of the plan when left out"`
	Days  unit.Count `flag:"days" is:"number" help:"how many days it is for, today being the first; 1 when left out"`
}

func prepKind() *Kind {
	return &Kind{
		Name: "prep", File: "prep", One: "prep list", Many: "prep lists",
		Short:   "Print what is made for the whole day",
		Long:    "Prints the prep list of today's plan (or of the day given with --today), or of\nseveral days: every formula once, for all products that share it, with what is\nweighed, its split weights and when it is due; and what comes out of the freezer.",
		Example: "  chablon prep samples/quoin-and-crumb --today 2026-03-17 --ready 09:00",
		Next:    "Tick what is made, and label every tub.",
		Inside:  true,
		Of:      Plan, Speaks: Kitchen, Langs: 1, Usual: 1, Form: "card",
		Own:     func() any { return &PrepOptions{} },
		Tells:   tellsPrep,
		Compose: composePrep,
		Day:     once,
	}
}

func composePrep(j *Job) (Set, error) {
	o := own[PrepOptions](j)
	span := Span{Days: o.Days}
	if o.Days > 1 {
		span.Days += unit.Count(j.ahead())
	}
	days, err := j.days(span)
	if err != nil || j.Found.Errors() > 0 {
		return Set{}, err
	}
	ready := func(d *scale.Day) unit.Span { return cmp.Or(o.Ready, d.Plan.Ready.V).Span() }
	s := prep.Sheet{Shop: j.Shop, Lang: j.Langs[0], Date: j.Today, Day: days[0], Ready: ready(days[0]), Days: int(o.Days), Stock: j.Stock, Dots: j.Printer.Resolution.V}
	if k := j.Shop.Profile.Kitchen; k != nil {
		s.Opens, s.Closes = k.Opens.V.Span(), k.Closes.V.Span()
	}
	for n, d := range days[1:] {
		s.Then = append(s.Then, prep.Then{Date: j.Today.AddDays(n + 1), Day: d, Ready: ready(d)})
	}
	return Set{Pages: prep.Compose(s, j.faces, j.Found), Heights: prep.Heights()}, nil
}

// ahead is how many days ahead something is made at most, or begun because it
// cannot wait until the kitchen opens.
func (j *Job) ahead() int {
	most := 1
	for _, f := range j.Shop.Formulas {
		most = max(most, -f.Day.V)
	}
	return most
}
