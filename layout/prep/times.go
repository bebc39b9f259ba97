package prep

import (
	"fmt"

	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

const day = 24 * unit.Hour

// start is when something must be begun, from the midnight before the day.
func (t teller) start(p scale.Prep) unit.Span { return t.Ready - p.Lead }

// daysBefore is how many days before the day something is made: as many as its
// formula says, and as few as let it begin no earlier than the kitchen opens.
func (t teller) daysBefore(p scale.Prep) int {
	n := 0
	if p.Formula != nil {
		n = max(0, -p.Formula.Day.V)
	}
	if late := t.Opens - t.start(p); t.Ready > 0 && late > 0 {
		n = max(n, int((late+day-1)/day))
	}
	return n
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
	return clock(t.start(p))
}

// clock is a time of day.
func clock(at unit.Span) string {
	minutes := int64(at / unit.Minute)
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}
