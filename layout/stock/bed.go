package stock

import (
	"strings"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// Bed is how a printer takes paper: its dots, how far everything is moved so
// that it sits straight, and what 100 mm come out as on the paper, 0 for 100 mm.
// The zero Bed moves nothing.
type Bed struct {
	Dots             unit.Dots
	Right, Down      unit.Length
	Wide100, High100 unit.Length
}

// Place is where the corner of a label is drawn so that its middle comes out in
// the middle of r, on whole dots. A label keeps its size, because its bars are
// whole dots; what the feed stretches is the way from label to label.
func (b Bed) Place(r page.Rect) (x, y unit.Length) {
	x = drawn(r.X+r.W/2, b.Wide100) - r.W/2 + b.Right
	y = drawn(r.Y+r.H/2, b.High100) - r.H/2 + b.Down
	return b.Dots.Snap(x), b.Dots.Snap(y)
}

// drawn is where a place is drawn to come out at l.
func drawn(l, hundred unit.Length) unit.Length {
	if hundred == 0 {
		return l
	}
	return l.Mul(100*int64(unit.MM), int64(hundred))
}

// Moved is a page that is not dealt out to places, moved as the printer asks.
func (b Bed) Moved(pg *page.Page) *page.Page {
	dx, dy := b.Dots.Snap(b.Right), b.Dots.Snap(b.Down)
	if dx == 0 && dy == 0 {
		return pg
	}
	out := &page.Page{W: pg.W, H: pg.H}
	for _, a := range pg.Placed {
		out.Placed = append(out.Placed, page.Placed{Art: a.Art, X: a.X + dx, Y: a.Y + dy})
	}
	for _, it := range pg.Items {
		out.Items = append(out.Items, it.Moved(dx, dy))
	}
	return out
}

// Says is what is done to all that is printed, in words for the print list; ""
// where nothing is.
func (b Bed) Says() string {
	var said []string
	for _, l := range []struct {
		how string
		v   unit.Length
	}{{" to the right", b.Right}, {" down", b.Down}} {
		if l.v != 0 {
			said = append(said, l.v.String()+l.how)
		}
	}
	if b.Wide100 != 0 || b.High100 != 0 {
		said = append(said, "places drawn for "+size(b.Wide100)+" × "+size(b.High100)+" of 100 mm")
	}
	if len(said) == 0 {
		return ""
	}
	return "moved " + strings.Join(said, ", ")
}

func size(hundred unit.Length) string {
	if hundred == 0 {
		hundred = 100 * unit.MM
	}
	return hundred.String()
}
