package card

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// limit sets a critical limit in its box: the word and a shape, what must be
// reached, how it is measured, what to do if it is missed, and, where a time
// counts, lines to write on. It returns the height.
func (s *sheet) limit(h *hand, r page.Rect, l *limit) unit.Length {
	return h.Boxed(r, s.z.pad, s.z.thick, func(set *compose.Setter, r page.Rect) unit.Length {
		in, y := &hand{set, s.z}, r.Y
		y += s.limitHead(in, r.X, y, r.W, l)
		y += s.pair(in, r.X, y, r.W, "card.measure", l.Measure)
		y += s.pair(in, r.X, y, r.W, "card.if-not", l.IfNot)
		if !l.Within.empty() {
			y += s.writeOn(in, r.X, y, r.W, l)
		}
		return y - r.Y
	})
}

// limitHead is what must be reached.
func (s *sheet) limitHead(h *hand, x, y, w unit.Length, l *limit) unit.Length {
	big := s.z.big()
	words := func(t string, l look) bit { return say(t, role.Limit, diag.Pos{}, l) }
	all := []group{{{kind: isIcon, icon: flow.Limit, look: big, role: role.Limit}, words(s.said.teller.both("card.limit"), s.z.strong())}}
	if l.Heat != nil {
		all = append(all, group{say(l.Heat.Lead, role.Limit, l.Heat.Src, big), say(l.Heat.Other, role.Limit, l.Heat.Src, s.z.plain())})
	}
	second := group{}
	for _, t := range []told{l.Within, l.Hold} {
		if t.empty() {
			continue
		}
		all = append(all, group{words(t.In[0], big)})
		if len(t.In) > 1 && t.In[1] != t.In[0] {
			second = append(second, words(t.In[1], s.z.plain()))
		}
	}
	if len(second) > 0 {
		all = append(all, second)
	}
	return h.groups(x, y, w, s.z.gap, all)
}

// pair is a word and what it stands for, in each language; on one line where
// it has room.
func (s *sheet) pair(h *hand, x, y, w unit.Length, key string, t told) unit.Length {
	var all []text.Para
	var wide unit.Length
	for i, word := range s.said.teller.word(key).In {
		all = append(all, text.Para{Role: role.Limit, Src: t.Src, Spans: []text.Span{{Text: word + ": ", Bold: true}, {Text: t.In[i]}}})
		wide += h.width(word+": ", s.z.strong()) + h.width(t.In[i], s.z.plain()) + s.z.gap
	}
	if len(all) == 2 && wide < w {
		half := h.width(all[0].Spans[0].Text, s.z.strong()) + h.width(t.In[0], s.z.plain()) + s.z.gap
		h.para(x+half, y, w-half, all[1], look{size: s.z.body, gray: soft})
		return h.para(x, y, half, all[0], s.z.plain())
	}
	var used unit.Length
	for i, p := range all {
		l := s.z.plain()
		if i > 0 {
			l.gray = soft
		}
		used += h.para(x, y+used, w, p, l)
	}
	return used
}

// writeOn is where the times are written: from when to when.
func (s *sheet) writeOn(h *hand, x, y, w unit.Length, l *limit) unit.Length {
	note := s.z.note()
	words := func(t string) bit { return say(t, role.Note, diag.Pos{}, note) }
	blank := bit{kind: isBlank, look: note, wide: s.z.small * 7}
	reach := group{{kind: isIcon, icon: flow.Arrow, look: note}}
	if l.Heat != nil {
		reach = append(reach, say(l.Heat.Lead, role.Limit, l.Heat.Src, s.z.strong()))
	}
	reach = append(reach, words(s.said.teller.both("card.done-by")), blank)
	all := []group{{words(s.said.teller.both("card.start-at")), blank}, reach}
	if l.Hours != "" {
		all = append(all, group{{kind: isIcon, icon: flow.Clock, look: note}, words(s.said.teller.both("card.clock")), say(l.Hours, role.Note, l.Src, s.z.faint())})
	}
	return h.groups(x, y, w, 2*s.z.gap, all)
}
