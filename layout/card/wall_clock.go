package card

import (
	"cmp"
	"slices"

	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// A long wait, in which nothing begins and nobody works, is drawn as an hour:
// the axis breaks there.
const (
	longWait = 4 * unit.Hour
	drawnAs  = unit.Hour
)

// axis maps the time of the work onto the width of the paper.
type axis struct {
	from, room unit.Length
	marks      []mark
	all        unit.Span // as drawn
}

// mark is a time, and how far along the axis it is drawn.
type mark struct {
	at, drawn unit.Span
	broken    bool // what lies before it is cut short
}

// axisOf breaks the time of the work where nothing happens for long.
func axisOf(w *scale.Work, from, room unit.Length) axis {
	times := []unit.Span{0, w.Elapsed}
	for _, t := range w.Tasks {
		at := t.Latest()
		for k := range t.Rounds {
			times = append(times, at, at+t.Round(k))
			at += t.Round(k) + t.Wait
		}
		times = append(times, at)
	}
	slices.Sort(times)
	a := axis{from: from, room: room}
	for i, t := range slices.Compact(times) {
		m := mark{at: t}
		if i > 0 {
			last := a.marks[i-1]
			long := t - last.at
			if m.broken = long > longWait; m.broken {
				long = drawnAs
			}
			m.drawn = last.drawn + long
		}
		a.marks = append(a.marks, m)
	}
	a.all = max(1, a.marks[len(a.marks)-1].drawn)
	return a
}

// at is where a time stands on the paper.
func (a axis) at(t unit.Span) unit.Length {
	drawn := t
	for i, m := range a.marks {
		if t > m.at || i == 0 && t >= m.at {
			drawn = m.drawn + t - m.at
			continue
		}
		if m.broken && t < m.at {
			last := a.marks[i-1]
			drawn = last.drawn + unit.Span(unit.MulDiv(int64(t-last.at), int64(m.drawn-last.drawn), int64(m.at-last.at)))
		}
		if t == m.at {
			drawn = m.drawn
		}
		break
	}
	return a.from + a.room.Mul(int64(drawn), int64(a.all))
}

// breaks are the middles of what is cut short.
func (a axis) breaks() (out []unit.Span) {
	for i, m := range a.marks {
		if m.broken {
			out = append(out, (a.marks[i-1].at+m.at)/2)
		}
	}
	return out
}

// hungClock is the work against the clock: a row for each lane, black for hands,
// white for waiting, grey for the oven, everything as late as it can be.
func (s *sheet) hungClock(lanes []int) flow.Block {
	w := s.said.work
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		if len(w.Tasks) < 3 || w.Elapsed <= 0 {
			return 0
		}
		a := axisOf(w, s.mm(12), s.area.W-s.mm(12))
		y := s.z.pad
		rows := 0
		for _, l := range w.Lanes {
			if slices.Contains(lanes, laneOf(s.said, l.Formula)) {
				rows++
			}
		}
		high := s.mm(6)
		top := y + h.lead(s.z.small)
		s.hungHours(h, a, y, top, unit.Length(rows)*high)
		for _, l := range w.Lanes {
			if at := laneOf(s.said, l.Formula); slices.Contains(lanes, at) {
				s.hungBars(h, a, l, at, top, high)
				top += high
			}
		}
		return top
	})
}

// hungHours names the hours, and draws them through the rows.
func (s *sheet) hungHours(h *setter, a axis, y, top, high unit.Length) {
	base, free := y+h.up(s.z.small), unit.Length(0)
	for _, t := range s.hoursOf(a) {
		x, w := a.at(t.at), h.width(t.words, s.z.faint())
		x0 := min(max(a.from, x-w/2), s.area.W-w)
		if x0 < free {
			continue
		}
		h.line(x0, base, role.Note, nowhere, t.words, s.z.faint())
		h.Tint(page.Rect{X: min(x, s.area.W-s.z.hair), Y: top, W: s.z.hair, H: high}, 170)
		free = x0 + w + s.z.small
	}
	for _, b := range a.breaks() {
		s.zigzag(h, a.at(b), top, high)
	}
}

