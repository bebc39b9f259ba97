package card

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// hungHead is the name and the batch, which card this is, and what it yields.
// Nothing stands where the card is punched.
func (s *sheet) hungHead(n, of int) flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		right := s.area.W
		low := unit.Length(0)
		if s.Code {
			box := s.qr(h, right)
			right, low = box.X-s.z.gap, box.Bottom()
		}
		y := max(s.whichCard(h, right, n, of), s.punched())
		box := s.boxWidth(h, s.z.batch)
		y = max(y+s.hungName(h, y, right-box-s.z.gap), y+s.batchBox(h, right-box, y, box, s.z.batch, s.said.Size))
		if y >= low {
			right = s.area.W
		}
		return max(y+s.yields(h, y, right), low) + s.z.pad/2
	})
}

// punched is how much of the area lies beside the hole.
func (s *sheet) punched() unit.Length {
	if !s.hangs() {
		return 0
	}
	return max(0, punch+unit.MM-s.area.Y)
}

// whichCard is the first line: version, day, check word on the left of the hole,
// which copy this is and where it hangs on the right of it.
func (s *sheet) whichCard(h *setter, right unit.Length, n, of int) unit.Length {
	side, from := s.area.W/2, s.area.W/2
	if s.hangs() {
		side, from = (s.area.W-punch-2*unit.MM)/2, (s.area.W+punch+2*unit.MM)/2
	}
	note, strong := s.z.note(), look{size: s.z.small, bold: true}
	words := func(t string, l look) group { return group{say(t, role.Note, nowhere, l)} }
	left := []group{words(s.said.Version, strong), words(s.said.Issued, note), words(s.said.Word, strong)}
	if of > 1 {
		left = append(left, words(pageOf(n, of), strong))
	}
	for _, f := range s.said.Hours {
		left = append(left, s.named2(f))
	}
	var where []group
	if s.Copies > 0 {
		where = append(where, words(s.copyOf(), note))
	}
	place := group{say(s.said.teller.Word("card.place"), role.Note, nowhere, note)}
	if s.Place != "" {
		place = append(place, say(s.Place, role.Note, nowhere, strong))
	} else {
		place = append(place, bit{kind: isBlank, look: note, wide: s.mm(30)})
	}
	where = append(where, place)
	return max(h.groups(0, 0, side, s.z.gap, left), h.groups(from, 0, right-from, s.z.gap, where))
}

// hungName sets the name as large as it fits on a line, in two lines where it is
// long, and below it in the second language.
func (s *sheet) hungName(h *setter, y, w unit.Length) unit.Length {
	name := s.said.Name
	size, _ := flow.Largest(s.z.title, s.z.most, 25, func(size unit.Length) bool {
		return h.width(name.first(), look{size: size, bold: true}) <= w
	})
	return h.told(0, y, w, role.Name, name, look{size: max(size, s.z.title), bold: true})
}

// named2 is a fact behind what it is called.
func (s *sheet) named2(f fact) group {
	return group{say(f.What.joined(), role.Note, f.What.Src, s.z.faint()),
		say(f.Value.joined(), role.Note, f.Value.Src, look{size: s.z.small, bold: true})}
}

// yields is the line below the name: trays, and what goes into a piece.
func (s *sheet) yields(h *setter, y, w unit.Length) unit.Length {
	var all []group
	for _, f := range slices.Concat(s.said.Facts, s.said.Bases) {
		all = append(all, s.named2(f))
	}
	return h.groups(0, y, w, s.z.gap, all)
}

// qr is a code of what tells this card from every other, at the upper right
// corner: the same as on the full card.
func (s *sheet) qr(h *setter, right unit.Length) page.Rect {
	sym, err := symbol.QR(s.known(), symbol.M, symbol.Module{X: s.module(), Dots: s.Dots})
	if err != nil {
		h.Fail(err)
		return page.Rect{X: right}
	}
	try := h.apart()
	box := try.Bars(0, 0, sym, "", 0, diag.Pos{})
	h.Take(try.Setter, right-box.Right(), -box.Y)
	return page.Rect{X: right - box.W, W: box.W, H: box.H}
}

