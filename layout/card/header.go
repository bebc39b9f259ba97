package card

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// facts says the facts strip: what it yields, what goes into a piece, what it
// is made on, how long it takes.
func (t *teller) facts(out *content) {
	l := t.Lang()
	w := out.work
	if w.Elapsed > 0 {
		out.Times = &times{Total: l.Span(w.Elapsed), Hands: l.Span(w.Hands)}
		for _, task := range w.Tasks {
			if task.Wait > 0 {
				oven := ovenKind(task.Step.Kind.V)
				out.Times.Oven, out.Times.Waits = out.Times.Oven || oven, out.Times.Waits || !oven
			}
		}
	}
	if p := t.Product; p != nil {
		each := unit.MulDiv(int64(t.Batch.Out), 1, int64(t.Batch.Pieces))
		value := fmt.Sprintf("%s × %s", l.Plain(int64(t.Batch.Pieces), 0), l.MassIn(unit.Mass(each), "g", 1))
		out.Facts = append(out.Facts, fact{t.word("card.yield"), numbered(value, p.Pos)})
		t.trays(out)
		t.bakes(out)
		out.Facts = append(out.Facts, fact{t.word("card.per-piece"), t.perPiece(out)})
	}
	t.bowlFacts(out)
	for _, r := range out.Rows {
		if r.Step == nil {
			continue
		}
		for _, p := range r.Step.Puts {
			if p.Small && out.Small.empty() {
				out.Small = t.word("card.small-scale")
			}
		}
	}
}

// trays says how many trays are filled, and how full the last one is.
func (t *teller) trays(out *content) {
	tray, n := t.Product.Tray, t.Batch.Pieces
	if tray == nil || tray.Holds.V < 1 {
		return
	}
	l, full, rest := t.Lang(), int64(n/tray.Holds.V), int64(n%tray.Holds.V)
	count := l.Plain(full, 0) + compose.NoBreak + "×"
	switch {
	case full == 0:
		count = "1" + compose.NoBreak + "×"
	case rest > 0:
		count = l.Plain(full, 0) + compose.NoBreak + "+" + compose.NoBreak + "1" + compose.NoBreak + "×"
	}
	name := t.own(tray.Name, tray.Pos, "the tray")
	value := count + compose.NoBreak + name.joined()
	if rest > 0 {
		value += fmt.Sprintf(" (1%s: %d)", compose.NoBreak+"×", rest)
	}
	out.Facts = append(out.Facts, fact{t.word("card.trays"), numbered(value, tray.Pos)})
}

// perPiece lists what goes into one piece, formulas by their letter.
func (t *teller) perPiece(out *content) told {
	own := &out.Lanes[len(out.Lanes)-1]
	l := t.Lang()
	at := t.Product.Pos
	var parts []string
	for _, line := range t.Product.Lines() {
		for _, p := range own.puts {
			if p.ref != line.Ref() {
				continue
			}
			name := p.Name.first()
			if p.Letter != "" {
				name = p.Letter
			}
			part := name + compose.NoBreak + l.Mass(line.Take.V)
			if line.Take.V == 0 {
				part = l.Plain(int64(line.Pieces.V), 0) + compose.NoBreak + "×" + compose.NoBreak + name
			}
			parts = append(parts, part)
			break
		}
	}
	if cut := t.Product.CutTo; cut.Set() {
		parts = []string{l.Mass(cut.V)}
	}
	return numbered(strings.Join(parts, " · "), at)
}

// bowls puts beside each amount of a lane how much of it goes into each of
// equal bowls, where there are several.
func (t *teller) bowls(l *lane, m *scale.Make) {
	each, n := scale.EachBowl(t.Shop, m)
	for i, a := range each {
		if n > 1 && i < len(l.puts) {
			l.puts[i].Hints = append(l.puts[i].Hints, numbered(t.times(int64(n))+t.grams(a.Shown, a.Step), a.Line.Pos))
		}
	}
}

// bowlFacts says which formulas are made in several bowls, or fill theirs less
// than they should: then both masses.
func (t *teller) bowlFacts(out *content) {
	var all []told
	for _, l := range out.Lanes {
		if l.make == nil {
			continue
		}
		if fill, ok := l.make.Bowls(); ok && (fill.Vessels > 1 || fill.Short) {
			b := l.make.Formula.Bowl
			name := t.own(b.Name, b.Pos, "the bowl of "+l.make.Formula.ID).joined()
			if fill.Short {
				name += ": " + t.readable(unit.Mass(fill.Least)) + compose.NoBreak + "<" + compose.NoBreak + t.readable(b.Least.V)
			}
			all = append(all, numbered(strings.TrimSpace(l.Letter+" "+t.times(int64(fill.Vessels))+name), b.Pos))
		}
	}
	if len(all) > 0 {
		out.Facts = append(out.Facts, fact{t.word("card.bowls"), with(" · ", all...)})
	}
}

