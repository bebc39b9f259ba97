package card

import (
	"fmt"
	"strings"

	"chablon/labels/unit"
	"chablon/layout/compose"
)

const day = 24 * unit.Hour

// clockTime writes a time counted from the midnight before all is ready:
// "03:13", and how many days before that it is, or after.
func clockTime(s unit.Span) (clock string, days int64) {
	days = int64(s / day)
	if s < 0 && s%day != 0 {
		days--
	}
	s -= unit.Span(days) * day
	return fmt.Sprintf("%02d:%02d", s/unit.Hour, s%unit.Hour/unit.Minute), days
}

// timeOfDay is a time with its day where that is another: "17:00 (−1 day)", or
// short "17:00 (−1)".
func (t *teller) timeOfDay(s unit.Span, short bool) string {
	clock, days := clockTime(s)
	if days == 0 {
		return clock
	}
	n, sign := days, "+"
	if n < 0 {
		n, sign = -n, "−"
	}
	count := t.Lang().Plain(n, 0)
	if !short {
		count = t.Count("card.count-days", n)
	}
	return clock + " (" + sign + strings.ReplaceAll(count, " ", compose.NoBreak) + ")"
}

// hours says when to start, where it is known when all is to be ready: the
// whole work in the facts, and each step. A limit that must be reached within a
// time gets a pair of times for that start; whoever starts at another time
// counts from there.
func (t *teller) hours(out *content) {
	if t.Ready <= 0 || out.work.Elapsed <= 0 {
		return
	}
	latest := out.work.LatestStarts(t.Ready)
	for i := range out.Rows {
		st := out.Rows[i].Step
		if st == nil || st.No < 1 {
			continue
		}
		at := latest[st.No-1]
		st.Latest = t.timeOfDay(at, true)
		if in := out.work.Tasks[st.No-1].Step; st.Limit != nil && in.Limit.Within.Set() {
			from := at + in.HandsOn.V
			st.Limit.Hours = t.timeOfDay(from, true) + compose.NoBreak + "–" + compose.NoBreak + t.timeOfDay(from+in.Limit.Within.V, true)
		}
	}
	_, src := t.id()
	out.Hours = []fact{{t.word("card.ready"), numbered(t.timeOfDay(t.Ready%day, false), src)},
		{t.word("card.latest-start"), numbered(t.timeOfDay(t.Ready-out.work.Elapsed, false), src)}}
}
