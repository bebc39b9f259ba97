package card

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
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
	latest := t.startsOf(out.work)
	for i := range out.Rows {
		st := out.Rows[i].Step
		if st == nil || st.No < 1 {
			continue
		}
		at := latest[st.task]
		st.Latest = t.timeOfDay(at, true)
		if task := out.work.Tasks[st.task]; st.Limit != nil && task.Step.Limit.Within.Set() {
			from := at + task.Hands
			st.Limit.Hours = t.timeOfDay(from, true) + compose.NoBreak + "–" + compose.NoBreak + t.timeOfDay(from+task.Step.Limit.Within.V, true)
		}
	}
	_, src := t.id()
	out.Hours = []fact{{t.word("card.ready"), numbered(t.timeOfDay(t.Ready%day, false), src)},
		{t.word("card.latest-start"), numbered(t.timeOfDay(slices.Min(latest), false), src)}}
}

// startsOf says when each step begins where it is known when all is to be ready.
func (c Card) startsOf(w *scale.Work) []unit.Span {
	if len(c.Starts) == len(w.Tasks) {
		return c.Starts
	}
	return w.LatestStarts(c.Ready)
}

// timing says how long a step takes: its hands in all, and its waiting, which
// comes once for each load or bowl: "3 × 30 min".
func (t *teller) timing(long scale.Timing) (hands, wait string) {
	if long.Hands > 0 {
		hands = t.Lang().Span(long.Hands)
	}
	if long.Wait > 0 {
		wait = t.Lang().Wait(unit.Wait{Least: long.Wait, Most: long.Wait + long.Over})
		if long.Rounds > 1 {
			wait = t.times(long.Rounds) + wait
		}
	}
	return hands, wait
}

// timeline draws the work against time: a row for each lane, solid for hands,
// outlined for waiting, hatched for the oven, with a thick outline where a step
// cannot wait. Step numbers stand above the bars as far as they have room, and
// behind them how long the lane can wait.
func (s *sheet) timeline() []flow.Block {
	w := s.said.work
	if len(w.Tasks) < 3 || w.Elapsed <= 0 {
		return nil
	}
	_, src := s.id()
	axis := clockAxis{from: s.cols.no.W, room: s.area.W - s.cols.no.W, all: w.Elapsed}
	blocks := []flow.Block{s.block(src, true, func(h *setter) unit.Length { return s.hours(h, axis) })}
	for i, l := range w.Lanes {
		tied := i+1 < len(w.Lanes)
		blocks = append(blocks, s.block(src, tied, func(h *setter) unit.Length { return s.laneBars(h, axis, w, l) }))
	}
	blocks[len(blocks)-1].H += s.z.pad
	return blocks
}

// clockAxis is where a time stands on the paper.
type clockAxis struct {
	from, room unit.Length
	all        unit.Span
}

func (a clockAxis) at(t unit.Span) unit.Length { return a.from + a.room.Mul(int64(t), int64(a.all)) }

// step is the finest step of hours or minutes whose figures have room.
func (a clockAxis) step(least unit.Length) unit.Span {
	steps := []unit.Span{10 * unit.Minute, 30 * unit.Minute, unit.Hour, 2 * unit.Hour, 4 * unit.Hour, 6 * unit.Hour, 12 * unit.Hour, 24 * unit.Hour}
	for _, s := range steps {
		if a.room.Mul(int64(s), int64(a.all)) >= least {
			return s
		}
	}
	return a.all
}

// hours is the axis above the rows.
func (s *sheet) hours(h *setter, a clockAxis) unit.Length {
	h.Rule(0, s.z.pad, s.area.W, s.z.thick)
	y := s.z.pad + s.z.thick + s.z.pad/2
	base := y + h.up(s.z.small)
	h.bit(0, base, bit{kind: isIcon, icon: flow.Clock, look: s.z.note(), role: role.Note})
	free := unit.Length(0)
	if word := s.said.teller.Word("card.clock"); s.Ready > 0 {
		free = a.from + h.line(a.from, base, role.Note, diag.Pos{}, word, s.z.faint()) + s.z.gap
	}
	for _, t := range s.ticks(a) {
		if x := a.at(t.at); x >= free && x+h.width(t.words, s.z.faint()) <= s.area.W {
			h.line(x, base, role.Note, diag.Pos{}, t.words, s.z.faint())
		}
	}
	return base + s.z.pad
}

// tick is a time on the axis, counted from the start, and what it is called.
type tick struct {
	at    unit.Span
	words string
}

