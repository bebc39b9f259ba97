package scale

import (
	"math/big"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Strength is a rule by which gelatine of one Bloom strength replaces another.
// The trade uses both; whoever prints an amount names the rule.
type Strength string

// The rules.
const (
	Linear Strength = "linear" // m × from ÷ to
	Root   Strength = "root"   // m × √(from ÷ to)
)

// Gelatine gives how much gelatine of strength to sets like m of strength
// from, both in Bloom; m itself when a strength is not known.
func Gelatine(m unit.Mass, from, to int64, rule Strength) unit.Mass {
	if m <= 0 || from <= 0 || to <= 0 {
		return m
	}
	if rule == Linear {
		return mass(mul(rat(m, 1), rat(from, to)))
	}
	// √(m² × from ÷ to), rounded: half of √(4 × …), rounded down, and one.
	n := new(big.Int).Mul(big.NewInt(int64(m)), big.NewInt(int64(m)))
	n.Mul(n, big.NewInt(from)).Lsh(n, 2).Div(n, big.NewInt(to))
	n.Sqrt(n).Add(n, big.NewInt(1)).Rsh(n, 1)
	if !n.IsInt64() {
		return m
	}
	return unit.Mass(n.Int64())
}

// Bakers gives each line of a formula as a share of its base lines together:
// the baker's percentage, where the base is all the flour. False when the base
// is nothing.
func Bakers(f *shop.Formula, base ...string) ([]unit.Share, bool) {
	var sum unit.Mass
	for _, l := range f.Lines {
		for _, ref := range base {
			if l.Ref() == ref {
				sum += l.Taken()
			}
		}
	}
	if sum <= 0 {
		return nil, false
	}
	var all []unit.Share
	for _, l := range f.Lines {
		all = append(all, unit.Share(mass(times(rat(l.Taken(), sum), unit.Whole))))
	}
	return all, true
}

// OnBase gives each line of a formula as a share of the base that the formula
// names; false where it names none.
func OnBase(f *shop.Formula) ([]unit.Share, bool) {
	var base []string
	for _, b := range f.Base {
		base = append(base, b.V)
	}
	return Bakers(f, base...)
}

// BaseFor gives how much base makes a mass: the mass over the sum of all
// shares of the base (W. Gisslen, Professional Baking: flour = yield ÷ total
// percentage).
func BaseFor(want unit.Mass, shares []unit.Share) (unit.Mass, bool) {
	var sum unit.Share
	for _, s := range shares {
		sum += s
	}
	if sum <= 0 {
		return 0, false
	}
	return mass(mul(rat(want, 1), rat(whole, sum))), true
}
