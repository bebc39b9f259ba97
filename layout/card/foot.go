package card

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
)

// pageOf is "1/2", which every language reads.
func pageOf(n, of int) string { return fmt.Sprintf("%d/%d", n, of) }

// foot stands at the end of every page: which version this is, who stands for
// it, which copy and where; on the first page a check of the probe too.
func (s *sheet) foot(n, of int) flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *hand) unit.Length {
		y := s.z.pad
		h.Rule(0, y, s.area.W, s.z.rule)
		y += s.z.rule + s.z.pad/2
		all := s.control(h, n, of)
		if n == 1 {
			all = append(all, s.probe()...)
		}
		return y + h.groups(0, y, s.area.W, s.z.gap, all)
	})
}

// control says which card this is, who stands for it, and where it hangs.
func (s *sheet) control(h *hand, n, of int) []group {
	note, faint, strong := s.z.note(), s.z.faint(), look{size: s.z.small, bold: true}
	words := func(t string, l look) bit { return say(t, role.Note, diag.Pos{}, l) }
	orBlank := func(what, t string) group {
		if t == "" {
			return group{words(what, faint), {kind: isBlank, look: note, wide: s.z.small * 4}}
		}
		return group{words(what, faint), words(t, note)}
	}
	all := []group{{words(s.said.Version, strong), words(s.said.Issued, note)}, {words(s.said.Word, strong)}, {words(pageOf(n, of), strong)},
		orBlank(s.said.teller.Word("card.approved-by"), s.said.Approved)}
	if s.Copies > 0 {
		all = append(all, group{words(s.copyOf(), note)})
	}
	place := orBlank(s.said.teller.Word("card.place"), s.Place)
	all = append(all, place)
	s.stretch(h, place, all)
	return all
}

// stretch lets the line to write the place on take the rest of its row.
func (s *sheet) stretch(h *hand, place group, all []group) {
	rest := s.area.W - s.z.gap*unit.Length(len(all)-1)
	for _, g := range all {
		rest -= h.groupWidth(g)
	}
	if last := &place[len(place)-1]; last.kind == isBlank && rest > 0 {
		last.wide += min(rest, s.z.small*8)
	}
}

// probe is the check of the thermometer, to be ticked.
func (s *sheet) probe() []group {
	note := s.z.note()
	tick := bit{kind: isTick, look: note}
	words := func(key string, l look) bit { return say(s.said.teller.both(key), role.Note, diag.Pos{}, l) }
	return []group{{{kind: isIcon, icon: flow.Probe, look: note}, words("probe.check", s.z.faint())},
		{tick, words("probe.ice", note)}, {tick, words("probe.boiling", note)}}
}

// copyOf is "copy 2 of 3".
func (s *sheet) copyOf() string {
	return s.said.teller.Fill("card.copy", map[string]string{"n": fmt.Sprint(s.Copy), "m": fmt.Sprint(s.Copies)})
}
