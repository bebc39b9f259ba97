package prep

import (
	"fmt"
	"slices"

	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// order is what is made, the earliest day first; within a day as it is needed.
func (t teller) order() []scale.Prep {
	out := slices.Clone(t.Day.Prep)
	slices.SortStableFunc(out, func(a, b scale.Prep) int { return t.daysBefore(b) - t.daysBefore(a) })
	return out
}

const day = 24 * unit.Hour

// start is when something must be begun, from the midnight before the day.
func (t teller) start(p scale.Prep) unit.Span { return t.Ready - p.Lead }

// daysBefore is how many days before the day something is made: as few as let
// it begin no earlier than the kitchen opens.
func (t teller) daysBefore(p scale.Prep) int {
	if late := t.Opens - t.start(p); t.Ready > 0 && late > 0 {
		return int((late + day - 1) / day)
	}
	return 0
}

// when is the heading of a day.
func (t teller) when(n int) string {
	s := t.Word("prep.today")
	switch {
	case n == 1:
		s = t.Word("prep.day-before")
	case n > 1:
		s = t.Count("prep.days-before", int64(n))
	}
	return compose.Capital(s) + " · " + t.Sheet.Lang.Date(t.Date.AddDays(-n), words.Long)
}

// begin says when to begin at the latest; on a day before, that day is enough.
func (t teller) begin(p scale.Prep, daysBefore int) string {
	switch {
	case t.Ready == 0 && p.Lead > 0:
		return t.Fill("prep.before", map[string]string{"time": t.Sheet.Lang.Span(p.Lead)})
	case t.Ready == 0 || daysBefore > 0:
		return ""
	}
	minutes := int64(t.start(p) / unit.Minute)
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}
