package card

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
)

// stopping sets when a step is done: temperatures large, the other scale under
// them, the weight of the pan, the look, the time. It returns where it ends.
// Where there is room for two columns, temperatures stand beside each other,
// the last in the usual column, and a single one has the words to its left.
func (s *sheet) stopping(h *hand, base unit.Length, st *step, a arrangement) unit.Length {
	c := a.stop
	y := base - h.up(s.z.key)
	if len(st.Heats) == 0 || st.Heats[0].Lead == "" {
		y = base - h.up(s.z.small)
		if st.Weight != nil {
			y = base - h.up(s.z.body)
		}
	}
	last := s.cols.stop
	before := span{c.X, last.X - s.z.gap - c.X}
	if before.W < last.W || len(st.Heats) == 0 {
		for _, t := range st.Heats {
			y += s.heat(h, last, y, t)
		}
		return s.seen(h, last, y, st, a)
	}
	if len(st.Heats) == 1 {
		return max(y+s.heat(h, last, y, st.Heats[0]), s.seen(h, before, base-h.up(s.z.small), st, a))
	}
	for i := 0; i < len(st.Heats); i += 2 {
		if i+1 == len(st.Heats) {
			y += s.heat(h, last, y, st.Heats[i])
			break
		}
		y += max(s.heat(h, before, y, st.Heats[i]), s.heat(h, last, y, st.Heats[i+1]))
	}
	return s.seen(h, c, y, st, a)
}

// seen sets the weight of the pan, the look and the time, and returns where
// they end.
func (s *sheet) seen(h *hand, c span, y unit.Length, st *step, a arrangement) unit.Length {
	if w := st.Weight; w != nil {
		y += h.groups(c.X, y, c.W, s.z.small/3, []group{
			{{kind: isIcon, icon: flow.Scale, look: s.z.note()}, say(w.Pan.joined(), role.Note, w.Src, s.z.note())},
			{say(w.More, role.Amount, w.Src, s.z.strong())}})
	}
	if !a.low {
		y += h.told(c.X, y, c.W, role.Step, st.Look, s.z.note())
	}
	return y + s.clock(h, c, y, st)
}

// heat sets one temperature behind its icon, and below it the icon's word and
// the other scale. It returns the height. Where the key size is too wide for
// the column, the size of amounts is still what the distance asks.
func (s *sheet) heat(h *hand, c span, y unit.Length, t heat) unit.Length {
	if t.Lead == "" {
		g := group{{kind: isIcon, icon: t.Icon, look: s.z.note()}, say(t.What.joined(), role.Note, t.Src, s.z.note())}
		return h.groups(c.X, y, c.W, s.z.gap, []group{g})
	}
	big := s.z.big()
	in := s.z.small * 5 / 4
	if h.width(t.Lead, big) > c.W-in {
		big = s.z.strong()
	}
	used := h.lead(big.size)
	h.bit(c.X, y+h.up(big.size), bit{kind: isIcon, icon: t.Icon, look: s.z.note(), role: role.Note})
	used = max(used, h.words(c.X+in, y, c.W-in, role.Heat, t.Src, t.Lead, big))
	second := []group{{say(t.What.joined(), role.Note, t.Src, s.z.faint())}, {say(t.Other, role.Heat, t.Src, s.z.plain())}}
	return used + h.groups(c.X+in, y+used, c.W-in, s.z.small/2, second)
}

// clock sets the hands-on and the waiting time behind their marks.
func (s *sheet) clock(h *hand, c span, y unit.Length, st *step) unit.Length {
	var all []group
	l := s.z.note()
	if st.Hands != "" {
		all = append(all, group{{kind: isSolid, look: l}, say(st.Hands, role.Note, diag.Pos{}, l)})
	}
	if st.Wait != "" {
		mark := isOutline
		if st.Oven {
			mark = isHatch
		}
		all = append(all, group{{kind: mark, look: l}, say(st.Wait, role.Note, diag.Pos{}, l)})
	}
	if len(all) == 0 {
		return 0
	}
	return h.groups(c.X, y, c.W, s.z.gap, all)
}
