package compose

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// TickSide is the side of a box to tick beside words of a size: a quarter more
// than a capital.
func (s *Setter) TickSide(size unit.Length) unit.Length {
	return s.Faces.Regular.CapHeight(size) * 5 / 4
}

// Tick sets a box to tick at the height of the capitals of words of a size on
// a baseline, and returns where it ends.
func (s *Setter) Tick(x, base, size unit.Length) unit.Length {
	side := s.TickSide(size)
	s.TickBox(x, base-(side+s.Faces.Regular.CapHeight(size))/2, side)
	return x + side
}

// Ticked sets words behind a box to tick, a millimetre between, and returns
// their height.
func (s *Setter) Ticked(r page.Rect, q text.Para, st flow.Style) unit.Length {
	f := s.Faces.Regular
	base := r.Y + (f.Leading(st.Size)+f.CapHeight(st.Size))/2
	left := s.Tick(r.X, base, st.Size) + unit.MM - r.X
	return s.Para(page.Rect{X: r.X + left, Y: r.Y, W: r.W - left, H: r.H}, q, st)
}
