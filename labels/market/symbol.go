package market

import (
	"math/big"

	"chablon/labels/unit"
)

// Symbol is the rule on a symbol at the front of a pack whose food is high in
// something; without steps the market has none.
type Symbol struct {
	From    unit.Date    // it is due for food made from this day on
	Steps   []SymbolStep // the first that holds applies
	Of      []SymbolOf
	Never   unit.Area // a pack with less surface than this bears none
	Small   unit.Area // a face up to this bears a small version
	Reasons []SymbolReason
	Cite
}

// SymbolStep is the share of the daily value from which on the symbol is due.
type SymbolStep struct {
	UpTo  unit.Mass // reference amount up to this; 0 for any
	Main  bool      // for a main dish,
	Least unit.Mass // whose reference amount is at least this
	Share unit.Share
}

// SymbolOf is a nutrient that the symbol is for.
type SymbolOf struct {
	Key       string
	Reference Amount // its daily value
	Ref       Cite
}

// SymbolReason is why a pack need not bear the symbol, by its key; Below is the
// surface that it must stay under, 0 for none.
type SymbolReason struct {
	Key   string
	Below unit.Area
	Cite
}

// Asked reports whether the market has such a symbol, for food made on a day.
func (s Symbol) Asked(made unit.Date) bool { return len(s.Steps) > 0 && !made.Before(s.From) }

// Share is the share of the daily value from which on the symbol is due.
func (s Symbol) Share(reference unit.Mass, main bool) unit.Share {
	for _, x := range s.Steps {
		if (x.UpTo == 0 || reference <= x.UpTo) && (!x.Main || main && reference >= x.Least) {
			return x.Share
		}
	}
	return 0
}

// Over lists what a food holds so much of that the symbol is due: holds is the
// amount in a mass of it, and it is judged on the portion or the reference amount,
// whichever is larger. Nothing is rounded: amounts are compared as fractions.
func (s Symbol) Over(holds func(key string) Amount, mass, portion, reference unit.Mass, main bool) (over []string) {
	basis, share := max(portion, reference), s.Share(reference, main)
	for _, x := range s.Of {
		if product(int64(holds(x.Key)), int64(basis), int64(unit.Whole)).Cmp(product(int64(x.Reference), int64(share), int64(mass))) >= 0 {
			over = append(over, x.Key)
		}
	}
	return over
}

func product(all ...int64) *big.Int {
	out := big.NewInt(1)
	for _, n := range all {
		out.Mul(out, big.NewInt(n))
	}
	return out
}

// Version is the number of the symbol for what a food is high in, on a face of
// this area; 0 where it is high in nothing.
func (s Symbol) Version(over []string, face unit.Area) int {
	bits := 0
	for i, x := range s.Of {
		for _, key := range over {
			if x.Key == key {
				bits |= 1 << i
			}
		}
	}
	large := [8]int{0, 5, 6, 2, 7, 4, 3, 1}
	small := [8]int{0, 11, 12, 8, 13, 10, 9, 1}
	if face > 0 && face <= s.Small {
		return small[bits]
	}
	return large[bits]
}

// Reason finds why a pack need not bear the symbol, by its key.
func (s Symbol) Reason(key string) (SymbolReason, bool) {
	for _, r := range s.Reasons {
		if r.Key == key {
			return r, true
		}
	}
	return SymbolReason{}, false
}
