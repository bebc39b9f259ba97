package marks

import (
	"bytes"
	"fmt"
	"slices"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// soundSymbol refuses a symbol that would not be drawn as it is judged.
func soundSymbol(s *page.Symbol) error {
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
	case bytes.IndexByte(s.Dark, 1) < 0:
		return fmt.Errorf("the %s symbol has no dark module", s.Kind)
	}
	return nil
}

// off reports whether n modules differ from a length by more than rounding
// explains: what is judged by its module must be what is drawn in its box.
func off(l unit.Length, n int, module unit.Length) bool {
	d := l - unit.Length(n)*module
	return d > unit.UM || d < -unit.UM
}

// Runs calls dark for each stretch of modules, from and to in columns, that are
// dark in a row; and, below each row but the last, for each that is dark in it
// and in the next one too, rows then being 2. A drawing of both leaves no hair of
// white in a dark area.
func Runs(s *page.Symbol, dark func(row, rows, from, to int)) {
	for row := range s.Rows {
		runs(s, row, 0, func(from, to int) { dark(row, 1, from, to) })
		if row+1 < s.Rows {
			runs(s, row, 1, func(from, to int) { dark(row, 2, from, to) })
		}
	}
}

// runs finds the stretches of modules that are dark in row and, with more 1, in
// the next row as well.
func runs(s *page.Symbol, row, more int, dark func(from, to int)) {
	is := func(row, i int) bool { return s.Dark[row*s.Cols+i] == 1 }
	start := -1
	for i := 0; i <= s.Cols; i++ {
		on := i < s.Cols && is(row, i) && is(row+more, i)
		if on && start < 0 {
			start = i
		}
		if !on && start >= 0 {
			dark(start, i)
			start = -1
		}
	}
}

// Bars calls bar for each dark box of a symbol. Inset is taken off where dark
// meets light, and nowhere else. The bars of a linear symbol keep their full
// height.
func Bars(s *page.Symbol, bar func(left, top, right, bottom unit.Length)) {
	x := func(i int) unit.Length { return s.Bars.X + s.Bars.W.Mul(int64(i), int64(s.Cols)) }
	y := func(row int) unit.Length { return s.Bars.Y + s.Bars.H.Mul(int64(row), int64(s.Rows)) }
	Runs(s, func(row, rows, from, to int) {
		top, bottom := s.Bars.Y, s.Bars.Bottom()
		if s.Rows > 1 {
			top, bottom = y(row)+s.Inset, y(row+rows)-s.Inset
		}
		bar(x(from)+s.Inset, top, x(to)-s.Inset, bottom)
	})
}