// known is what tells this card from every other: its id, version, day, batch
// and check word.
func (s *sheet) known() string {
	id, _ := s.id()
	return strings.Join([]string{id, s.said.Version, s.said.Issued, plainASCII(s.said.Size.first()), s.said.Word}, " ")
}

// hungAllergens is what is on the card, each in all languages, in a box.
func (s *sheet) hungAllergens() flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		in := s.z.thick + s.z.pad
		x, w, used := in, s.area.W-2*in, in
		if len(s.said.Contained) > 0 {
			head := group{{kind: isIcon, icon: flow.Warning, look: s.z.note()}, say(s.said.teller.both("card.allergens-here"), role.Note, nowhere, s.z.note())}
			used += h.groups(x, used, w, s.z.gap, append([]group{head}, s.contained()...))
		}
		used += h.told(x, used, w, role.Allergens, s.said.None, s.z.strong())
		used += in
		h.Frame(page.Rect{W: s.area.W, H: used}, s.z.thick)
		return used + s.z.pad
	})
}

// contained are the allergens, the first language bold, the second beside it.
func (s *sheet) contained() []group {
	var all []group
	for _, t := range s.said.Contained {
		g := group{say(t.first(), role.Allergens, t.Src, s.z.strong())}
		for _, other := range t.In[1:] {
			if other != t.first() {
				g = append(g, say(other, role.Allergens, t.Src, s.z.plain()))
			}
		}
		all = append(all, g)
	}
	return all
}

// care is one line with what to be careful about, and at which steps.
func (s *sheet) care(lanes []int) flow.Block {
	_, src := s.id()
	var all []group
	at := map[string][]string{}
	var order []told
	for _, r := range s.rowsOf(lanes) {
		for _, c := range r.Step.Cautions {
			if at[c.first()] == nil {
				order = append(order, c)
			}
			at[c.first()] = append(at[c.first()], fmt.Sprint(r.Step.No))
		}
	}
	for _, c := range order {
		all = append(all, group{{kind: isIcon, icon: flow.Warning, look: s.z.note()}, say(c.joined()+":", role.Note, c.Src, s.z.note()),
			say(strings.Join(at[c.first()], ", "), role.Note, c.Src, look{size: s.z.small, bold: true})})
	}
	for _, c := range s.said.Clashes {
		for i, in := range c.In {
			all = append(all, group{{kind: isIcon, icon: flow.Warning, look: s.z.note()}, say(in, role.Note, c.Src, s.z.of(i))})
		}
	}
	return s.block(src, false, func(h *setter) unit.Length {
		if len(all) == 0 {
			return 0
		}
		return h.groups(0, 0, s.area.W, s.z.gap, all) + s.z.pad/2
	})
}

// rowsOf are the steps of some lanes by the clock.
func (s *sheet) rowsOf(lanes []int) []row {
	return slices.DeleteFunc(s.said.byClock(), func(r row) bool { return !slices.Contains(lanes, r.Lane) })
}

// hungFoot is how it is kept, which label it gets, and who stands for it.
func (s *sheet) hungFoot() flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		h.Rule(0, s.z.pad, s.area.W, s.z.thick)
		var all []group
		for _, t := range s.said.Keep {
			for i, in := range t.In {
				l := s.z.of(i)
				l.bold = i == 0
				all = append(all, group{say(in, role.Keep, t.Src, l)})
			}
		}
		by := group{say(s.said.teller.Word("card.approved-by"), role.Note, nowhere, s.z.faint())}
		if s.said.Approved != "" {
			by = append(by, say(s.said.Approved, role.Note, nowhere, s.z.note()))
		} else {
			by = append(by, bit{kind: isBlank, look: s.z.note(), wide: s.mm(30)})
		}
		y := s.z.pad + s.z.thick + s.z.pad/2
		return y + h.groups(0, y, s.area.W, s.z.gap, append(all, by)) + s.z.pad/2
	})
}
