package card

import (
	"slices"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// markSide is the side of the emblem on a card, markWhite the white around it,
// and headHigh how far down the head of a page reaches.
const (
	markSide  = 9 * unit.MM
	markWhite = 1500 * unit.UM
	headHigh  = 45 * unit.MM
)

// crowned puts the emblem of the shop on pages that are set: at the right of
// their heads, as high as there is room, where nothing stands and the card is
// not punched. It moves nothing; a page without such a place stays plain.
func (s *sheet) crowned(pages []*page.Page) []*page.Page {
	if s.Look == nil {
		return pages
	}
	for _, p := range pages {
		if r, ok := s.free(p.Items); ok {
			h := s.paper.Setter()
			s.Look.Mark(h, s.paper, r)
			p.Items = append(p.Items, h.Items...)
		}
	}
	return pages
}

// free is a place for the emblem in the right half of the head, the highest at
// the right edge first, then further to the left.
func (s *sheet) free(items []page.Item) (page.Rect, bool) {
	const step = unit.MM
	for x := s.area.Right() - markSide; x >= s.area.X+s.area.W/2; x -= step {
		for y := s.area.Y; y+markSide <= min(headHigh, s.area.Bottom()); y += step {
			r := page.Rect{X: x, Y: y, W: markSide, H: markSide}
			if s.clear(r.Inset(-markWhite), items) {
				return r, true
			}
		}
	}
	return page.Rect{}, false
}

// clear reports whether nothing stands in r, nor is punched there.
func (s *sheet) clear(r page.Rect, items []page.Item) bool {
	w, _ := s.Stock.Size()
	if s.hangs() && r.Overlaps(page.Rect{X: (w - punch) / 2, W: punch, H: punch}) {
		return false
	}
	return !slices.ContainsFunc(items, func(it page.Item) bool { return it.Box.Overlaps(r) })
}
