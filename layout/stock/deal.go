package stock

import (
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Bed is how a printer takes paper: its dots, and how far everything is moved
// so that it sits straight. The zero Bed moves nothing.
type Bed struct {
	Dots        unit.Dots
	Right, Down unit.Length
}

// Sheet is an empty sheet, or one label of a roll.
func (s *Stock) Sheet() *page.Page { return &page.Page{W: s.Width.V, H: s.Height.V} }

// Put places an artwork and its own marks on place i of a sheet, moved as the
// printer asks, on whole dots.
func (s *Stock) Put(pg *page.Page, i int, by Bed, art *page.Art, own []page.Item) {
	r := s.Place(i)
	x, y := by.Dots.Snap(r.X+by.Right), by.Dots.Snap(r.Y+by.Down)
	pg.Placed = append(pg.Placed, page.Placed{Art: art, X: x, Y: y})
	for _, it := range own {
		pg.Items = append(pg.Items, it.Moved(x, y))
	}
}

// Deal deals artworks out, one to a place, to as many sheets as they need.
func (s *Stock) Deal(arts []*page.Art, by Bed) []*page.Page {
	var out []*page.Page
	for i, art := range arts {
		k := i % s.Places()
		if k == 0 {
			out = append(out, s.Sheet())
		}
		s.Put(out[len(out)-1], k, by, art, nil)
	}
	return out
}
