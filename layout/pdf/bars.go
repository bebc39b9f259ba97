package pdf

import (
	"fmt"
	"slices"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// symbol draws the dark modules. Neighbours in a row become one bar; Inset is
// taken off where dark meets light, and nowhere else: in a symbol of several
// rows, dark modules above each other are joined, so that no hair of white
// runs through a dark area.
func (p *pen) symbol(s *page.Symbol) error {
	switch {
	case s.Cols <= 0 || s.Rows <= 0 || len(s.Dark)/s.Cols != s.Rows || len(s.Dark)%s.Cols != 0:
		return fmt.Errorf("the %s symbol has %d modules for %d × %d", s.Kind, len(s.Dark), s.Cols, s.Rows)
	case slices.ContainsFunc(s.Dark, func(m byte) bool { return m > 1 }):
		return fmt.Errorf("the %s symbol has a module that is neither light nor dark", s.Kind)
	case s.Inset < 0 || 2*s.Inset >= s.Bars.W/unit.Length(s.Cols) || s.Rows > 1 && 2*s.Inset >= s.Bars.H/unit.Length(s.Rows):
		return fmt.Errorf("the %s symbol has modules too small for an inset of %v", s.Kind, s.Inset)
	case s.Bars.H <= 0:
		return fmt.Errorf("the %s symbol has no height", s.Kind)
	case off(s.Bars.W, s.Cols, s.Module), s.Rows > 1 && off(s.Bars.H, s.Rows, s.Module):
		return fmt.Errorf("the %s symbol of %d × %d modules of %v does not fill its box of %v by %v",
			s.Kind, s.Cols, s.Rows, s.Module, s.Bars.W, s.Bars.H)
	}
	p.setFill(0)
	before := len(p.out)
	g := grid{s}
	for row := range s.Rows {
		g.runs(row, 0, func(l, r unit.Length) { p.rect(l, g.top(row), r, g.bottom(row)) })
		if row+1 < s.Rows {
			g.runs(row, 1, func(l, r unit.Length) { p.rect(l, g.top(row), r, g.bottom(row+1)) })
		}
	}
	if len(p.out) == before {
		return fmt.Errorf("the %s symbol has no dark module", s.Kind)
	}
	p.op("f\n")
	return nil
}

// off reports whether n modules differ from a length by more than rounding
// explains: what is judged by its module must be what is drawn in its box.
func off(l unit.Length, n int, module unit.Length) bool {
	d := l - unit.Length(n)*module
	return d > unit.UM || d < -unit.UM
}

// A grid finds where the modules of a symbol lie.
type grid struct{ *page.Symbol }

// runs calls bar for each stretch of modules that are dark in row and, with
// more 1, in the next row as well.
func (g grid) runs(row, more int, bar func(left, right unit.Length)) {
	start := -1
	for i := 0; i <= g.Cols; i++ {
		dark := i < g.Cols && g.dark(row, i) && g.dark(row+more, i)
		if dark && start < 0 {
			start = i
		}
		if !dark && start >= 0 {
			bar(g.x(start)+g.Inset, g.x(i)-g.Inset)
			start = -1
		}
	}
}

func (g grid) dark(row, i int) bool { return g.Dark[row*g.Cols+i] == 1 }

func (g grid) x(i int) unit.Length { return g.Bars.X + g.Bars.W.Mul(int64(i), int64(g.Cols)) }

func (g grid) y(row int) unit.Length { return g.Bars.Y + g.Bars.H.Mul(int64(row), int64(g.Rows)) }

// The bars of a linear symbol keep their full height.
func (g grid) top(row int) unit.Length {
	if g.Rows == 1 {
		return g.Bars.Y
	}
	return g.y(row) + g.Inset
}

func (g grid) bottom(row int) unit.Length {
	if g.Rows == 1 {
		return g.Bars.Bottom()
	}
	return g.y(row+1) - g.Inset
}
