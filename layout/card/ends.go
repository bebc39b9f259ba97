package card

import (
	"slices"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/symbol"
)

// keepBlock stands under the last step: how it is kept, and which label it
// gets.
func (s *sheet) keepBlock() []flow.Block {
	if len(s.said.Keep) == 0 {
		return nil
	}
	_, src := s.id()
	return []flow.Block{s.block(src, false, func(h *hand) unit.Length {
		h.Rule(0, s.z.pad, s.area.W, s.z.thick)
		y := s.z.pad + s.z.thick + s.z.pad
		for _, t := range s.said.Keep {
			y += h.told(0, y, s.area.W, role.Keep, t, s.z.strong())
		}
		return y + s.z.pad
	})}
}

// notes are what has no place in the order of the steps: cautions, where else
// to look, and the code.
func (s *sheet) notes() []note {
	var all []note
	for _, t := range slices.Concat(s.said.Clashes, s.said.Cautions) {
		all = append(all, note{blocks: []flow.Block{s.notice(t, flow.Warning)}})
	}
	rules := s.said.Rules
	if s.Code {
		rules = rules[:len(rules)-1] // the last stands beside the code
	}
	var where []flow.Block
	for i, t := range rules {
		b := s.notice(t, flow.Arrow)
		b.Tied = i+1 < len(rules)
		where = append(where, b)
	}
	all = append(all, note{blocks: where})
	if !s.said.Balance.empty() {
		all = append(all, note{blocks: []flow.Block{s.notice(s.said.Balance, flow.Scale)}})
	}
	if s.Code {
		all = append(all, note{blocks: s.code()})
	}
	return all
}

// notice is a sentence behind an icon; on a wide paper the two languages stand
// side by side.
func (s *sheet) notice(t told, icon flow.Icon) flow.Block {
	return s.block(t.Src, false, func(h *hand) unit.Length {
		x := s.z.small * 3 / 2
		w := s.area.W - x
		h.bit(0, h.up(s.z.small), bit{kind: isIcon, icon: icon, look: s.z.note(), role: role.Note})
		if len(t.In) < 2 || s.area.W < 45*s.z.small {
			return h.told(x, 0, w, role.Note, t, s.z.note()) + s.z.pad/2
		}
		w = (w - s.z.gap) / 2
		left := h.words(x, 0, w, role.Note, t.Src, t.In[0], s.z.note())
		right := h.words(x+w+s.z.gap, 0, w, role.Note, t.Src, t.In[1], s.z.faint())
		return max(left, right) + s.z.pad/2
	})
}

// code is a QR code of what tells this card from every other: its id, version,
// day, batch and check word, so that a phone shows what to compare with the
// list of current cards.
func (s *sheet) code() []flow.Block {
	id, src := s.id()
	data := strings.Join([]string{id, s.said.Version, s.said.Issued, plainASCII(s.said.Size.first()), s.said.Word}, " ")
	return []flow.Block{s.block(src, false, func(h *hand) unit.Length {
		sym, err := symbol.QR(data, symbol.M, symbol.Module{X: s.module(), Dots: s.Dots})
		if err != nil {
			h.Fail(err)
			return 0
		}
		box := h.Bars(0, s.z.pad, sym, "", 0, src)
		h.told(box.Right()+s.z.gap, s.z.pad+s.z.gap, s.area.W-box.Right()-s.z.gap, role.Note, s.said.Rules[len(s.said.Rules)-1], s.z.note())
		return box.Bottom() + s.z.pad
	})}
}

// module is the width of a module of the code: 0.625 mm, the target for a
// symbol read by hand (labels/gs1, QR in retail), in whole dots.
func (s *sheet) module() unit.Length {
	const target = 625 * unit.UM
	if s.Dots.N == 0 {
		return target
	}
	return s.Dots.At(s.Dots.Floor(target))
}

// plainASCII leaves out what a code reader may show wrongly.
func plainASCII(t string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == 0xA0 || r == 0x202F:
			return ' '
		case r > 126:
			return '?'
		}
		return r
	}, t)
}
