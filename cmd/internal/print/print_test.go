package print

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
	"chablon/layout/stock"
)

// TestSheetsDealt: every number from the first to the last is on some sheet,
// once; the places to leave empty stay empty; sheets are no more than needed.
func TestSheetsDealt(t *testing.T) {
	p := demoPress(t)
	for _, c := range []struct {
		count, first, serial unit.Count
		skip                 []int
		pages                int
	}{
		{1, 1, 1, nil, 1}, {6, 1, 1, nil, 1}, {7, 1, 1, nil, 2}, {9, 3, 5, nil, 2}, {4, 3, 1, []int{4, 5}, 2}, {30, 6, 100, nil, 6},
	} {
		l := sound(t, p, "label", "lemon-thyme-marshmallow", Request{Paper: "a4-6", Count: c.count, FirstPlace: c.first, Skip: c.skip, first: int64(c.serial)})
		run := dealt([]*Job{l})
		if run.Sheets() != c.pages {
			t.Errorf("%+v: %d sheets, not %d", c, run.Sheets(), c.pages)
		}
		n := int(c.serial)
		for pg := range run.Pages(0, run.Sheets()) {
			if len(pg.Placed) == 0 || len(pg.Placed) != len(pg.Items) {
				t.Errorf("%+v: %d labels and %d numbers on a sheet", c, len(pg.Placed), len(pg.Items))
			}
			for _, it := range pg.Items {
				if want := fmt.Sprintf("%04d", n); it.Run.Text != want {
					t.Errorf("%+v: number %s where %s should be", c, it.Run.Text, want)
				}
				n++
			}
		}
		if n != int(c.serial+c.count) {
			t.Errorf("%+v: numbers up to %d", c, n-1)
		}
	}
}

// TestWholeSheets: part-used and whole sheets of labels that touch are printed
// on every office printer.
func TestWholeSheets(t *testing.T) {
	for _, dots := range []unit.Dots{{N: 300, Per: unit.Inch}, {N: 600, Per: unit.Inch}, {N: 1200, Per: unit.Inch}} {
		for _, id := range []string{"a4-8", "a4-6", "a4-4", "a4-2"} {
			p := demoPress(t)
			for i := range p.Shop.Profile.Printers {
				p.Shop.Profile.Printers[i].V.Resolution.V = dots
			}
			if l := job(t, p, "label", "pear-hazelnut-tartlet", Request{Paper: id, Count: 20, FirstPlace: 2}); l.Found.Errors() > 0 {
				t.Errorf("%s at %s: %v", id, dots, l.Found.All())
			}
		}
	}
}

// TestLongRunIsCut: more sheets than one document may have become several files.
func TestLongRunIsCut(t *testing.T) {
	p := demoPress(t)
	papers := asked(t, p, "label", "pear-hazelnut-tartlet", Request{Count: 10_001}).Papers
	if len(papers) != 2 || papers[0].Pages != 10_000 || papers[1].Pages != 1 || papers[0].Name == papers[1].Name {
		t.Fatalf("%d files", len(papers))
	}
	if got := pdftest.Pages(t, bytesOf(t, papers[1])); len(got) != 1 || !strings.Contains(got[0].Text, "10001") {
		t.Errorf("the last part reads %v", got)
	}
}

// TestUnsoundShopPrintsNothing: after a finding that is of no ingredient,
// formula or product, no paper of any kind is handed out.
func TestUnsoundShopPrintsNothing(t *testing.T) {
	p := demoPress(t)
	p.Found.Errorf(diag.Pos{File: "x"}, "test", "", "something is wrong")
	if day, err := p.Day(DayOptions{}); len(day.Papers) > 0 || err != nil || day.Found.Errors() != 1 {
		t.Errorf("day: %d papers, %v", len(day.Papers), err)
	}
	n := 0
	for _, k := range p.kinds {
		for _, r := range p.all(k) {
			n++
			if b, err := p.Print(k, r); len(b.Papers) > 0 || err != nil || b.Found.Errors() != 1 {
				t.Errorf("%s: %d papers, %v, %v", k.Name, len(b.Papers), err, b.Found.All())
			}
		}
	}
	if n < 50 {
		t.Errorf("only %d papers were tried", n)
	}
}