// bakes says how often the oven is filled, and with how many trays, where it
// does not take all at once.
func (t *teller) bakes(out *content) {
	fill, ok := scale.Bakes(t.Product, t.Batch.Pieces)
	if !ok || fill.Vessels < 2 {
		return
	}
	l, tray := t.Lang(), t.Product.Tray
	trays := l.Plain(fill.Most, 0)
	if fill.Least != fill.Most {
		trays = l.Plain(fill.Least, 0) + "–" + trays
	}
	value := fmt.Sprintf("%s(%s%s×%s%s)", t.times(int64(fill.Vessels)), trays, compose.NoBreak, compose.NoBreak, t.own(tray.Name, tray.Pos, "the tray").joined())
	out.Facts = append(out.Facts, fact{t.word("card.oven"), numbered(value, tray.Pos)})
}

func (t *teller) times(n int64) string {
	return t.Lang().Plain(n, 0) + compose.NoBreak + "×" + compose.NoBreak
}

// height says which temperatures of a step are changed for the height of the
// kitchen, by what they are at sea level.
func (t *teller) height(s *shop.Step) []advice {
	reach, changed := scale.Reach(&t.Shop.Profile, s)
	if !changed {
		return nil
	}
	var all []advice
	for i, r := range s.Reach {
		if reach[i] != r.To.V {
			all = append(all, t.atSea(r.To))
		}
	}
	return all
}

func (t *teller) atSea(r diag.At[unit.Target]) advice {
	return advice{Icon: flow.Probe, Said: t.slots("card.sea-level", r.Pos, func(_ int, l *words.Lang) map[string]string {
		return map[string]string{"temp": l.Temp(r.V, true)}
	})}
}

// Punch is the room for a hole at the middle of the upper edge of a card that
// hangs on a wall: no letter stands in it (common practice, no source).
const (
	punch     = 15 * unit.MM
	punchFrom = 200 * unit.MM // papers whose shorter side is at least this hang
)

func (s *sheet) hangs() bool { return min(s.Stock.Width.V, s.Stock.Height.V) >= punchFrom }

// stripHeight is how much of the area the strip takes: enough to keep clear of
// the hole.
func (s *sheet) stripHeight(strip flow.Block) unit.Length {
	if !s.hangs() {
		return strip.H
	}
	return max(strip.H, punch+unit.MM-s.area.Y)
}

// strip is the first line of every page: version and day on the left, check
// word and page on the right, nothing between.
func (s *sheet) strip(n, of int) flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		side := (s.area.W - punch - 2*unit.MM) / 2
		if !s.hangs() {
			side = s.area.W / 2
		}
		l := s.z.note()
		left := []group{
			{say(s.said.Version, role.Note, src, look{size: s.z.small, bold: true})},
			{say(s.said.teller.Word("card.issued")+compose.NoBreak+s.said.Issued, role.Note, src, l)},
		}
		used := h.groups(0, 0, side, s.z.gap, left)
		right := text2{s.said.teller.Word("card.check-word"), s.said.Word}
		return max(used, s.stripRight(h, side, right, n, of))
	})
}

type text2 struct{ what, word string }

// stripRight ends at the right edge.
func (s *sheet) stripRight(h *setter, side unit.Length, t text2, n, of int) unit.Length {
	small, bold := s.z.note(), look{size: s.z.small, bold: true}
	g := group{say(t.what, role.Note, diag.Pos{}, small), say(t.word, role.Note, diag.Pos{}, bold)}
	p := group{say(pageOf(n, of), role.Note, diag.Pos{}, bold)}
	w := h.groupWidth(g) + s.z.gap*2 + h.groupWidth(p)
	if w > side {
		g = g[1:]
		w = h.groupWidth(g) + s.z.gap*2 + h.groupWidth(p)
	}
	return h.groups(s.area.W-w, 0, w+1, s.z.gap*2, []group{g, p})
}

// head is the name and the batch, and on the first page the facts.
func (s *sheet) head(first bool) flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		right, low := s.area.W, unit.Length(0)
		if first && s.Code {
			box := s.qr(h, right)
			right, low = box.X-s.z.gap, box.Bottom()+s.z.pad
		}
		y := max(s.title(h, right, first), low)
		h.Rule(0, y, s.area.W, s.z.thick)
		y += s.z.thick + s.z.pad
		if first {
			y += s.facts(h, y)
			y += s.allergens(h, y)
		}
		return y
	})
}

