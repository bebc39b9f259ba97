package card

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/layout/layouttest"
	shoplook "chablon/layout/look"
	"chablon/layout/page"
)

// TestLook: with the look a card is what it is without, and the emblem besides,
// where nothing stands and no hole is punched; most have
// the room.
func TestLook(t *testing.T) {
	sh := layouttest.Shop(t)
	var found diag.List
	borne := 0
	own := shoplook.Read(sh.Brand, &found)
	for _, id := range sh.ProductIDs {
		for _, on := range []string{"card-a3", "card-a4", "card-a5"} {
			c := hung(t, sh, id, on, "en+fr")
			if on == "card-a5" {
				c = cardOf(t, sh, id, on, "en+fr")
			}
			plain := composed(t, c)
			c.Look = own
			for i, pg := range composed(t, c) {
				n := len(plain[i].Items)
				emblems := pg.Items[n:]
				bare := *pg
				bare.Items = pg.Items[:n]
				layouttest.Same(t, []*page.Page{plain[i]}, []*page.Page{&bare})
				if len(emblems) > 1 {
					t.Errorf("%s on %s, page %d: %d emblems", id, on, i+1, len(emblems))
				}
				borne += len(emblems)
				for _, e := range emblems {
					w, _ := c.Stock.Size()
					hole := page.Rect{X: (w - punch) / 2, W: punch, H: punch}
					if e.Role != role.Emblem || on != "card-a5" && e.Box.Overlaps(hole) || e.Box.W > markSide || e.Box.Bottom() > headHigh {
						t.Errorf("%s on %s: %s at %v", id, on, e.Role, e.Box)
					}
					for _, it := range bare.Items {
						if it.Box.Overlaps(e.Box) {
							t.Errorf("%s on %s: the emblem lies on %s at %v", id, on, it.Role, it.Box)
						}
					}
				}
			}
		}
	}
	if borne < 12 {
		t.Errorf("%d pages bear the emblem", borne)
	}
}
