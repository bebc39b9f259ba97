package print

import (
	"errors"
	"fmt"

	"chablon/cmd/internal/usage"
	"chablon/labels/shop"
	"chablon/layout/page"
	"chablon/layout/stock"
)

// dealt deals out the pieces of jobs of one kind, in their order, on the stock
// of the first.
func dealt(jobs []*Job) stock.Imposition {
	j := jobs[0]
	im := stock.Imposition{Stock: j.Stock, Bed: bed(j.Printer), First: int(j.Request.FirstPlace), Skip: j.Request.Skip,
		Label: func(n int) (*page.Art, []page.Item) { return piece(jobs, n) }}
	for _, j := range jobs {
		im.Count += j.pieces()
	}
	return im
}

// piece is piece n over all jobs, counted from 1.
func piece(jobs []*Job, n int) (*page.Art, []page.Item) {
	for _, j := range jobs {
		if n <= j.pieces() {
			return j.set.art(n), j.set.own(n)
		}
		n -= j.pieces()
	}
	return nil, nil
}

// bed is how a printer of the shop takes paper.
func bed(p shop.Printer) stock.Bed {
	return stock.Bed{Dots: p.Resolution.V, Right: p.Right.V, Down: p.Down.V, Wide100: p.Wide100.V, High100: p.High100.V}
}

// places refuses places that the stock does not have.
func places(s *stock.Stock, r Request) error {
	var e *stock.PlaceError
	if err := (stock.Imposition{Stock: s, First: int(r.FirstPlace), Skip: r.Skip}).Check(); !errors.As(err, &e) {
		return err
	}
	if e.Full {
		return usage.Errorf("skip fewer places", "no place is left on the first sheet of %s", s.ID)
	}
	return usage.Errorf(fmt.Sprintf("%s has the places 1 to %d", s.ID, s.Places()), "%s has no place %d", s.ID, e.Place)
}
