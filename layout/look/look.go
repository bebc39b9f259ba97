// Package look answers: how does paper of this shop look?
//
// [Read] makes of brand.yaml a plain value, with the emblem and the fonts that
// it names read and judged. Its parts are set by [Look.Mark], [Look.Divide] and
// [Look.Edge]; where they stand is the sheet's own affair. The look speaks no
// word of the law but the name of the food, whose font was measured, and gives
// way wherever there is no room.
package look

import (
	"strings"
	"sync"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/emblem"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Look is what a shop's paper has of its own.
type Look struct {
	Brand *shop.Brand

	emblem, small *emblem.Emblem
	name, about   *font

	drawn sync.Map // of drawing: whether its printer can
}

// drawing is an emblem at a size by a printer. Whether its strokes survive takes
// a while to see, and labels ask it again for each way of setting them.
type drawing struct {
	of   *emblem.Emblem
	w, h unit.Length
	way  emblem.Way
}

// Read reads what brand.yaml names. It gives nil for a shop without one, and
// nil, with errors in found, where something in it cannot be printed.
func Read(b *shop.Brand, found *diag.List) *Look {
	if b == nil {
		return nil
	}
	before := found.Errors()
	l := &Look{Brand: b}
	read := func(t shop.Text) *emblem.Emblem {
		data, ok := b.Files[t.V]
		if !ok {
			return nil // told where the file was read
		}
		return emblem.Read(t.V, data, found)
	}
	l.emblem, l.small = read(b.Logo), read(b.LogoSmall)
	if f := b.Fonts; f != nil {
		l.name, l.about = l.font(f.Name, found), l.font(f.About, found)
	}
	if found.Errors() > before {
		return nil
	}
	return l
}

// Has reports whether there is an emblem.
func (l *Look) Has() bool { return l.emblem != nil || l.small != nil }

// Emblem is the emblem for paper without an edge, or a screen: that of larger
// papers where there is one; nil for none.
func (l *Look) Emblem() *emblem.Emblem {
	if l.emblem != nil {
		return l.emblem
	}
	return l.small
}

// Mark sets the emblem as large as goes into r, at its top left, and returns
// the box that it takes: none where this printer cannot draw it at that size.
// The simpler drawing stands in where the strokes of the other are too fine.
func (l *Look) Mark(s *compose.Setter, p *compose.Paper, r page.Rect) page.Rect {
	e, box, ok := l.fits(p, r)
	if !ok {
		return page.Rect{X: r.X, Y: r.Y}
	}
	it := e.Item(box, way(p))
	it.Src = l.Brand.Logo.Pos
	s.Items = append(s.Items, it)
	return box
}

// Fits is the box that [Look.Mark] would take.
func (l *Look) Fits(p *compose.Paper, r page.Rect) (page.Rect, bool) {
	_, box, ok := l.fits(p, r)
	return box, ok
}

func (l *Look) fits(p *compose.Paper, r page.Rect) (*emblem.Emblem, page.Rect, bool) {
	for _, e := range []*emblem.Emblem{l.emblem, l.small} {
		if e == nil {
			continue
		}
		if box := e.Within(r, p.Dots); l.survives(e, box, way(p)) {
			return e, box, true
		}
	}
	return nil, page.Rect{}, false
}

// survives reports whether a printer can draw an emblem in a box, wherever the
// box lies.
func (l *Look) survives(e *emblem.Emblem, box page.Rect, way emblem.Way) bool {
	key := drawing{e, box.W, box.H, way}
	if ok, seen := l.drawn.Load(key); seen {
		return ok.(bool)
	}
	var found diag.List
	e.Check(box, way, l.Brand.Logo.Pos, &found)
	l.drawn.Store(key, found.Errors() == 0)
	return found.Errors() == 0
}

// way is how the printer of a paper draws: a roll is burnt, and knows no greys.
func way(p *compose.Paper) emblem.Way {
	return emblem.Way{Dots: p.Dots, Thermal: p.Stock.Kind.V == "roll"}
}

// Widths of the lines of the look, and the thick piece that a divider of stone
// begins with.
const (
	thin       = 250 * unit.UM
	stoneWide  = 6500 * unit.UM
	stoneThick = 750 * unit.UM
)

// Divide draws the divider of the shop from (x, y), w wide.
func (l *Look) Divide(s *compose.Setter, x, y, w unit.Length) {
	switch l.Brand.Divider.V {
	case "none":
		return
	case "thin":
	default:
		s.Rule(x, y, min(stoneWide, w/3), stoneThick)
	}
	s.Rule(x, y, w, thin)
}

// Post draws an upright line, from y to bottom.
func (l *Look) Post(s *compose.Setter, x, y, bottom unit.Length) {
	if l.Brand.Divider.V != "none" {
		s.Upright(x, y, bottom-y, thin)
	}
}

// edge is how far inside the cut a frame stands, or at the margin of a paper
// that has a wider one.
const edge = 1500 * unit.UM

// frame is the outline of the frame on a paper.
func frame(p *compose.Paper) page.Rect {
	w, h := p.Stock.Size()
	return page.Rect{W: w, H: h}.Inset(max(edge, p.Stock.Safe.V+p.Dots.At(1)))
}

// Framed is what lies within the frame on a paper.
func (l *Look) Framed(p *compose.Paper) page.Rect { return frame(p).Inset(thin + p.Dots.At(1)) }

// Edge draws the frame of a paper.
func (l *Look) Edge(s *compose.Setter, p *compose.Paper) { s.Frame(frame(p), thin) }

// Written sets the written name into r, beside an emblem of the height of r:
// its lines as large as the width allows, up to a third of the emblem, and below
// them the word in capitals. It reports whether it is large enough to be read.
func (l *Look) Written(s *compose.Setter, p *compose.Paper, r page.Rect, under bool) bool {
	lines := l.Brand.Written
	if len(lines) == 0 {
		return true
	}
	size := r.H * 36 / 100
	f := l.Named(p, size)
	for _, t := range lines {
		if w := f.Bold.Width(t.V, size); w > r.W {
			size = size.Mul(int64(r.W), int64(w))
		}
	}
	size = text.Whole(size)
	if f.Bold.XHeight(size) < leastWritten {
		return false
	}
	f = l.Named(p, size)
	under = under && l.Brand.Under.Set()
	for i, t := range lines {
		s.LineIn(f, r.X, r.Y+l.base(r.H, i, under), flow.Strong(role.Note, t.Pos, t.V), flow.Style{Size: size})
	}
	if under {
		l.capitals(s, r)
	}
	return true
}

// base is where line i of the written name stands beside an emblem h high.
func (l *Look) base(h unit.Length, i int, under bool) unit.Length {
	switch {
	case len(l.Brand.Written) == 1 && under:
		return h * 55 / 100
	case len(l.Brand.Written) == 1:
		return h * 62 / 100
	case under:
		return [2]unit.Length{h * 34 / 100, h * 74 / 100}[i]
	}
	return [2]unit.Length{h * 42 / 100, h * 88 / 100}[i]
}

// capitals sets the word below the written name, its letters a little apart.
func (l *Look) capitals(s *compose.Setter, r page.Rect) {
	word := apart(l.Brand.Under.V)
	size := text.Whole(r.H * 17 / 100)
	if w := s.Faces.Bold.Width(word, size); w > r.W {
		size = text.Whole(size.Mul(int64(r.W), int64(w)))
	}
	s.Line(r.X, r.Y+r.H, flow.Strong(role.Note, l.Brand.Under.Pos, word), flow.Style{Size: size})
}

// leastWritten is the least x-height of the written name: below it the emblem
// stands alone.
const leastWritten = 1200 * unit.UM

// apart is a word in capitals with thin spaces between its letters; the house's
// faces have that space.
func apart(s string) string {
	return strings.Join(strings.Split(strings.ToUpper(s), ""), "\u2009")
}
