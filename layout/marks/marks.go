// Package marks answers: where does the ink of a mark go?
//
// A page is drawn in several ways (a document, a picture for the screen, the
// dots of a printer), and they must show the same: so what may be drawn at
// all, where the bars of a symbol begin and end, and where the lines of a hatch
// run is found here, once. A way of drawing is a [Pen]. A new kind of mark is a
// new method of it, so that no pen can be built which leaves that kind out.
package marks

import (
	"errors"
	"fmt"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// A Pen draws marks, each of which has been found sound before. Lengths are
// from the top left corner of the page or artwork.
type Pen interface {
	// Run draws a line of text whose first letter begins at x.
	Run(x unit.Length, r *page.Run) error

	// Symbol draws the bars that [Bars] finds, in black.
	Symbol(s *page.Symbol) error

	// Fill fills a box with a grey.
	Fill(b page.Rect, gray uint8) error

	// Outline draws the lines around a box; their middle lies on b.
	Outline(b page.Rect, s *page.Shape) error

	// Hatch draws the lines that [Hatch] finds in b, with flat ends.
	Hatch(b page.Rect, s *page.Shape) error

	// Path draws a path: filled by the non-zero rule where it is to be filled,
	// and where [Stroked] stroked along its middle, with flat ends and round
	// joins.
	Path(s *page.Shape) error

	// Picture stretches a picture over a box.
	Picture(b page.Rect, p *page.Picture) error
}

// Draw draws marks in the order given, each on top of those before it. The
// error says which mark of the shop's files cannot be drawn.
func Draw(p Pen, all []page.Item) error {
	for i := range all {
		it := &all[i]
		err := draw(p, it)
		if err != nil && it.Src.Known() {
			return fmt.Errorf("%v: %w", it.Src, err)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

func draw(p Pen, it *page.Item) error {
	switch {
	case it.Run != nil:
		return run(p, it)
	case it.Symbol != nil:
		if err := soundSymbol(it.Symbol); err != nil {
			return err
		}
		return p.Symbol(it.Symbol)
	case it.Shape != nil:
		return shape(p, it.Box, it.Shape)
	case it.Picture != nil:
		return picture(p, it.Box, it.Picture)
	}
	return fmt.Errorf("a mark for %q has nothing to draw", it.Role)
}

func run(p Pen, it *page.Item) error {
	switch {
	case it.Run.Text == "":
		return errors.New("a run of text is empty")
	case it.Run.Size < unit.UM:
		return fmt.Errorf("%q has no size", it.Run.Text)
	}
	return p.Run(it.Box.X, it.Run)
}

func picture(p Pen, b page.Rect, pic *page.Picture) error {
	if pic.W < 1 || pic.H < 1 || len(pic.Gray) != pic.W*pic.H || b.W <= 0 || b.H <= 0 {
		return fmt.Errorf("a picture of %d × %d pixels cannot be drawn", pic.W, pic.H)
	}
	return p.Picture(b, pic)
}

// longest is the longest edge of a sheet: that of the largest page a document
// may have (ISO 32000-1 Annex C, 14,400 points).
const longest = 14_400 * unit.Point

// Sheet refuses a page that no pen can draw.
func Sheet(p *page.Page) error {
	switch {
	case p == nil:
		return errors.New("the page is missing")
	case p.W < unit.UM || p.H < unit.UM || p.W > longest || p.H > longest:
		return fmt.Errorf("a sheet of %v by %v cannot be drawn", p.W, p.H)
	}
	return nil
}