// zigzag marks a place where the axis is cut short.
func (s *sheet) zigzag(h *setter, x, y, high unit.Length) {
	h.Upright(x-s.z.rule, y, high, s.z.rule)
	h.Upright(x+s.z.rule, y, high, s.z.rule)
}

// hoursOf are the hours to name: of the day where it is known when all is to be
// ready, else of the work.
func (s *sheet) hoursOf(a axis) []tick {
	step := unit.Hour
	for step < 12*unit.Hour && a.room.Mul(int64(step), int64(a.all)) < s.z.small*5 {
		step *= 2
	}
	last := a.marks[len(a.marks)-1].at
	start, timed := s.Ready-last, s.Ready > 0 && s.said.oneDay()
	first := unit.Span(0)
	if timed {
		first = ((-start)%step + step) % step
	}
	var out []tick
	for t := first; t <= last; t += step {
		if s.cut(a, t) {
			continue
		}
		words := s.Langs[0].Span(t)
		if t == 0 {
			words = s.said.teller.Word("card.clock") + compose.NoBreak + "0"
		}
		if timed {
			words, _ = clockTime(start + t)
		}
		out = append(out, tick{t, words})
	}
	return out
}

// cut tells that a time lies where the axis is cut short.
func (s *sheet) cut(a axis, t unit.Span) bool {
	for i, m := range a.marks {
		if m.broken && t > a.marks[i-1].at && t < m.at {
			return true
		}
	}
	return false
}

// hungBars is one row of bars, with the numbers of the steps where they have
// room.
func (s *sheet) hungBars(h *setter, a axis, l scale.Lane, at int, y, high unit.Length) {
	bar := high * 3 / 4
	base := y + bar/2 + h.Faces.Bold.CapHeight(s.z.small)/2
	h.line(0, base, role.Step, s.said.Lanes[at].Src, s.said.Lanes[at].Letter, look{size: s.z.small, bold: true})
	tasks := slices.Clone(l.Tasks) // some of them may be going on side by side
	slices.SortStableFunc(tasks, func(i, j int) int { return cmp.Compare(s.said.no[i], s.said.no[j]) })
	free := unit.Length(0)
	for k, i := range tasks {
		t := s.said.work.Tasks[i]
		free = max(free, s.hungBar(h, a, t, y, bar)+s.z.pad/2)
		next := s.area.W
		if k+1 < len(tasks) {
			next = a.at(s.said.work.Tasks[tasks[k+1]].Latest())
		}
		no := s.Langs[0].Plain(int64(s.said.no[i]), 0)
		if w := h.width(no, s.z.note()); free+w < next-s.z.pad/4 {
			h.line(free, base, role.Note, t.Step.Pos, no, s.z.note())
			free += w + s.z.pad/2
		}
	}
}

// hungBar draws one step: hands, then waiting, once for each load and bowl. It
// returns where the first hands end.
func (s *sheet) hungBar(h *setter, a axis, t scale.Task, y, high unit.Length) (free unit.Length) {
	begin := t.Latest()
	at := func(t unit.Span) unit.Length { return min(a.at(t), s.area.W) }
	from, end := at(begin), at(begin+t.Long())
	if end > from {
		wide := max(end-from, 2*s.z.rule) // a short step beside a long rest is still seen
		h.Frame(page.Rect{X: min(from, s.area.W-wide), Y: y, W: wide, H: high}, s.z.rule)
	}
	for k := range t.Rounds {
		hands := begin + t.Round(k)
		if wait := at(hands+t.Wait) - at(hands); wait > 3*s.z.rule && ovenKind(t.Step.Kind.V) {
			h.Tint(page.Rect{X: at(hands) + s.z.rule, Y: y + s.z.rule, W: wait - 2*s.z.rule, H: high - 2*s.z.rule}, tint)
		}
		if hands > begin {
			wide := max(at(hands)-at(begin), s.z.rule)
			h.Tint(page.Rect{X: min(at(begin), s.area.W-wide), Y: y, W: wide, H: high}, 0)
		}
		if k == 0 {
			free = at(hands)
		}
		begin = hands + t.Wait
	}
	return free
}
