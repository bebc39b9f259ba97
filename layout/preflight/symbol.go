package preflight

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/layout/page"
)

// symbolKept finds a label that must bear a symbol at its front and keeps no
// place for it: a frame with nothing in it, in the right half of a label that is
// lower than wide, and in the upper half of any other.
func symbolKept(s Sheet, items []page.Item, found *diag.List) {
	if s.Front == 0 {
		return
	}
	half := page.Rect{X: s.Safe.X, Y: s.Safe.Y, W: s.Safe.W, H: s.Safe.H / 2}
	if s.Safe.H < s.Safe.W {
		half = page.Rect{X: s.Safe.X + s.Safe.W/2, Y: s.Safe.Y, W: s.Safe.W - s.Safe.W/2, H: s.Safe.H}
	}
	var frame *page.Item
	for i := range items {
		if items[i].Role == role.Symbol && items[i].Shape != nil {
			frame = &items[i]
		}
	}
	if frame == nil {
		found.Errorf(s.Src, "front-symbol", "report this", "%s: no place is kept for symbol %d (%s)", s.What, s.Front, s.Market.Nutrition.Symbol.Cite)
		return
	}
	if !half.Contains(frame.Box) {
		found.Errorf(at(s, *frame), "front-symbol", "choose a larger paper", "%s: the place of symbol %d lies in the wrong half of the label (%s)", s.What, s.Front, s.Market.Nutrition.Symbol.Cite)
	}
	for _, it := range items {
		if it.Role != role.Draft && it.Role != role.Symbol && it.Box.Overlaps(frame.Box) {
			found.Errorf(at(s, it), "front-symbol", "print less on it", "%s: %s stands in the place of symbol %d", s.What, name(it), s.Front)
		}
	}
}