// title sets the name as large as it fits on one line, and the batch in a box.
func (s *sheet) title(h *setter, end unit.Length, first bool) unit.Length {
	size, ok := flow.Largest(s.z.title, s.z.most, 25, func(size unit.Length) bool {
		l := look{size: size, bold: true}
		return s.boxWidth(h, size)+2*s.z.gap+h.width(s.said.Name.first(), l) <= end
	})
	if !ok || !first {
		size = s.z.title
	}
	name, batch := s.said.Name, s.said.Size
	if !first {
		name, batch = numbered(name.first(), name.Src), numbered(batch.first(), batch.Src)
	}
	box := s.boxWidth(h, size)
	l := look{size: size, bold: true}
	left := h.told(0, s.z.pad, end-box-2*s.z.gap, role.Name, name, l)
	right := s.batchBox(h, end-box, 0, box, size, batch)
	return max(s.z.pad+left, right) + s.z.pad
}

// boxWidth is the width of the box around the batch.
func (s *sheet) boxWidth(h *setter, size unit.Length) unit.Length {
	w := h.width(s.said.Size.first(), look{size: size, bold: true})
	for _, second := range s.said.Size.In[1:] {
		w = max(w, h.width(second, s.z.faint()))
	}
	return w + 2*(s.z.thick+s.z.gap)
}

func (s *sheet) batchBox(h *setter, x, y, w, size unit.Length, batch told) unit.Length {
	in := s.z.thick + s.z.pad
	l := look{size: size, bold: true, align: flow.Centre}
	used := h.told(x+in, y+in, w-2*in, role.Batch, batch, l) + 2*in
	h.Frame(page.Rect{X: x, Y: y, W: w, H: used}, s.z.thick)
	return used
}

// facts sets the facts strip.
func (s *sheet) facts(h *setter, y unit.Length) unit.Length {
	var all []group
	strong := look{size: s.z.small, bold: true}
	for _, f := range slices.Concat(s.said.Facts, s.said.Hours, s.said.Bases) {
		all = append(all, group{say(f.What.joined(), role.Note, f.What.Src, s.z.faint()),
			say(f.Value.joined(), role.Note, f.Value.Src, strong)})
	}
	if t := s.said.Times; t != nil {
		all = append(all, group{say(s.said.teller.both("card.total"), role.Note, diag.Pos{}, s.z.faint()), say(t.Total, role.Note, diag.Pos{}, strong)})
		all = append(all, group{{kind: isSolid, look: s.z.note()}, say(s.said.teller.both("card.hands-on"), role.Note, diag.Pos{}, s.z.faint()),
			say(t.Hands, role.Note, diag.Pos{}, strong)})
		if t.Waits {
			all = append(all, group{{kind: isOutline, look: s.z.note()}, say(s.said.teller.both("card.waiting"), role.Note, diag.Pos{}, s.z.faint())})
		}
		if t.Oven {
			all = append(all, group{{kind: isHatch, look: s.z.note()}, say(s.said.teller.both("card.oven"), role.Note, diag.Pos{}, s.z.faint())})
		}
	}
	if !s.said.Small.empty() {
		all = append(all, group{{kind: isRing, look: s.z.note()}, say(s.said.Small.joined(), role.Note, diag.Pos{}, s.z.faint())})
	}
	return h.groups(0, y, s.area.W, 2*s.z.gap, all) + s.z.pad
}

// allergens sets what is on this card, boxed.
func (s *sheet) allergens(h *setter, y unit.Length) unit.Length {
	in := s.z.rule + s.z.pad
	x, w := in, s.area.W-2*in
	used := in
	if !s.said.Allergens.empty() {
		label := group{{kind: isIcon, icon: flow.Warning, look: s.z.note()}, say(s.said.teller.both("card.allergens-here"), role.Note, diag.Pos{}, s.z.note())}
		labelW := h.groupWidth(label) + s.z.gap
		base := y + used + h.up(s.z.body)
		if labelW < w/3 {
			h.groups(x, base-h.up(s.z.small), labelW, 0, []group{label})
			x, w = x+labelW, w-labelW
		} else {
			used += h.groups(x, y+used, w, 0, []group{label})
		}
		for _, t := range s.said.Allergens.In {
			used += h.words(x, y+used, w, role.Allergens, diag.Pos{}, t, s.z.strong())
		}
	}
	used += h.told(in, y+used, s.area.W-2*in, role.Allergens, s.said.None, s.z.strong())
	used += in
	h.Frame(page.Rect{X: 0, Y: y, W: s.area.W, H: used}, s.z.rule)
	return used + s.z.pad
}

// columnHeads names the columns.
func (s *sheet) columnHeads() flow.Block {
	_, src := s.id()
	return s.block(src, false, s.columnNames)
}

func (s *sheet) columnNames(h *setter) unit.Length {
	c, l, used := s.cols, s.z.faint(), unit.Length(0)
	name := func(c span, key string) {
		t := s.said.teller.both(key)
		if h.width(t, l) > c.W {
			t = s.said.teller.Word(key)
		}
		used = max(used, h.words(c.X, 0, c.W, role.Note, diag.Pos{}, t, l))
	}
	name(c.do, "card.do")
	if !c.stacked {
		name(c.put, "card.ingredients")
	}
	name(c.stop, "card.stop-when")
	return used
}
