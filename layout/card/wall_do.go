package card

import (
	"slices"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// working is what is done, in the order of the clock, a block for the heads of
// the columns and one for each step. Every fact of a step stands in its column.
func (s *sheet) working(c hungCols, lanes []int, looks bool) []flow.Block {
	_, src := s.id()
	out := []flow.Block{s.block(src, true, func(h *setter) unit.Length { return s.workHead(h, c) })}
	for _, r := range s.rowsOf(lanes) {
		out = append(out, s.block(r.Step.Src, false, func(h *setter) unit.Length { return s.work(h, c, r, looks) }))
	}
	return out
}

func (s *sheet) workHead(h *setter, c hungCols) unit.Length {
	l, right := s.z.faint(), s.z.faint()
	right.align = flow.Right
	x := c.no.X
	used := h.words(x, 0, c.heat.X-x, role.Note, nowhere, s.said.teller.both("card.in-order"), l)
	used = max(used, h.words(c.heat.X, 0, c.heat.W, role.Note, nowhere, s.said.teller.Word("card.stop-when"), right))
	used = max(used, h.words(c.time.X, 0, c.time.W, role.Note, nowhere, s.minute(), right))
	return used + s.z.pad/4
}

// work is one step.
func (s *sheet) work(h *setter, c hungCols, r row, looks bool) unit.Length {
	st := r.Step
	h.Rule(c.no.X, 0, s.area.W-c.no.X, s.z.hair)
	base := s.z.pad + h.Faces.Bold.CapHeight(s.z.key)
	h.line(c.no.X, base, role.Figure, st.Src, s.Langs[0].Plain(int64(st.No), 0), s.z.big())
	h.line(c.lane.X, base, role.Step, st.Src, s.said.Lanes[r.Lane].Letter, look{size: s.z.small, bold: true})
	if len(st.Cautions) > 0 {
		h.bit(c.no.X, base+h.lead(s.z.small), bit{kind: isIcon, icon: flow.Warning, look: s.z.note(), role: role.Note})
	}
	low := max(s.sentence(h, c.do, base, st, looks), s.ending(h, c.heat, base, st), s.minutes(h, c.time, base, st))
	for _, a := range st.Advice {
		if a.Icon == flow.Warning || a.Hang {
			low += s.advice(h, c.do.X, a, low)
		}
	}
	return low + s.z.pad/2
}

// on is where a paragraph begins, so that its first line stands on base.
func (h *setter) on(base, size unit.Length) unit.Length { return base - h.up(size) }

// sentence is what is done, in few words, and below it in the second language;
// then how it looks when it is done, and the tool with its setting, where those
// are short.
func (s *sheet) sentence(h *setter, c span, base unit.Length, st *step, looks bool) unit.Length {
	y := h.on(base, s.z.read)
	y += h.told(c.X, y, c.W, role.Step, st.Short, s.z.text())
	y += s.onTheWay(h, c, y, st)
	if !looks {
		return y
	}
	for _, t := range []told{passing(st.Tool, set), passing(st.Look, brief)} {
		for i, in := range t.In {
			y += h.words(c.X, y, c.W, role.Step, t.Src, "– "+in, s.z.of(i))
		}
	}
	return y
}

// passing is a text that the wall has room for in each language, or nothing.
func passing(t told, ok func(string) bool) told {
	if slices.ContainsFunc(t.In, func(in string) bool { return !ok(in) }) {
		return told{}
	}
	return t
}

// brief tells that words can be read in passing; set, that they name a setting.
func brief(s string) bool { return len([]rune(s)) <= 40 }

func set(s string) bool { return brief(s) && strings.ContainsAny(s, "0123456789") }

// heatsOf are the temperatures of a step on the way, and what it comes to: its
// limit, or the last that is no side condition.
func (s *sheet) heatsOf(st *step) (way []heat, end *heat) {
	way = slices.DeleteFunc(slices.Clone(st.Heats), func(t heat) bool { return t.Lead == "" })
	if l := st.Limit; l != nil && l.Heat != nil {
		return way, &heat{Icon: flow.Limit, Lead: l.Heat.Lead, Other: l.Heat.Other, Src: l.Heat.Src}
	}
	for i, t := range slices.Backward(way) {
		if !t.Side {
			return slices.Delete(way, i, i+1), &t
		}
	}
	return way, nil
}

// ending is what a step comes to, in the largest figures, and the other scale
// below it.
func (s *sheet) ending(h *setter, c span, base unit.Length, st *step) unit.Length {
	_, t := s.heatsOf(st)
	if t == nil {
		return base
	}
	l := look{size: s.z.key, bold: true, align: flow.Right}
	lead := t.Lead
	if h.width(lead, l) > c.W {
		l.size = s.z.clock
	}
	if h.width(lead, l) > c.W {
		lead = strings.Replace(lead, compose.NoBreak, " ", 1)
	}
	y := h.on(base, l.size)
	if t.Icon == flow.Limit {
		if x := c.X + c.W - h.width(lead, l) - s.z.key; x > c.X {
			h.bit(x, base, bit{kind: isIcon, icon: flow.Limit, look: look{size: s.z.key * 4 / 5}, role: role.Limit})
		}
	}
	y += h.words(c.X, y, c.W, role.Heat, t.Src, lead, l)
	below := []string{t.Other}
	if t.Named {
		below = append(t.What.In[:len(t.What.In):len(t.What.In)], t.Other)
	}
	return y + h.words(c.X, y, c.W, role.Note, t.Src, strings.Join(slices.Compact(below), " "), look{size: s.z.small, align: flow.Right})
}

// onTheWay are the temperatures that a step sets or passes, each with its word,
// and what the pan weighs in the end.
func (s *sheet) onTheWay(h *setter, c span, y unit.Length, st *step) unit.Length {
	var all []group
	strong := look{size: s.z.clock, bold: true}
	way, _ := s.heatsOf(st)
	for _, t := range way {
		all = append(all, s.passed(h, c, t)...)
	}
	if w := st.Weight; w != nil {
		all = append(all, group{say(w.Pan.joined(), role.Note, w.Src, s.z.note()), say(w.More, role.Amount, w.Src, strong)})
	}
	if st.Range != "" {
		all = append(all, group{{kind: isOutline, look: s.z.note()}, say(st.Range, role.Note, st.Src, s.z.note())})
	}
	for _, w := range st.Says {
		all = append(all, s.saying(w)...)
	}
	return h.groups(c.X, y, c.W, s.z.gap, all)
}

// passed is a temperature on the way behind its word; what it has to say in many
// words follows it, each language by itself.
func (s *sheet) passed(h *setter, c span, t heat) []group {
	figure := group{say(t.Lead, role.Heat, t.Src, look{size: s.z.clock, bold: true}), say(t.Other, role.Note, t.Src, s.z.note())}
	if word := t.What.joined(); h.width(word, s.z.note()) < c.W/2 {
		return []group{append(group{say(word, role.Note, t.Src, s.z.note())}, figure...)}
	}
	all := []group{figure}
	for i, in := range slices.Compact(slices.Clone(t.What.In)) {
		all = append(all, group{say(in, role.Note, t.Src, s.z.of(i))})
	}
	return all
}

// saying is a fact in words, behind a mark where it is a warning.
func (s *sheet) saying(w saying) []group {
	if w.Kind == sayNever {
		g := group{{kind: isIcon, icon: flow.Warning, look: s.z.note()}}
		for i, in := range w.Said.In {
			l := s.z.of(i)
			l.bold = i == 0
			g = append(g, say(in, role.Note, w.Said.Src, l))
		}
		return []group{g}
	}
	var all []group
	for i, in := range slices.Compact(slices.Clone(w.Said.In)) {
		all = append(all, group{say(in, role.Note, w.Said.Src, s.z.of(i))})
	}
	return all
}

// minutes are how long hands are at work, and how long it waits after them;
// below, when to begin.
func (s *sheet) minutes(h *setter, c span, base unit.Length, st *step) unit.Length {
	long := s.said.work.Tasks[st.task].Timing
	t := s.span(long.Hands)
	if w := s.span(long.Wait); w != "" {
		if long.Rounds > 1 {
			w = s.said.teller.times(long.Rounds) + w
		}
		t = strings.TrimSpace(t + " +" + compose.NoBreak + w)
	}
	y := h.on(base, s.z.clock)
	if t != "" {
		y += h.words(c.X, y, c.W, role.Figure, st.Src, t, look{size: s.z.clock, bold: true, align: flow.Right})
	} else {
		y += h.lead(s.z.clock)
	}
	if st.Latest != "" {
		y += h.words(c.X, y, c.W, role.Note, st.Src, st.Latest, look{size: s.z.small, align: flow.Right})
	}
	return y
}

// span is a time in minutes up to an hour and a half, else in hours.
func (s *sheet) span(t unit.Span) string {
	switch {
	case t <= 0:
		return ""
	case t <= 90*unit.Minute && t%unit.Minute == 0:
		return s.Langs[0].Plain(int64(t/unit.Minute), 0)
	}
	said := s.Langs[0].Span(t)
	if t%unit.Hour != 0 && t > unit.Hour {
		said, _ = strings.CutSuffix(said, compose.NoBreak+s.minute())
	}
	return said
}

// hungLimits are the limits of some lanes, each in its box across the card.
func (s *sheet) hungLimits(lanes []int) flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		y := s.z.pad
		for _, r := range s.rowsOf(lanes) {
			if r.Step.Limit != nil {
				y += s.hungLimit(h, y, r) + s.z.pad
			}
		}
		return y - s.z.pad
	})
}

// minute is the word for minutes, as the first language writes it.
func (s *sheet) minute() string {
	return strings.TrimLeft(s.Langs[0].Span(0), "0"+compose.NoBreak)
}
