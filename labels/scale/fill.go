package scale

import (
	"fmt"
	"math/big"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Fills is how a batch is spread over whole vessels: trays, moulds, bowls or
// bakes, as equally as whole numbers allow.
type Fills struct {
	Vessels unit.Count
	Most    int64 // pieces, or nanograms, in the fullest
	Least   int64 // in the emptiest
	Short   bool  // the emptiest is below the smallest fill that was asked for
}

// Trays spreads pieces over whole trays of holds, all full but the last.
func Trays(n, holds unit.Count) Fills {
	if n <= 0 || holds <= 0 {
		return Fills{}
	}
	f := Fills{Vessels: (n + holds - 1) / holds, Most: int64(min(n, holds)), Least: int64(n % holds)}
	if f.Least == 0 {
		f.Least = f.Most
	}
	return f
}

// Spare is how many pieces more would fill the last tray.
func Spare(n, holds unit.Count) unit.Count {
	if n <= 0 || holds <= 0 {
		return 0
	}
	return (holds - n%holds) % holds
}

// Share spreads n over the fewest vessels that hold at most most each, as
// equally as whole numbers allow. Short tells that some would be less than
// least; then no number of vessels will do, for fewer overflow.
func Share(n, least, most int64) Fills {
	if n <= 0 || most <= 0 {
		return Fills{}
	}
	k := (n-1)/most + 1
	f := Fills{Vessels: unit.Count(k), Least: n / k, Most: (n-1)/k + 1}
	f.Short = f.Least < least
	return f
}

// Bowls spreads what goes into a formula over whole bowls. False where the
// formula names no bowl.
func (m *Make) Bowls() (Fills, bool) {
	b := m.Formula.Bowl
	if b == nil || b.Most.V <= 0 {
		return Fills{}, false
	}
	return Share(int64(m.In), int64(b.Least.V), int64(b.Most.V)), true
}

// EachBowl gives the amounts of one of equal bowls, rounded to the scales, and
// how many bowls there are. What does not divide evenly by the step of a scale
// is a matter of one step a bowl.
func EachBowl(sh *shop.Shop, m *Make) ([]Amount, unit.Count) {
	f, ok := m.Bowls()
	if !ok || f.Vessels < 1 {
		return m.Lines, 1
	}
	var one []Amount
	for _, a := range m.Lines {
		one = append(one, amount(sh, a.Line, big.NewRat(int64(a.Written), int64(f.Vessels))))
	}
	column(sh, one)
	return one, f.Vessels
}

// Bakes is how often the oven is filled: trays by how many it takes at once.
func Bakes(p *shop.Product, n unit.Count) (Fills, bool) {
	t := p.Tray
	if t == nil || t.Holds.V <= 0 || t.Oven.V <= 0 {
		return Fills{}, false
	}
	return Share(int64(Trays(n, t.Holds.V).Vessels), 0, int64(t.Oven.V)), true
}

// Mould is a round or a square-cornered mould. Of a round one Long is the
// diameter and Wide is zero. High may be zero where only areas are compared.
type Mould struct{ Long, Wide, High unit.Length }

// base is the area of the base but for the factor π/4 of a round one.
func (m Mould) base() *big.Rat {
	wide := m.Wide
	if wide == 0 {
		wide = m.Long
	}
	return mul(rat(m.Long, 1), rat(wide, 1))
}

// quarterPi is π/4 to 24 digits (Abramowitz and Stegun, Handbook of
// Mathematical Functions, table 1.1: π).
func quarterPi() *big.Rat {
	pi, _ := new(big.Rat).SetString("3.14159265358979323846264")
	return quo(pi, big.NewRat(4, 1))
}

func (m Mould) area() *big.Rat {
	if m.Wide == 0 {
		return mul(m.base(), quarterPi())
	}
	return m.base()
}

// ByArea is by how much a formula grows from one mould to another that is
// filled to the same height: by the ratio of their bases, for round ones the
// square of that of their diameters.
func ByArea(from, to Mould) (shop.Ratio, error) { return ratio(from.area(), to.area()) }

// ByVolume is by how much a formula grows from one mould to another that is
// filled as full: by the ratio of their volumes.
func ByVolume(from, to Mould) (shop.Ratio, error) {
	return ratio(mul(from.area(), rat(from.High, 1)), mul(to.area(), rat(to.High, 1)))
}

func ratio(from, to *big.Rat) (shop.Ratio, error) {
	if from.Sign() <= 0 || to.Sign() <= 0 {
		return 0, fmt.Errorf("a mould without a size holds nothing")
	}
	return shop.Ratio(mass(times(quo(to, from), shop.One))), nil
}

// By multiplies a mass by a ratio.
func By(m unit.Mass, r shop.Ratio) unit.Mass { return mass(times(rat(int64(m), int64(shop.One)), r)) }
