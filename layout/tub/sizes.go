package tub

import (
	"maps"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// full is the width from which a label has room for everything.
const full = 70 * unit.MM

// distance is from where a label is read where its stock does not say: a small
// one in the hand, a larger one on the shelf.
func distance(s *stock.Stock) unit.Length {
	w, _ := s.Size()
	switch {
	case s.ReadAt.V > 0:
		return s.ReadAt.V
	case w < full:
		return compose.InHand
	}
	return compose.OnBench
}

// sizes are sizes of the face.
type sizes struct {
	small unit.Length // what is read once the tub is in the hand
	key   unit.Length // what must not be missed: date, batch, allergens, raw
	date  unit.Length // the last day of use
	name  unit.Length
}

// leastAt are the least sizes on a stock.
func leastAt(s *stock.Stock, faces *text.Faces) sizes {
	small, key := compose.Legible(distance(s))
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

// Heights gives the least x-height of every role on a label of the stock, for
// checking the finished labels.
func Heights(s *stock.Stock) map[role.Role]unit.Length {
	small, key := compose.Legible(distance(s))
	out := compose.Heights(small, role.May, role.Keep, role.Amount, role.Note)
	maps.Copy(out, compose.Heights(key, role.Name, role.Date, role.Batch, role.Allergens, role.Statement))
	return out
}
