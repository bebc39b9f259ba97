package print

import (
	"bytes"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/pdf/pdftest"
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
		l, err := p.label(LabelRequest{ID: "lemon-thyme-marshmallow", Paper: "a4-6", Count: c.count, FirstPlace: c.first, FirstSerial: c.serial, Skip: c.skip})
		if err != nil || l.set == nil {
			t.Fatal(err, p.Found.All())
		}
		if l.run().Sheets() != c.pages {
			t.Errorf("%+v: %d sheets, not %d", c, l.run().Sheets(), c.pages)
		}
		n := int(c.serial)
		for pg := range l.run().Pages(0, l.run().Sheets()) {
			if len(pg.Placed) == 0 || len(pg.Placed) != len(pg.Items) {
				t.Errorf("%+v: %d labels and %d numbers on a sheet", c, len(pg.Placed), len(pg.Items))
			}
			for _, it := range pg.Items {
				if want := l.set.Own(n)[0].Run.Text; it.Run.Text != want {
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
			l, err := p.label(LabelRequest{ID: "pear-hazelnut-tartlet", Paper: id, Count: 20, FirstPlace: 2})
			if err != nil || l.set == nil || p.Found.Errors() > 0 {
				t.Errorf("%s at %s: %v, %v", id, dots, err, p.Found.All())
			}
		}
	}
}

// TestLongRunIsCut: more sheets than one document may have become several files.
func TestLongRunIsCut(t *testing.T) {
	p := demoPress(t)
	l, err := p.label(LabelRequest{ID: "pear-hazelnut-tartlet", Count: 10_001})
	if err != nil || l.set == nil {
		t.Fatal(err, p.Found.All())
	}
	papers := p.labelPapers(l)
	if len(papers) != 2 || papers[0].Pages != 10_000 || papers[1].Pages != 1 || papers[0].Name == papers[1].Name {
		t.Fatalf("%d files", len(papers))
	}
	var b bytes.Buffer
	if err := papers[1].Write(&b, nil); err != nil {
		t.Fatal(err)
	}
	if got := pdftest.Pages(t, b.Bytes()); len(got) != 1 || !strings.Contains(got[0].Text, "10001") {
		t.Errorf("the last part reads %v", got)
	}
}

// TestUnsoundShopPrintsNothing: after a finding no paper is handed out.
func TestUnsoundShopPrintsNothing(t *testing.T) {
	p := demoPress(t)
	p.Found.Errorf(diag.Pos{File: "x"}, "test", "", "something is wrong")
	day, err := p.Day()
	if len(day) > 0 || err != nil {
		t.Errorf("day: %d papers, %v", len(day), err)
	}
	labels, err := p.Labels(LabelRequest{ID: "pear-hazelnut-tartlet"})
	if len(labels) > 0 || err != nil {
		t.Errorf("labels: %d papers, %v", len(labels), err)
	}
	cartons, err := p.Cartons(CartonRequest{ID: "pear-hazelnut-tartlet"})
	if len(cartons) > 0 || err != nil {
		t.Errorf("cartons: %d papers, %v", len(cartons), err)
	}
	card, err := p.Card(CardRequest{ID: "pear-hazelnut-tartlet"})
	if len(card) > 0 || err != nil {
		t.Errorf("card: %d papers, %v", len(card), err)
	}
}

// TestPrinterOffset: the offset of the printer moves label and number alike,
// and both stay on whole dots.
func TestPrinterOffset(t *testing.T) {
	p := demoPress(t)
	l, err := p.label(LabelRequest{ID: "lemon-thyme-marshmallow", Paper: "a4-6", Count: 2})
	if err != nil || l.set == nil {
		t.Fatal(err, p.Found.All())
	}
	plain := l.run().All()[0]
	l.printer.Right.V, l.printer.Down.V = -600*unit.UM, 1200*unit.UM
	moved := l.run().All()[0]
	dots := l.printer.Resolution.V
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
