package sale

import (
	"testing"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
)

// TestWholeDots: on a thermal printer a small x of the list is a whole number of
// dots high, and its lines stand on quarters of a millimetre, which are 2 dots
// of 8 and 3 of 12: letters of one kind then look alike (SizeForX rounds to a
// hundredth of a point, 2 µm of an x). Only where no whole number of dots fits an
// x has the least height of the law, 1.2 mm (Reg. (EU) No 1169/2011 Art. 13(2)),
// and only a label that does not fit on the grid may leave it.
func TestWholeDots(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	for _, dots := range []unit.Dots{{N: 8, Per: unit.MM}, {N: 12, Per: unit.MM}} {
		seen := 0
		for _, id := range sh.ProductIDs {
			for _, k := range sh.Products[id].PackIDs() {
				l := labelOf(t, sh, id, k, "", dots)
				c := &label{Label: l, paper: compose.On(l.Stock, dots, f)}
				var err error
				if c.forms, err = c.together(); err != nil {
					t.Fatal(err)
				}
				best, _ := c.best()
				if best == nil || best.grid != quarter { // does not fit on the grid
					continue
				}
				seen++
				for _, it := range best.items {
					if it.Role != role.List {
						continue
					}
					x := it.Run.XHeight
					if off := x - dots.Snap(x); (off < -2*unit.UM || off > 2*unit.UM) && x > 1202*unit.UM {
						t.Errorf("%s %s at %v: an x is %.3f mm high", id, k, dots, x.MM())
					}
					if it.Run.Baseline%quarter != 0 {
						t.Errorf("%s %s at %v: a line stands at %.3f mm", id, k, dots, it.Run.Baseline.MM())
					}
				}
			}
		}
		if seen < 5 {
			t.Errorf("at %v only %d labels were set", dots, seen)
		}
	}
}

// TestDotted: the sizes begin with the least, grow, and all but the least are of
// whole dots.
func TestDotted(t *testing.T) {
	f := layouttest.Faces(t).Regular
	least, most := f.SizeForX(1200*unit.UM), f.SizeForX(2*unit.MM)
	for dots, want := range map[unit.Dots]int{{N: 8, Per: unit.MM}: 8, {N: 12, Per: unit.MM}: 11, {}: 44} {
		all := compose.Dotted(f, dots, least, most, 10)
		if len(all) != want || all[0] != least {
			t.Errorf("%v: %d sizes from %v", dots, len(all), all[0])
		}
		for i, size := range all[1:] {
			if size <= all[i] || size > most {
				t.Errorf("%v: %v behind %v", dots, size, all[i])
			}
			if x := f.XHeight(size); dots.N > 0 && x-dots.Snap(x) > 2*unit.UM {
				t.Errorf("%v: an x of %v", dots, x)
			}
		}
	}
}
