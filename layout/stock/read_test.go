package stock_test

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
	"chablon/layout/stock"
)

// numbered is a run of labels that bear their number at 3 mm from their corner,
// its foot 10 mm below it.
func numbered(s *stock.Stock, n int) (stock.Imposition, *page.Art) {
	w, h := s.Size()
	art := &page.Art{W: w, H: h, Items: []page.Item{{Role: role.Furniture, Box: page.Rect{W: unit.MM, H: unit.MM}, Shape: &page.Shape{Kind: page.Filled}}}}
	size := 4 * unit.MM
	return stock.Imposition{Stock: s, Count: n, Label: func(serial int) (*page.Art, []page.Item) {
		return art, []page.Item{{Role: role.Serial, Box: page.Rect{X: 3 * unit.MM, Y: 6 * unit.MM, W: 9 * unit.MM, H: 5 * unit.MM},
			Run: &page.Run{Text: fmt.Sprintf("N%d", serial), Face: "regular", Size: size, XHeight: size / 2, CapHeight: size * 7 / 10, Baseline: 10 * unit.MM}}}
	}}, art
}

// TestReadBack: of a full sheet, a part-used one and one with places to skip,
// another's reader finds every label in the finished PDF within a tenth of a
// millimetre of where a ruler says that its place is, in order, and none on
// the places that are used up. A printer that is fed a little long and lies a
// little off is undone: where it puts a label is the place of the label.
func TestReadBack(t *testing.T) {
	for _, c := range []struct {
		id    string
		count int
		first int
		skip  []int
		want  []int // places of the first sheet
		bed   stock.Bed
	}{
		{"a4-8", 8, 0, nil, []int{1, 2, 3, 4, 5, 6, 7, 8}, stock.Bed{}},
		{"a4-8", 11, 3, nil, []int{3, 4, 5, 6, 7, 8}, stock.Bed{Dots: unit.Dots{N: 600, Per: unit.Inch}}},
		{"a4-8", 9, 2, []int{4, 7}, []int{2, 3, 5, 6, 8}, stock.Bed{Dots: unit.Dots{N: 600, Per: unit.Inch}, Right: 600 * unit.UM, Down: -400 * unit.UM}},
		{"a4-6", 6, 0, []int{1}, []int{2, 3, 4, 5, 6}, stock.Bed{Dots: unit.Dots{N: 600, Per: unit.Inch}, Right: -300 * unit.UM, Wide100: 99_700 * unit.UM, High100: 100_300 * unit.UM}},
		{"roll-100x60", 2, 0, nil, []int{1}, stock.Bed{Dots: unit.Dots{N: 12, Per: unit.MM}, Right: 500 * unit.UM, Down: 500 * unit.UM}},
	} {
		s := get(t, c.id)
		run, art := numbered(s, c.count)
		run.First, run.Skip, run.Bed = c.first, c.skip, c.bed
		var b bytes.Buffer
		if err := pdf.Write(&b, pdf.Doc{Title: "t", Lang: "en", Arts: []*page.Art{art}, Pages: run.Pages(0, run.Sheets())}); err != nil {
			t.Fatal(err)
		}
		n := 0
		for i, sheet := range pdftest.Pages(t, b.Bytes()) {
			places := c.want
			if i > 0 {
				places = indices(s.Places() + 1)[1:]
			}
			for _, place := range places[:min(len(places), c.count-n)] {
				n++
				line, ok := sheet.Line(fmt.Sprintf("N%d", n))
				if !ok {
					t.Fatalf("%s: label %d is not on sheet %d", c.id, n, i+1)
				}
				x, y := printed(line.X(), c.bed.Right, c.bed.Wide100), printed(line.Baseline(), c.bed.Down, c.bed.High100)
				r := s.Place(place - 1)
				if math.Abs(x-(r.X+3*unit.MM).MM()) > 0.1+stretched(r.W, c.bed.Wide100) || math.Abs(y-(r.Y+10*unit.MM).MM()) > 0.1+stretched(r.H, c.bed.High100) {
					t.Errorf("%s: label %d comes out at %.2f, %.2f mm, and its place %d begins at %s, %s", c.id, n, x, y, place, r.X, r.Y)
				}
			}
		}
		if n != c.count {
			t.Errorf("%s: %d labels of %d", c.id, n, c.count)
		}
	}
}

// printed is where a printer that needs such a setting puts what is drawn at l:
// so far to the left, and stretched.
func printed(l float64, off, hundred unit.Length) float64 {
	l -= off.MM()
	if hundred != 0 {
		l *= hundred.MM() / 100
	}
	return l
}

// stretched is how far the corner of a label comes out beside its place when
// its middle does not, because the label itself is stretched.
func stretched(side, hundred unit.Length) float64 {
	if hundred == 0 {
		return 0
	}
	return math.Abs(side.MM() / 2 * (hundred.MM()/100 - 1))
}