// ticks are the times that are named on the axis: hours of work, or where it is
// known when all is to be ready, hours of the day.
func (s *sheet) ticks(a clockAxis) []tick {
	step := a.step(s.z.small * 5)
	start, timed := s.Ready-a.all, s.Ready > 0 && s.said.oneDay()
	first := unit.Span(0)
	if timed {
		first = ((-start)%step + step) % step
	}
	var all []tick
	for t := first; t <= a.all; t += step {
		words := s.Langs[0].Span(t)
		if t == 0 {
			words = s.said.teller.Word("card.clock") + compose.NoBreak + "0"
		}
		if timed {
			words, _ = clockTime(start + t)
		}
		all = append(all, tick{t, words})
	}
	return all
}

// oneDay reports whether all the work is of one day, so that its hours can be
// read on one axis.
func (c *content) oneDay() bool {
	return !slices.ContainsFunc(c.work.Tasks, func(t scale.Task) bool { return t.Day < 0 })
}

// grid draws the hours through a row, so that bars can be compared.
func (s *sheet) grid(h *setter, a clockAxis, y, high unit.Length) {
	for _, t := range s.ticks(a) {
		h.Tint(page.Rect{X: min(a.at(t.at), s.area.W-s.z.hair), Y: y, W: s.z.hair, H: high}, 170)
	}
}

// laneBars is one row of bars.
func (s *sheet) laneBars(h *setter, a clockAxis, w *scale.Work, l scale.Lane) unit.Length {
	base := h.up(s.z.small)
	top := h.lead(s.z.small)
	high := s.z.small * 4 / 5
	s.grid(h, a, top-s.z.pad/4, high+s.z.pad/2)
	at := laneOf(s.said, l.Formula)
	if at >= 0 {
		h.line(0, top+high, role.Step, s.said.Lanes[at].Src, s.said.Lanes[at].Letter, s.z.strong())
	}
	free := a.from
	slack := unit.Span(-1)
	for _, i := range l.Tasks {
		t := w.Tasks[i]
		s.bar(h, a, t, top, high)
		no := s.Langs[0].Plain(int64(s.said.no[i]), 0)
		width := h.width(no, s.z.note())
		if x := max(free, a.at(t.Start)); x+width <= s.area.W && x <= a.at(t.End()) {
			h.line(x, base, role.Note, t.Step.Pos, no, s.z.note())
			free = x + width + s.z.small/3
		}
		if slack < 0 || t.Slack < slack {
			slack = t.Slack
		}
	}
	if slack > 0 {
		s.canWait(h, free+s.z.gap, base, slack)
	}
	return top + high + s.z.pad/2
}

// canWait says how long a lane can wait, where there is room for it.
func (s *sheet) canWait(h *setter, x, base unit.Length, slack unit.Span) {
	words := s.said.teller.fill("card.can-wait", "time", func(l *words.Lang) string { return l.Span(slack) })
	t := words.joined()
	if x+h.width(t, s.z.faint()) > s.area.W {
		t = words.first()
	}
	if x+h.width(t, s.z.faint()) <= s.area.W {
		h.line(x, base, role.Note, diag.Pos{}, t, s.z.faint())
	}
}

// bar draws one step: hands first, then waiting, once for each load and bowl.
func (s *sheet) bar(h *setter, a clockAxis, t scale.Task, y, high unit.Length) {
	stroke := s.z.hair
	if t.Critical {
		stroke = s.z.thick
	}
	if from, end := a.at(t.Start), a.at(t.End()); end > from {
		wide := max(end-from, 2*stroke) // a short step beside a long rest is still seen
		h.Frame(page.Rect{X: min(from, s.area.W-wide), Y: y, W: wide, H: high}, stroke)
	}
	begin := t.Start
	for k := range t.Rounds {
		s.round(h, a, t, begin, t.Round(k), page.Rect{Y: y, H: high})
		begin += t.Round(k) + t.Wait
	}
}

// round fills the hands of one round, and hatches its waiting in the oven.
func (s *sheet) round(h *setter, a clockAxis, t scale.Task, begin, work unit.Span, row page.Rect) {
	from, hands, end := a.at(begin), a.at(begin+work), a.at(begin+work+t.Wait)
	if wait := (page.Rect{X: hands, Y: row.Y, W: end - hands, H: row.H}); wait.W > 3*s.z.hair && ovenKind(t.Step.Kind.V) {
		h.Hatch(wait, s.z.hair)
	}
	if hands > from {
		wide := max(hands-from, s.z.hair) // a minute of a long day is still seen
		h.Tint(page.Rect{X: min(from, s.area.W-wide), Y: row.Y, W: wide, H: row.H}, 0)
	}
}