// TestPrinterOffset: the offset of the printer moves label and number alike,
// and both stay on whole dots.
func TestPrinterOffset(t *testing.T) {
	p := demoPress(t)
	l := sound(t, p, "label", "lemon-thyme-marshmallow", Request{Paper: "a4-6", Count: 2})
	plain := first(dealt([]*Job{l}))
	l.Printer.Right.V, l.Printer.Down.V = -600*unit.UM, 1200*unit.UM
	moved := first(dealt([]*Job{l}))
	dots := l.Printer.Resolution.V
	for i := range plain.Placed {
		dx, dy := moved.Placed[i].X-plain.Placed[i].X, moved.Placed[i].Y-plain.Placed[i].Y
		if ix, iy := moved.Items[i].Box.X-plain.Items[i].Box.X, moved.Items[i].Box.Y-plain.Items[i].Box.Y; ix != dx || iy != dy {
			t.Errorf("the number moved by %s, %s and its label by %s, %s", ix, iy, dx, dy)
		}
		if d := dx + 600*unit.UM; d > dots.At(1) || d < -dots.At(1) {
			t.Errorf("moved right by %s", dx)
		}
		for _, v := range []unit.Length{moved.Placed[i].X, moved.Placed[i].Y} {
			if dots.Snap(v) != v {
				t.Errorf("%s is not on a dot", v)
			}
		}
	}
}

// TestEveryKindIsMoved: what is set for a printer moves the finished paper of
// every kind by as much, read back by another's reader, and is said in the line
// for its file; the page that a printer is measured by stays where it is.
func TestEveryKindIsMoved(t *testing.T) {
	for _, c := range []struct {
		kind string
		of   string
		r    Request
	}{
		{"card", "sweet-pastry", Request{Own: &CardOptions{Mass: unit.Kilogram}}},
		{"label", "lemon-thyme-marshmallow", Request{Paper: "a4-6", Count: 2}},
		{"label", "passion-caramel-bar", Request{Paper: "roll-100x100", Count: 1}},
		{"carton", "bench-tin", Request{Count: 1}},
		{"ticket", "pear-hazelnut-tartlet", Request{}},
		{"audit", "pear-hazelnut-tartlet", Request{}},
		{"calibrate", "", Request{Own: &CalibrateOptions{Printer: "office"}}},
	} {
		read := func(right, down unit.Length) (x, y float64, about string) {
			p := demoPress(t)
			for i := range p.Shop.Profile.Printers {
				q := &p.Shop.Profile.Printers[i].V
				q.Right.V, q.Down.V = right, down
			}
			b := asked(t, p, c.kind, c.of, c.r)
			if len(b.Papers) == 0 {
				t.Fatalf("%s: %v", c.kind, b.Found.All())
			}
			page := pdftest.Pages(t, bytesOf(t, b.Papers[0]))[0]
			return page.Lines[0].X(), page.Lines[0].Baseline(), b.Papers[0].About
		}
		x, y, plain := read(0, 0)
		nx, ny, about := read(1500*unit.UM, -700*unit.UM)
		dx, dy := 1.5, -0.7
		if c.kind == "calibrate" {
			dx, dy = 0, 0
		}
		if math.Abs(nx-x-dx) > 0.1 || math.Abs(ny-y-dy) > 0.1 {
			t.Errorf("%s moved by %.2f, %.2f mm, want %.1f, %.1f", c.kind, nx-x, ny-y, dx, dy)
		}
		if said := strings.Contains(about, "moved 1.5 mm to the right, -0.7 mm down"); said != (dx != 0) || strings.Contains(plain, "moved") {
			t.Errorf("%s: %q", c.kind, about)
		}
	}
}

// first is the first sheet of a run.
func first(run stock.Imposition) *page.Page {
	for pg := range run.Pages(0, 1) {
		return pg
	}
	return nil
}

// TestMarkMadeOnce: the mark that carries a label's number is made once for
// checking and drawing it, and a mark made anew for other numbers is another.
func TestMarkMadeOnce(t *testing.T) {
	p, made := demoPress(t), map[int]int{}
	k := p.KindOf("label")
	compose := k.Compose
	k.Compose = func(j *Job) (Set, error) {
		s, err := compose(j)
		own := s.Own
		s.Own = func(n int) []page.Item { made[n]++; return own(n) }
		return s, err
	}
	for _, q := range asked(t, p, "label", benchProduct, Request{Count: 30}).Papers {
		bytesOf(t, q)
	}
	for n := 1; n <= 30; n++ {
		if made[n] != 1 {
			t.Errorf("label %d was made %d times", n, made[n])
		}
	}
}
