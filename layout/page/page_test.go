package page_test

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/role"
	"chablon/labels/unit"
	. "chablon/layout/page"
)

const mm = unit.MM

func drawn(r *rapid.T, name string) Rect {
	n := func(least, most int64) unit.Length {
		return unit.Length(rapid.Int64Range(least, most).Draw(r, name)) * mm
	}
	return Rect{n(-50, 50), n(-50, 50), n(1, 60), n(1, 60)}
}

// TestRects: boxes overlap when, and only when, some whole square millimetre
// lies in both; a box contains another when every one of its does.
func TestRects(t *testing.T) {
	inside := func(b Rect, x, y unit.Length) bool {
		return x >= b.X && x+mm <= b.Right() && y >= b.Y && y+mm <= b.Bottom()
	}
	rapid.Check(t, func(r *rapid.T) {
		a, b := drawn(r, "a"), drawn(r, "b")
		shared, all, both := false, true, 0
		for x := b.X; x < b.Right(); x += mm {
			for y := b.Y; y < b.Bottom(); y += mm {
				in := inside(a, x, y)
				shared, all = shared || in, all && in
				if in {
					both++
				}
			}
		}
		if a.Overlaps(b) != shared || b.Overlaps(a) != shared {
			r.Errorf("%v and %v: overlap %t, counted %t", a, b, a.Overlaps(b), shared)
		}
		if c := a.Common(b); shared && c.W/mm*(c.H/mm) != unit.Length(both) || !shared && min(c.W, c.H) > 0 {
			r.Errorf("%v and %v: share %v, counted %d mm²", a, b, c, both)
		}
		if a.Contains(b) != all {
			r.Errorf("%v and %v: contains %t, counted %t", a, b, a.Contains(b), all)
		}
	})
}

// things is one mark of each kind.
func things() []Item {
	at := Rect{1 * mm, 2 * mm, 3 * mm, 4 * mm}
	return []Item{
		{Box: at, Role: role.Name, Run: &Run{Text: "tart", Face: "bold", XHeight: mm, Baseline: 5 * mm}},
		{Box: at, Role: role.Bars, Symbol: &Symbol{Kind: "EAN-13", Data: "9520001000010", Cols: 2, Rows: 1, Dark: []byte{1, 0}, Module: mm, Bars: at}},
		{Box: at, Role: role.Furniture, Shape: &Shape{Kind: Path, Segs: []Seg{{Op: Move, Pts: [3]Pt{{X: 1 * mm, Y: 2 * mm}}}, {Op: Close}}}},
		{Box: at, Role: role.Furniture, Shape: &Shape{Kind: Outlined, Stroke: mm}},
	}
}

// TestMoved: a moved mark lies as much further as was asked, what it was made
// from stays where it was, and moving back gives the same mark.
func TestMoved(t *testing.T) {
	for i, it := range things() {
		there := it.Moved(10*mm, 20*mm)
		if there.Box != (Rect{11 * mm, 22 * mm, 3 * mm, 4 * mm}) {
			t.Errorf("mark %d went to %v", i, there.Box)
		}
		if !reflect.DeepEqual(it, things()[i]) {
			t.Errorf("mark %d was changed by moving its copy", i)
		}
		if back := there.Moved(-10*mm, -20*mm); i != 2 && !reflect.DeepEqual(back, it) {
			t.Errorf("mark %d came back as %+v", i, back)
		}
	}
	run := things()[0].Moved(0, 20*mm)
	bars := things()[1].Moved(10*mm, 0)
	path := things()[2].Moved(10*mm, 20*mm)
	if run.Run.Baseline != 25*mm || bars.Symbol.Bars.X != 11*mm || path.Shape.Segs[0].Pts[0] != (Pt{11 * mm, 22 * mm}) {
		t.Errorf("moved to %v, %v, %v", run.Run.Baseline, bars.Symbol.Bars, path.Shape.Segs[0])
	}
}

// TestAllAndDump: artwork comes first, at its place; the dump has a line for
// each mark.
func TestAllAndDump(t *testing.T) {
	art := &Art{W: 50 * mm, H: 30 * mm, Items: things()[:2]}
	p := &Page{W: 100 * mm, H: 60 * mm, Placed: []Placed{{Art: art}, {Art: art, X: 50 * mm}}, Items: things()[2:]}
	all := p.All()
	if len(all) != 6 || all[2].Box.X != 51*mm || all[4].Shape == nil {
		t.Fatalf("%d marks, the third at %v", len(all), all[2].Box)
	}
	lines := strings.Split(strings.TrimSpace(p.Dump()), "\n")
	if len(lines) != 7 || lines[0] != "page 100.00 × 60.00" || !strings.Contains(lines[4], "9520001000010") {
		t.Errorf("the dump reads\n%s", p.Dump())
	}
}

func ExamplePage_Dump() {
	p := &Page{W: 40 * mm, H: 30 * mm, Items: []Item{{Box: Rect{2 * mm, 2 * mm, 12 * mm, 3 * mm}, Role: role.Name,
		Run: &Run{Text: "Tartlet", Face: "bold", XHeight: 2 * mm, Baseline: 4 * mm}}}}
	fmt.Print(p.Dump())
	// Output:
	// page 40.00 × 30.00
	// [   2.00    2.00   12.00    3.00] name      bold x=2.00 base=4.00 "Tartlet"
}
