package prep

import (
	"cmp"
	"slices"

	"chablon/labels/scale"
	"chablon/labels/unit"
)

// item is one formula for one day, and the day on which it is made.
type item struct {
	teller // of the day that needs it
	scale.Prep
	before int // days
}

// made is the day on which it is made.
func (i item) made() unit.Date { return i.Date.AddDays(-i.before) }

// days are tellers of the days, the first in front.
func (t teller) days() []teller {
	out := []teller{t}
	for _, d := range t.Then {
		one := t
		one.Date, one.Day, one.Ready = d.Date, d.Day, d.Ready
		out = append(out, one)
	}
	return out
}

// within reports whether what a day needs, done on a date, is on the list: the
// days of the list whole, of those behind them what is done within these days.
func (t teller) within(i int, on unit.Date) bool {
	return i < max(1, t.Sheet.Days) || on.Before(t.Date.AddDays(max(1, t.Sheet.Days)))
}

// order is what is made, the earliest day first; within a day as it is needed.
func (t teller) order() (out []item) {
	for i, d := range t.days() {
		var of []item
		for _, p := range d.Day.Prep {
			if one := (item{d, p, d.daysBefore(p)}); t.within(i, one.made()) {
				of = append(of, one)
			}
		}
		out = append(out, of...)
	}
	slices.SortStableFunc(out, func(a, b item) int { return days(a.made(), b.made()) })
	return out
}

func days(a, b unit.Date) int { return cmp.Compare(a.String(), b.String()) }
