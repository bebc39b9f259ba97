package compose

import (
	"errors"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Best sets something at the largest size from least to most, in steps of
// step hundredths of a point, at which it fits, and returns it with that size.
// The error is why it does not fit even at the least. Set may be asked in any
// order of sizes; what fits at one is to fit at any smaller one.
func Best[T any](least, most unit.Length, step int64, set func(size unit.Length) (T, error)) (best T, size unit.Length, err error) {
	flow.Largest(least, most, step, func(at unit.Length) bool {
		t, fault := set(at)
		if fault != nil {
			err = fault
			return false
		}
		if size == 0 || at > size {
			best, size = t, at
		}
		return true
	})
	if size > 0 {
		err = nil
	}
	return best, size, err
}

// Dotted lists sizes from least to most at which an x is a whole number of
// dots high, as near as hundredths of a point come to it, so that a printer
// sets every x alike; the least is always among them. Where no dots are known
// they are steps of step hundredths of a point.
func Dotted(f *text.Face, dots unit.Dots, least, most unit.Length, step int64) []unit.Length {
	all := []unit.Length{least}
	if dots.N == 0 {
		for at := text.InHundredths(least) + step; at <= text.InHundredths(most); at += step {
			all = append(all, text.Hundredths(at))
		}
		return all
	}
	for n := dots.Floor(f.XHeight(least)); ; n++ {
		size := f.SizeForX(dots.At(n))
		if size > most {
			return all
		}
		if size > least {
			all = append(all, size)
		}
	}
}

// BestOf is [Best] among sizes, the smallest first.
func BestOf[T any](sizes []unit.Length, set func(size unit.Length) (T, error)) (best T, size unit.Length, err error) {
	var none T
	if len(sizes) == 0 {
		return none, 0, errors.New("no size is left to try")
	}
	if best, err = set(sizes[0]); err != nil {
		return none, 0, err
	}
	size = sizes[0]
	for low, high := 1, len(sizes); low < high; {
		mid := (low + high) / 2
		t, fault := set(sizes[mid])
		if fault != nil {
			high = mid
			continue
		}
		best, size, low = t, sizes[mid], mid+1
	}
	return best, size, nil
}

// Fewest sets pages on as few of them as the least size needs, at the largest
// size up to most that needs no more. At sets the pages at one size.
func Fewest(least, most unit.Length, at func(size unit.Length) ([]*page.Page, error)) ([]*page.Page, error) {
	few, err := at(least)
	if err != nil {
		return nil, err
	}
	best, _, err := Best(least, most, 10, func(size unit.Length) ([]*page.Page, error) {
		pages, err := at(size)
		if err == nil && len(pages) > len(few) {
			err = errMore
		}
		return pages, err
	})
	return best, err
}

var errMore = errors.New("it takes more pages")

// Refusal is what to say of a label that does not fit on its stock.
type Refusal struct {
	At    diag.Pos
	What  string // "the ticket of pear-tartlet"
	Stock *stock.Stock
	With  string // what may not become smaller: "with letters 3 mm high"; may be empty
	Hint  string
}

// Refuse adds to found that a label does not fit, and why. What would fit on no
// paper, because no face has a letter of it or bars cannot say it, is told as
// that.
func (r Refusal) Refuse(err error, found *diag.List) {
	var finding interface{ Diag() diag.Diag }
	var high *flow.Overflow
	var wide *text.TooWide
	if errors.As(err, &finding) && !errors.As(err, &high) && !errors.As(err, &wide) {
		found.AddError(err, diag.Diag{Pos: r.At})
		return
	}
	w, h := r.Stock.Size()
	with := r.With
	if with != "" {
		with = " " + with
	}
	found.Errorf(r.At, "does-not-fit", r.Hint, "%s does not fit on %s × %s (%s)%s: %v", r.What, w, h, r.Stock.ID, with, err)
}
