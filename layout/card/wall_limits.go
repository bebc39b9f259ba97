package card

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// hungLimit is a critical limit in its box: what must be reached, how it is
// measured, what to do if it is missed, and a line to keep the record on.
func (s *sheet) hungLimit(h *setter, y unit.Length, r row) unit.Length {
	in := s.z.thick + s.z.pad
	x, w, used := in, s.area.W-2*in, y+in
	for i := range s.Langs {
		used += h.groups(x, used, w, s.z.gap, s.must(r, i))
	}
	used += h.groups(x, used, w, s.z.gap, s.record(h, w, r.Step.Limit))
	used += in
	h.Frame(page.Rect{Y: y, W: s.area.W, H: used - y}, s.z.thick)
	return used - y
}

// must says a limit in one language: what must be reached and in which time, how
// it is measured, and what to do if it is missed. Figures stand in the first.
func (s *sheet) must(r row, i int) []group {
	l, t := r.Step.Limit, s.said.teller
	key, text, word := s.z.big(), s.z.text(), s.z.strong()
	if i > 0 {
		key, text, word = s.z.faint(), s.z.faint(), s.z.faint()
	}
	as := func(s string, k look) group { return group{say(s, role.Limit, l.Src, k)} }
	if i > 0 {
		as = func(s string, k look) group { return group{say(s, role.Step, l.Src, k)} }
	}
	all := []group{as(t.word("card.limit").In[i], word)}
	if i == 0 {
		all = s.atStep(r)
	}
	for _, t := range []told{l.Within, l.From, l.Hold} {
		if !t.empty() {
			all = append(all, as(t.In[i], key))
		}
	}
	if i == 0 && l.Hours != "" {
		all = append(all, group{say(l.Hours, role.Note, l.Src, s.z.faint())})
	}
	return append(all, group{say(l.Measure.In[i], role.Step, l.Src, text)},
		group{say(t.word("card.if-not").In[i]+": "+l.IfNot.In[i], role.Step, l.Src, text)})
}

// atStep is the mark of a limit, its step, and what must be reached.
func (s *sheet) atStep(r row) []group {
	l := r.Step.Limit
	no := s.said.teller.Word("card.limit") + compose.NoBreak + s.Langs[0].Plain(int64(r.Step.No), 0)
	all := []group{{{kind: isIcon, icon: flow.Limit, look: s.z.big(), role: role.Limit}, say(no, role.Limit, l.Src, s.z.strong())}}
	if l.Heat != nil {
		all = append(all, group{say(l.Heat.Lead, role.Limit, l.Heat.Src, s.z.big()), say(l.Heat.Other, role.Note, l.Heat.Src, s.z.note())})
	}
	return all
}

// record is the line to write on: when it began, when and at how many degrees it
// was reached, who stands for it, and the lot.
func (s *sheet) record(h *setter, w unit.Length, l *limit) []group {
	t, note := s.said.teller, s.z.note()
	from, to := "card.out", "card.reached"
	if l.Within.empty() {
		from, to = "card.start-at", "card.done-by"
	}
	var all []group
	ask := func(what string) {
		all = append(all, group{say(what, role.Note, l.Src, note), {kind: isBlank, look: note}})
	}
	ask(t.both(from))
	ask(t.both(to))
	ask("°C")
	ask(t.both("card.who"))
	ask(t.both("card.lot"))
	s.share(h, w, all)
	return all
}

// share gives the lines to write on what words leave of a row, of at least as
// many rows as give each room to write in.
func (s *sheet) share(h *setter, w unit.Length, all []group) {
	least, words := 18*unit.MM, s.z.gap*unit.Length(len(all)-1)
	for _, g := range all {
		words += h.groupWidth(g)
	}
	each := (w - words - unit.MM) / unit.Length(len(all))
	for _, g := range all {
		g[len(g)-1].wide = max(each, least)
	}
}
