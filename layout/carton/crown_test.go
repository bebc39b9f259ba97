package carton

import (
	"fmt"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/layout/layouttest"
	"chablon/layout/look"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// TestLook: in the look every word of the plain label but the sender stands where
// it stood, and as large; the sender is as large; the emblem lies on nothing, and
// where it is missing, that is said.
func TestLook(t *testing.T) {
	sh := layouttest.Shop(t)
	var found diag.List
	own := look.Read(sh.Brand, &found)
	borne := 0
	for _, on2 := range []string{"roll-a5", "roll-100x150", "roll-100x60", "a4-2"} {
		for _, id := range sh.ProductIDs {
			c := on(t, of(t, sh, id), on2)
			var misfit diag.List
			plain := Compose(c, layouttest.Faces(t), &misfit)
			c.Look = own
			s := Compose(c, layouttest.Faces(t), &misfit)
			if plain == nil || s == nil {
				if plain != nil || s != nil {
					t.Errorf("%s on %s: the look makes it fit, or not", id, on2)
				}
				continue
			}
			pg := sheet(s, 1)
			if has := marked(pg.All()); has == (s.Gave != "") {
				t.Errorf("%s on %s: emblem %v, told %q", id, on2, has, s.Gave)
			} else if has {
				borne++
			}
			same(t, id+" on "+on2, sheet(plain, 1).All(), pg.All())
			layouttest.Passes(t, preflight.Sheet{What: id + " on " + on2, Safe: s.Safe, Market: c.Facts.Market, Pack: c.Pack(),
				Use: gs1.Trade, Today: layouttest.Day(), Date: c.Facts.Date.End}, pg)
		}
	}
	if borne < 5 {
		t.Errorf("%d cartons bear the emblem", borne)
	}
}

func marked(items []page.Item) bool {
	for _, it := range items {
		if it.Role == role.Emblem {
			return true
		}
	}
	return false
}

// same holds the words of a label against those of the plain one.
func same(t *testing.T, what string, plain, looked []page.Item) {
	t.Helper()
	have := map[string]int{}
	for _, it := range looked {
		if it.Run != nil {
			have[placed(it)]++
		}
		for _, other := range looked {
			if it.Role == role.Emblem && other.Run != nil && it.Box.Overlaps(other.Box) {
				t.Errorf("%s: the emblem lies on %q", what, other.Run.Text)
			}
		}
	}
	for _, it := range plain {
		if it.Run != nil && it.Role != role.Operator && have[placed(it)] == 0 {
			t.Errorf("%s: %q does not stand where it stood", what, it.Run.Text)
		}
	}
}

// placed is a word and where it stands, how large.
func placed(it page.Item) string {
	return fmt.Sprint(it.Role, it.Run.Text, it.Box, it.Run.CapHeight)
}
