package card

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// ends are the blocks after the last step: keep and label, cautions, and where
// else to look.
func (s *sheet) ends() []flow.Block {
	_, src := s.id()
	var all []flow.Block
	if len(s.said.Keep) > 0 {
		all = append(all, s.block(src, false, func(h *hand) unit.Length {
			h.Rule(0, s.z.pad, s.area.W, s.z.thick)
			y := s.z.pad + s.z.thick + s.z.pad
			for _, t := range s.said.Keep {
				y += h.told(0, y, s.area.W, page.Keep, t, s.z.strong())
			}
			return y + s.z.pad
		}))
	}
	for _, t := range s.said.Cautions {
		all = append(all, s.notice(t, flow.Warning))
	}
	for _, t := range s.said.Rules {
		all = append(all, s.notice(t, flow.Arrow))
	}
	return all
}

// notice is a sentence behind an icon.
func (s *sheet) notice(t told, icon flow.Icon) flow.Block {
	return s.block(t.Src, false, func(h *hand) unit.Length {
		x := s.z.small * 3 / 2
		h.bit(0, h.up(s.z.small), bit{kind: isIcon, icon: icon, look: s.z.note(), role: page.Note})
		return h.told(x, 0, s.area.W-x, page.Note, t, s.z.note()) + s.z.pad/2
	})
}

var _ diag.Pos
