package look_test

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
	"chablon/layout/look"
	"chablon/layout/page"
)

func demo(t testing.TB, on string, dots unit.Dots) (*look.Look, *compose.Paper) {
	var found diag.List
	l := look.Read(layouttest.Shop(t).Brand, &found)
	if l == nil || found.Len() > 0 {
		t.Fatal(found.All())
	}
	return l, compose.On(layouttest.Paper(t, on), dots, layouttest.Faces(t))
}

// TestMarkFallsBack: small, the strokes and holes of the demo's
// emblem are finer than 8 dots draw (holes of 7.2 of its 96 units are 3 dots at
// 5 mm, where they fill), so the simpler drawing stands in,
// and at 3 mm there is none.
func TestMarkFallsBack(t *testing.T) {
	l, p := demo(t, "roll-100x60", unit.Dots{N: 8, Per: unit.MM})
	segs := map[unit.Length]int{}
	for _, side := range []unit.Length{12 * unit.MM, 5 * unit.MM, 3 * unit.MM} {
		s := p.Setter()
		box := l.Mark(s, p, page.Rect{X: 5 * unit.MM, Y: 5 * unit.MM, W: side, H: side})
		if (box.W > 0) != (len(s.Items) == 1) {
			t.Fatalf("%v: a box of %v and %d marks", side, box, len(s.Items))
		}
		for _, it := range s.Items {
			segs[side] = len(it.Shape.Segs)
			if it.Role != role.Emblem || box.W > side || box.H > side {
				t.Errorf("%v: %s in %v", side, it.Role, box)
			}
		}
	}
	if !(segs[12*unit.MM] > segs[5*unit.MM] && segs[5*unit.MM] > 0 && segs[3*unit.MM] == 0) {
		t.Errorf("steps of the drawing by its side: %v", segs)
	}
}

// TestWritten: the written name stays in its room at any width, or says that it
// would be too small.
func TestWritten(t *testing.T) {
	l, p := demo(t, "roll-100x60", layouttest.Desk())
	fitted := 0
	for w := 40 * unit.MM; w >= 2*unit.MM; w -= unit.MM {
		s, r := p.Setter(), page.Rect{X: 10 * unit.MM, Y: 5 * unit.MM, W: w, H: 12 * unit.MM}
		if !l.Written(s, p, r, true) {
			continue
		}
		fitted++
		for _, it := range s.Items {
			if it.Box.Right() > r.Right() || it.Box.Y < r.Y-unit.MM || it.Box.Bottom() > r.Bottom()+unit.MM {
				t.Errorf("%v wide: %q stands at %v", w, it.Run.Text, it.Box)
			}
		}
	}
	if fitted < 20 || fitted > 38 {
		t.Errorf("it fits into %d of 39 widths", fitted)
	}
}

// A shop without brand.yaml has no look; one with a drawing that cannot be read
// has none either, and is told why.
func TestRead(t *testing.T) {
	var found diag.List
	if look.Read(nil, &found) != nil || found.Len() > 0 {
		t.Error("a look out of nothing")
	}
	b := *layouttest.Shop(t).Brand
	b.Files = map[string][]byte{b.Logo.V: []byte("<svg viewBox='0 0 9 9'><script/></svg>")}
	if look.Read(&b, &found) != nil || found.Errors() == 0 || !strings.Contains(found.All()[0].Pos.File, "mark.svg") {
		t.Errorf("a script is no drawing: %v", found.All())
	}
}

func ExampleLook_Divide() {
	l, p := demo(new(testing.T), "roll-100x60", layouttest.Desk())
	s := p.Setter()
	l.Divide(s, 5*unit.MM, 10*unit.MM, 30*unit.MM)
	fmt.Print(p.Page(s.Items).Dump())
	// Output:
	// page 100.00 × 60.00
	// [   5.00   10.00    6.50    0.75] furniture filled gray=0 stroke=0.00
	// [   5.00   10.00   30.00    0.25] furniture filled gray=0 stroke=0.00
}
