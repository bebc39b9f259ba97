// Package symbol answers: which bars carry this string?
//
// It turns checked digits and strings into modules ([page.Symbol]), picks the
// width of a module that a printer can hit exactly, and places a symbol on
// the printer's grid of dots. Nothing is drawn here, and nothing is kept: a QR
// takes about a millisecond to make, so a caller that prints it many times
// keeps it.
//
// It is the only importer of github.com/boombuler/barcode. Known faults of
// that library are kept away: check digits come from labels/gs1, Code 128 is
// encoded here because the library's symbols are often longer than they need
// be, and PDF417 is not offered.
package symbol

import (
	"fmt"

	"github.com/boombuler/barcode"

	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// A Module says how large a symbol is made. X is the width of one module.
// Height is that of the bars of a linear symbol; it is not used for a matrix,
// whose modules are square. Dots is the printer's fineness, zero when it is
// not known; then X need not be a whole number of dots. [Choose] fills it in.
type Module struct {
	X      unit.Length
	Height unit.Length
	Dots   unit.Dots
}

// check refuses a module that the printer cannot draw evenly. Bars of one
// dot are refused too, because one dot more or less doubles or drops a bar.
func (m Module) check(kind string, linear bool) error {
	switch {
	case m.X <= 0 || m.X > unit.CM:
		return fmt.Errorf("%s: a module of %s cannot be printed", kind, m.X)
	case linear && m.Height <= 0:
		return fmt.Errorf("%s: bars of height %s cannot be printed", kind, m.Height)
	case m.Dots.N == 0:
		return nil
	case m.Dots.Snap(m.X) != m.X:
		return fmt.Errorf("%s: a module of %s is not a whole number of dots on a printer with %s", kind, m.X, m.Dots)
	case m.X < m.Dots.At(2):
		return fmt.Errorf("%s: a module of %s is under two dots on a printer with %s", kind, m.X, m.Dots)
	}
	return nil
}

// linear makes a symbol of one row from bits, 1 for a bar.
func linear(kind, data string, bits []byte, m Module) (*page.Symbol, error) {
	if err := m.check(kind, true); err != nil {
		return nil, err
	}
	s := m.symbol(kind, data, bits, len(bits), 1)
	s.Bars.H = m.Height
	return s, nil
}

// matrix makes a symbol of square modules from the library's picture.
func matrix(kind, data string, b barcode.Barcode, m Module) (*page.Symbol, error) {
	if err := m.check(kind, false); err != nil {
		return nil, err
	}
	cols, rows := b.Bounds().Dx(), b.Bounds().Dy()
	s := m.symbol(kind, data, modules(b), cols, rows)
	s.Bars.H = m.X * unit.Length(rows)
	return s, nil
}

func (m Module) symbol(kind, data string, dark []byte, cols, rows int) *page.Symbol {
	s := &page.Symbol{
		Kind: kind, Data: data, Cols: cols, Rows: rows, Dark: dark,
		Module: m.X, Dots: m.Dots, Quiet: quiet(kind),
	}
	s.Bars.W = m.X * unit.Length(cols)
	if m.Dots.N > 0 {
		s.Dot = m.Dots.At(1)
		s.Inset = s.Dot / 4
	}
	return s
}

// quiet is the quiet zone of a kind in modules, the same for every use.
func quiet(kind string) [4]int {
	for _, s := range gs1.Sizes() {
		if s.Kind == kind {
			return s.Quiet
		}
	}
	return [4]int{}
}

// modules reads the library's picture row by row, 1 for dark.
func modules(b barcode.Barcode) []byte {
	r := b.Bounds()
	out := make([]byte, 0, r.Dx()*r.Dy())
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			dark := byte(0)
			if v, _, _, _ := b.At(x, y).RGBA(); v == 0 {
				dark = 1
			}
			out = append(out, dark)
		}
	}
	return out
}
