package card

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
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
		return y + h.groups(0, y, s.area.W, 2*s.z.gap, s.footGroups(n, of))
	})
}

func (s *sheet) footGroups(n, of int) []group {
	note, faint, strong := s.z.note(), s.z.faint(), look{size: s.z.small, bold: true}
	words := func(t string, l look) bit { return say(t, page.Note, diag.Pos{}, l) }
	orBlank := func(what, t string) group {
		if t == "" {
			return group{words(what, faint), {kind: isBlank, look: note, wide: s.z.small * 8}}
		}
		return group{words(what, faint), words(t, note)}
	}
	all := []group{{words(s.said.Version, strong), words(s.said.Issued, note)}, {words(s.said.Word, strong)},
		orBlank(s.word("card.approved-by"), s.said.Approved)}
	if s.Copies > 0 {
		all = append(all, group{words(s.copyOf(), note)})
	}
	all = append(all, orBlank(s.word("card.place"), s.Place), group{words(pageOf(n, of), strong)})
	if n > 1 {
		return all
	}
	tick := bit{kind: isTick, look: note}
	return append(all, group{{kind: isIcon, icon: flow.Probe, look: note}, words(s.both("probe.check"), faint)},
		group{tick, words(s.both("probe.ice"), note)}, group{tick, words(s.both("probe.boiling"), note)})
}

// copyOf is "copy 2 of 3".
func (s *sheet) copyOf() string {
	t, err := s.Langs[0].Fill("card.copy", map[string]string{"n": fmt.Sprint(s.Copy), "m": fmt.Sprint(s.Copies)})
	if err != nil {
		_, src := s.id()
		s.found.Errorf(src, "words", "complete the language file", "%v", err)
	}
	return t
}
