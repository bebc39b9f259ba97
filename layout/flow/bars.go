package flow

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

// Heights of the words under bars. The digits of an EAN stand in 7 modules
// each; at 0.33 mm to a module they are 2.75 mm high (GGS 5.2.5, from
// memory). Other bars bear words of at least 3 mm (GS1 Sweden, logistic
// label, read November 2026).
const (
	captionHeight = 3 * unit.MM
	captionGap    = unit.MM
)

// Bars places a symbol with its corner at (x, y), quiet zone included, and
// what a person reads instead of the bars below it: for EAN-13, EAN-8 and UPC-A the
// digits between the guard bars, for others caption, centred, with capitals
// at least height high (0 is 3 mm). No caption, no words. It returns the box
// around bars, quiet zones and words. The error is that of [Pen.Para].
func (p *Pen) Bars(x, y unit.Length, s *page.Symbol, caption string, height unit.Length, src diag.Pos) (page.Rect, error) {
	it := symbol.Place(s, x, y)
	if b := symbol.Bearers(it); len(b) > 0 {
		it = symbol.Place(s, x, y+it.Box.Y-b[0].Box.Y)
	}
	it.Src = src
	in := p.Fresh()
	in.Items = append(in.Items, it)
	var err error
	switch {
	case symbol.Digits(s) != nil:
		err = in.eanDigits(it)
	case caption != "":
		err = in.caption(it, caption, height)
	}
	if err != nil {
		return page.Rect{}, err
	}
	p.Items = append(p.Items, in.Items...)
	return around(in.Items), nil
}

// eanDigits lengthens the guard bars by five modules and sets the digits
// between them, half a module and more away from the bars.
func (p *Pen) eanDigits(it page.Item) error {
	s := it.Symbol
	groups := symbol.Digits(s)
	p.guards(s, groups)
	st := Style{Size: p.Faces.Regular.SizeForCap(s.Module.Mul(25, 3)), Align: Centre}
	base := s.Bars.Bottom() + s.Module + p.Faces.Regular.CapHeight(st.Size)
	for _, g := range groups {
		middle := s.Bars.X + s.Module*unit.Length(2*g.At+g.Width)/2
		st := st
		if g.Small {
			st.Size = st.Size * 2 / 3
		}
		if _, err := p.Line(middle, base, Words(role.Digits, it.Src, g.Text), st); err != nil {
			return err
		}
	}
	return nil
}

// guards draws the dark modules that no digit stands under five modules
// further down, inset like the bars themselves.
func (p *Pen) guards(s *page.Symbol, groups []symbol.Group) {
	for i, dark := range s.Dark {
		if dark == 0 || under(i, groups) {
			continue
		}
		p.shape(page.Rect{X: s.Bars.X + s.Module*unit.Length(i) + s.Inset, Y: s.Bars.Bottom(),
			W: s.Module - 2*s.Inset, H: 5 * s.Module}, role.Bars, page.Shape{Kind: page.Filled})
	}
}

func under(module int, groups []symbol.Group) bool {
	for _, g := range groups {
		if module >= g.At && module < g.At+g.Width {
			return true
		}
	}
	return false
}

// caption sets words under any other symbol, broken before "(" only.
func (p *Pen) caption(it page.Item, caption string, height unit.Length) error {
	if height == 0 {
		height = captionHeight
	}
	top := it.Symbol.Bars.Bottom() + captionGap
	for _, b := range symbol.Bearers(it) {
		p.Items = append(p.Items, b)
		top = max(top, b.Box.Bottom()+captionGap)
	}
	caption = strings.TrimPrefix(strings.ReplaceAll(caption, "(", "\u200b("), "\u200b")
	c, err := p.Faces.Prepare(text.Para{Role: role.Digits, Src: it.Src, Spans: []text.Span{{Text: caption}}})
	if err != nil {
		return err
	}
	st := Style{Size: p.Faces.Regular.SizeForCap(height), Align: Centre}
	_, err = p.Copy(page.Rect{X: it.Box.X, Y: max(top, it.Box.Bottom()), W: it.Box.W, H: endless}, c, st)
	return err
}

// around is the box around marks; there is at least one.
func around(items []page.Item) page.Rect {
	r := items[0].Box
	for _, it := range items[1:] {
		x, y := min(r.X, it.Box.X), min(r.Y, it.Box.Y)
		r = page.Rect{X: x, Y: y, W: max(r.Right(), it.Box.Right()) - x, H: max(r.Bottom(), it.Box.Bottom()) - y}
	}
	return r
}
