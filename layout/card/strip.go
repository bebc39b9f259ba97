package card

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

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
	blocks := []flow.Block{s.block(src, true, func(h *hand) unit.Length { return s.hours(h, axis) })}
	for i, l := range w.Lanes {
		tied := i+1 < len(w.Lanes)
		blocks = append(blocks, s.block(src, tied, func(h *hand) unit.Length { return s.laneBars(h, axis, w, l) }))
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
func (s *sheet) hours(h *hand, a clockAxis) unit.Length {
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
	start, timed := s.Ready-a.all, s.Ready > 0
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

// grid draws the hours through a row, so that bars can be compared.
func (s *sheet) grid(h *hand, a clockAxis, y, high unit.Length) {
	for _, t := range s.ticks(a) {
		h.Tint(page.Rect{X: min(a.at(t.at), s.area.W-s.z.hair), Y: y, W: s.z.hair, H: high}, 170)
	}
}

// laneBars is one row of bars.
func (s *sheet) laneBars(h *hand, a clockAxis, w *scale.Work, l scale.Lane) unit.Length {
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
		no := s.Langs[0].Plain(int64(i+1), 0)
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
func (s *sheet) canWait(h *hand, x, base unit.Length, slack unit.Span) {
	words := s.said.teller.fill("card.can-wait", "time", func(l *words.Lang) string { return l.Span(slack) })
	t := words.joined()
	if x+h.width(t, s.z.faint()) > s.area.W {
		t = words.first()
	}
	if x+h.width(t, s.z.faint()) <= s.area.W {
		h.line(x, base, role.Note, diag.Pos{}, t, s.z.faint())
	}
}

// bar draws one step: hands first, then waiting.
func (s *sheet) bar(h *hand, a clockAxis, t scale.Task, y, high unit.Length) {
	from, hands, end := a.at(t.Start), a.at(t.Start+t.Step.HandsOn.V), a.at(t.End())
	stroke := s.z.hair
	if t.Critical {
		stroke = s.z.thick
	}
	if end > from {
		h.Frame(page.Rect{X: from, Y: y, W: end - from, H: high}, stroke)
	}
	if wait := (page.Rect{X: hands, Y: y, W: end - hands, H: high}); wait.W > 0 && ovenKind(t.Step.Kind.V) {
		h.Hatch(wait, s.z.hair)
	}
	if hands > from {
		wide := max(hands-from, s.z.hair) // a minute of a long day is still seen
		h.Tint(page.Rect{X: min(from, s.area.W-wide), Y: y, W: wide, H: high}, 0)
	}
}
