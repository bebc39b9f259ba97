package stock

import (
	"fmt"
	"iter"
	"slices"

	"chablon/layout/page"
)

// Imposition is a run of labels dealt out to sheets, row by row: which places
// of the first sheet are free, and what stands on each label. Every label lies
// on whole dots of the printer, moved as the printer asks. A roll or a card has
// one place.
type Imposition struct {
	Stock *Stock
	Bed   Bed
	Count int   // labels in the run
	First int   // the place of the first sheet to begin at, from 1; 0 is 1
	Skip  []int // places of the first sheet to leave empty, from 1
	// Serial is the running number of the first label; 0 is 1.
	Serial int
	// Label gives the label with a running number: what stands still from label
	// to label, and the marks that are its own.
	Label func(serial int) (*page.Art, []page.Item)
}

// PlaceError is a place that the sheet does not have, or a first sheet with no
// place left.
type PlaceError struct {
	Stock *Stock
	Place int
	Full  bool
}

// Error says which place, and which there are.
func (e *PlaceError) Error() string {
	if e.Full {
		return "no place of the first sheet of " + e.Stock.ID + " is free"
	}
	return fmt.Sprintf("there is no place %d on %s, which has the places 1 to %d", e.Place, e.Stock.ID, e.Stock.Places())
}

// Check gives a *PlaceError when the first sheet cannot be begun as asked.
func (im Imposition) Check() error {
	for _, n := range append([]int{max(1, im.First)}, im.Skip...) {
		if n < 1 || n > im.Stock.Places() {
			return &PlaceError{Stock: im.Stock, Place: n}
		}
	}
	if len(im.free()) == 0 {
		return &PlaceError{Stock: im.Stock, Full: true}
	}
	return nil
}

// free lists the places of the first sheet that may be used, from 0.
func (im Imposition) free() []int {
	var out []int
	for i := max(1, im.First) - 1; i < im.Stock.Places(); i++ {
		if !slices.Contains(im.Skip, i+1) {
			out = append(out, i)
		}
	}
	return out
}

// Sheets counts the sheets of the run. A run without labels has none.
func (im Imposition) Sheets() int {
	if im.Count == 0 {
		return 0
	}
	each := im.Stock.Places()
	rest := max(0, im.Count-len(im.free()))
	return 1 + (rest+each-1)/each
}

// Labels are those of n sheets, from the sheet number from on: from the label
// first, counted from 0, up to and without the label last.
func (im Imposition) Labels(from, n int) (first, last int) {
	before := func(sheet int) int {
		if sheet == 0 {
			return 0
		}
		return min(im.Count, len(im.free())+(sheet-1)*im.Stock.Places())
	}
	return before(from), before(from + n)
}

// Pages makes n sheets, from the sheet number from on (0 is the first). They
// are made one by one as they are asked for.
func (im Imposition) Pages(from, n int) iter.Seq[*page.Page] {
	return func(yield func(*page.Page) bool) {
		for i := from; i < min(from+n, im.Sheets()); i++ {
			if !yield(im.sheet(i)) {
				return
			}
		}
	}
}

// sheet makes one sheet of the run.
func (im Imposition) sheet(n int) *page.Page {
	pg := &page.Page{W: im.Stock.Width.V, H: im.Stock.Height.V}
	free := im.free()
	done := 0
	if n > 0 {
		done = len(free) + (n-1)*im.Stock.Places()
	}
	for k := range min(im.Stock.Places(), im.Count-done) {
		switch {
		case n > 0:
			im.put(pg, k, done+k)
		case k < len(free):
			im.put(pg, free[k], k)
		}
	}
	return pg
}

// put puts the kth label of the run, from 0, on a place.
func (im Imposition) put(pg *page.Page, place, k int) {
	art, own := im.Label(max(1, im.Serial) + k)
	r := im.Stock.Place(place)
	x, y := im.Bed.Place(r)
	pg.Placed = append(pg.Placed, page.Placed{Art: art, X: x, Y: y})
	for _, it := range own {
		pg.Items = append(pg.Items, it.Moved(x, y))
	}
}
