package compose

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Setter sets words and marks and remembers the first thing that went wrong.
// After that it sets no more words: whoever uses it asks once, at the end, for
// [Setter.Err]. Its rules, frames and icons are those of [flow.Pen].
type Setter struct {
	*flow.Pen
	err error
}

// Err is the first thing that went wrong: a *text.NoGlyph, a *text.TooWide, a
// *flow.Overflow, or what [Setter.Fail] was given.
func (s *Setter) Err() error { return s.err }

// Fail remembers err, unless something went wrong before.
func (s *Setter) Fail(err error) {
	if s.err == nil {
		s.err = err
	}
}

// Must remembers that need does not go into have; src is what is at fault.
func (s *Setter) Must(need, have unit.Length, src diag.Pos) {
	if need > have {
		s.Fail(&flow.Overflow{Need: need, Have: have, Src: src})
	}
}

// Fresh is an empty setter for the same paper.
func (s *Setter) Fresh() *Setter { return &Setter{Pen: s.Pen.Fresh()} }

// Take takes over what in has set, shifted by dx and dy, and its fault.
func (s *Setter) Take(in *Setter, dx, dy unit.Length) {
	s.Fail(in.err)
	s.Add(in.Items, dx, dy)
}

// Para sets a paragraph at the top of r and returns its height. A paragraph
// without words takes none.
func (s *Setter) Para(r page.Rect, q text.Para, st flow.Style) unit.Length {
	if s.err != nil {
		return 0
	}
	used, err := s.Pen.Para(r, q, st)
	s.err = err
	return used
}

// Line sets words on one line and returns what they cover. X is the left end,
// the right end or the middle, as st.Align says.
func (s *Setter) Line(x, base unit.Length, q text.Para, st flow.Style) page.Rect {
	if s.err != nil {
		return page.Rect{X: x, Y: base}
	}
	r, err := s.Pen.Line(x, base, q, st)
	s.err = err
	return r
}

// LineIn is [Setter.Line] in other faces than those of the paper.
func (s *Setter) LineIn(f *text.Faces, x, base unit.Length, q text.Para, st flow.Style) page.Rect {
	if f == s.Faces {
		return s.Line(x, base, q, st)
	}
	in := &Setter{Pen: (&flow.Pen{Faces: f, Dots: s.Dots}).Fresh(), err: s.err}
	r := in.Line(x, base, q, st)
	s.Take(in, 0, 0)
	return r
}

// ParaIn is [Setter.Para] in other faces than those of the paper.
func (s *Setter) ParaIn(f *text.Faces, r page.Rect, q text.Para, st flow.Style) unit.Length {
	if f == s.Faces {
		return s.Para(r, q, st)
	}
	in := &Setter{Pen: (&flow.Pen{Faces: f, Dots: s.Dots}).Fresh(), err: s.err}
	h := in.Para(r, q, st)
	s.Take(in, 0, 0)
	return h
}

// Ends sets lines that end at right, the last of them on a baseline.
func (s *Setter) Ends(right, base unit.Length, lines []text.Para, size unit.Length) {
	lead := s.Faces.Regular.Leading(size)
	for i, q := range lines {
		s.Line(right, base-unit.Length(len(lines)-1-i)*lead, q, flow.Style{Size: size, Align: flow.Right})
	}
}

// Figure sets an amount so that its column ends at right, its decimal mark
// under the others of f.
func (s *Setter) Figure(right, base unit.Length, q text.Para, st flow.Style, f flow.Figures) {
	if s.err == nil {
		s.err = s.Pen.Figure(right, base, q, st, f)
	}
}

// Width is how wide words are on one line.
func (s *Setter) Width(q text.Para, size unit.Length) unit.Length {
	if s.err != nil {
		return 0
	}
	w, err := s.Pen.Width(q, size)
	s.err = err
	return w
}

// Bars sets a symbol and what is read instead of it, see [flow.Pen.Bars], and
// returns the box around both.
func (s *Setter) Bars(x, y unit.Length, symbol *page.Symbol, caption string, height unit.Length, src diag.Pos) page.Rect {
	if s.err != nil {
		return page.Rect{X: x, Y: y}
	}
	r, err := s.Pen.Bars(x, y, symbol, caption, height, src)
	s.err = err
	return r
}

// Block is what set sets from the corner (0, 0) of a column of width w; set
// returns the height used.
func (s *Setter) Block(w unit.Length, set func(*Setter, page.Rect) unit.Length) flow.Block {
	if s.err != nil {
		return flow.Block{}
	}
	b, err := s.Pen.Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
		in := &Setter{Pen: p}
		h := set(in, r)
		return h, in.err
	})
	s.err = err
	return b
}

// Boxed draws a frame around what set sets, as wide as r and as high as that
// needs with pad around it, and returns its height.
func (s *Setter) Boxed(r page.Rect, pad, thick unit.Length, set func(*Setter, page.Rect) unit.Length) unit.Length {
	if s.err != nil {
		return 0
	}
	h, err := s.Pen.Boxed(r, pad, thick, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
		in := &Setter{Pen: p}
		h := set(in, r)
		return h, in.err
	})
	s.err = err
	return h
}

// Low is how high a block of words is that set sets into a rectangle like r,
// and its marks, for whoever puts it at the foot of r. They begin at (0, 0).
func (s *Setter) Low(r page.Rect, set func(*Setter, page.Rect) unit.Length) flow.Block {
	in := s.Fresh()
	h := set(in, page.Rect{W: r.W, H: r.H})
	s.Fail(in.err)
	return flow.Block{H: h, Items: in.Items}
}
