package tub

import (
	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// From where a label is read where its stock does not say: a small one in the
// hand, a larger one on the shelf (common practice, no source).
const (
	inHand  = 400 * unit.MM
	onShelf = 500 * unit.MM
)

// full is the width from which a label has room for everything.
const full = 70 * unit.MM

func distance(s *stock.Stock) unit.Length {
	w, _ := s.Size()
	switch {
	case s.ReadAt.V > 0:
		return s.ReadAt.V
	case w < full:
		return inHand
	}
	return onShelf
}

// sizes are sizes of the face.
type sizes struct {
	small unit.Length // what is read once the tub is in the hand
	key   unit.Length // what must not be missed: date, batch, allergens, raw
	date  unit.Length // the last day of use
	name  unit.Length
}

// caps are the least heights of capitals: a two-hundredth of the distance (the
// rule of the FAA), and for what must not be missed 20 minutes of arc
// (NUREG-0700, 1.3.1-4); see labels/market.
func caps(s *stock.Stock) (small, key unit.Length) {
	least, _ := market.FindReading("aviation")
	better, _ := market.FindReading("preferred")
	return least.CapHeight(distance(s)), better.CapHeight(distance(s))
}

// leastAt are the least sizes on a stock.
func leastAt(s *stock.Stock, faces *text.Faces) sizes {
	small, key := caps(s)
	z := sizes{small: faces.Regular.SizeForCap(small), key: faces.Bold.SizeForCap(key)}
	z.date, z.name = z.key, z.key
	return z
}

// The largest name is mostName tenths of the least; other words grow with it by
// these percentages, the date nearly as large as the name.
const (
	mostName    = 22
	dateOfName  = 90
	keyOfName   = 60
	smallOfName = 50
)

// grown are the sizes that go with a name of a size, none below the least.
func (z sizes) grown(name unit.Length) sizes {
	of := func(percent int64, least unit.Length) unit.Length {
		return max(text.Whole(name.Mul(percent, 100)), least)
	}
	return sizes{small: of(smallOfName, z.small), key: of(keyOfName, z.key), date: of(dateOfName, z.date), name: name}
}

// xOfCap is how high an x is in the shipped faces, in hundredths of a capital.
const xOfCap = 74

// Heights gives the least x-height of every role on a label of the stock, for
// checking the finished labels.
func Heights(s *stock.Stock) map[page.Role]unit.Length {
	small, key := caps(s)
	x := func(c unit.Length) unit.Length { return c.Mul(xOfCap, 100) }
	return map[page.Role]unit.Length{
		page.Name: x(key), page.Date: x(key), page.Batch: x(key), page.Allergens: x(key), page.Statement: x(key),
		page.May: x(small), page.Keep: x(small), page.Amount: x(small), page.Note: x(small),
	}
}
