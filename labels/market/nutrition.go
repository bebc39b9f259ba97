package market

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/unit"
)

// Amount counts billionths: of a gram for a nutrient, of a kilojoule or of a
// kilocalorie for energy. A unit.Mass converts directly.
type Amount int64

// Amounts to multiply with.
const (
	One   Amount = 1_000_000_000 // 1 g, 1 kJ, 1 kcal
	Milli Amount = One / 1000
	Micro Amount = One / 1_000_000
)

// String gives the amount as a plain decimal of a gram, kJ or kcal: "0.5".
func (a Amount) String() string { return strings.TrimSuffix(unit.Mass(a).String(), " g") }

// Nutrition is the rule on the nutrition declaration.
type Nutrition struct {
	Per       []string   // "100g", "portion"
	Nutrients []Nutrient // in the order of the declaration
	Factors   []Factor
	Exempt    []string // keys of foods that need none
	Percent   []Band   // rounding of percentages of the reference, in One = 1 %
	// ByDifference: carbohydrate is all that is neither protein, fat, water nor
	// ash, so that fibre and organic acids count in.
	ByDifference bool
	Micros       []string  // lines whose percentage is rounded by [MicroPercent]
	FromRounded  []string  // lines whose percentage is that of the rounded amount
	NoneOfZero   bool      // an amount that is printed as 0 is 0 % too
	NoPercent    []string  // lines that have a reference, but declare no percentage
	Together     [2]string // two lines with one percentage, behind the second, of their sum
	Panel        Panel     // how it is drawn
	Symbol       Symbol    // at the front of a pack whose food is high in something
	Cite                   // of Per and Exempt
}

// Nutrient is one line of the declaration.
type Nutrient struct {
	Key       string
	Unit      string // "kJ", "kcal", "g", "mg", "µg"
	Of        string // the line it belongs to: "fat" for saturates
	Must      bool
	Bands     []Band // rounding; empty where no rule was found
	Reference Amount // daily reference; 0 where there is none
	Ref       Cite   // of Reference
	Zero      Zero   // when the line is nothing, whatever its bands say
	Cite             // of Bands
}

// Zero is the rule under which a line may be printed as 0: all these amounts
// lie below their bounds.
type Zero struct {
	Below []Bound
	Cite
}

// Bound is an amount of one line that is not reached.
type Bound struct {
	Key string
	At  Amount
}

// holds reports whether the food is free of the line.
func (z Zero) holds(of func(key string) Amount) bool {
	return len(z.Below) > 0 && !slices.ContainsFunc(z.Below, func(b Bound) bool { return of(b.Key) >= b.At })
}

// Band rounds the values up to a bound. The last band has none.
type Band struct {
	To     Amount
	With   bool   // the bound itself belongs to the band
	Step   Amount // 0: nothing is printed but Less or zero
	Sig    int    // round to so many significant figures instead of Step
	Less   Amount // print "less than" this
	OrZero bool   // plain 0 may be printed in place of Less
	Digits int    // decimals in the nutrient's unit
}

// Factor is the energy of one gram, in tenths of a kJ and of a kcal; Kj is 0
// where the market counts only kcal.
type Factor struct {
	Key      string
	Kj, Kcal int64
	Cite
}

// Rounded is a value as it is printed, N × 10^-Decimals in Unit. Less means
// "less than"; OrZero that plain 0 may stand instead.
type Rounded struct {
	Figure
	Unit         string
	Less, OrZero bool
}

// Amount is the figure as an amount.
func (r Rounded) Amount() Amount {
	worth := Worth(r.Unit)
	for range r.Decimals {
		worth /= 10
	}
	return Amount(r.N) * worth
}

// Find gives the row of a nutrient.
func (n Nutrition) Find(key string) (Nutrient, bool) {
	i := slices.IndexFunc(n.Nutrients, func(x Nutrient) bool { return x.Key == key })
	if i < 0 {
		return Nutrient{}, false
	}
	return n.Nutrients[i], true
}

// Round rounds an amount by this market's rule, halves up. It reports false
// for an amount below zero, an unknown nutrient, and one whose rounding rule
// nobody here has read.
func (n Nutrition) Round(key string, v Amount) (Rounded, bool) {
	x, ok := n.Find(key)
	if !ok {
		return Rounded{}, false
	}
	return round(x.Bands, v, x.Unit)
}

// RoundFor rounds the amount of a line as [Nutrition.Round] does; where the
// food is free of what the line is about, it is nothing. of is the exact amount
// of each line.
func (n Nutrition) RoundFor(key string, of func(key string) Amount) (Rounded, bool) {
	if x, ok := n.Find(key); ok && x.Zero.holds(of) {
		return n.Round(key, 0)
	}
	return n.Round(key, of(key))
}

// RoundPercent rounds a percentage of the reference amount (One is 1 %).
func (n Nutrition) RoundPercent(v Amount) (Rounded, bool) { return round(n.Percent, v, "%") }

func round(bands []Band, v Amount, in string) (Rounded, bool) {
	if v < 0 || v > 1<<56 {
		return Rounded{}, false
	}
	for _, b := range bands {
		if !b.holds(v) {
			continue
		}
		r := b.round(v)
		if r > v && !b.holds(r) && b.Step > 0 {
			continue // 9.96 g rounds to 10.0: that is printed as 10 is
		}
		return b.figure(v, r, in), true
	}
	return Rounded{}, false
}

func (b Band) holds(v Amount) bool { return b.To == 0 || v < b.To || b.With && v == b.To }

func (b Band) round(v Amount) Amount {
	step := b.Step
	if b.Sig > 0 {
		step = 1
		for v/step >= Amount(pow10(b.Sig)) {
			step *= 10
		}
	}
	if step == 0 {
		return 0
	}
	return (v + step/2) / step * step
}

func (b Band) figure(v, r Amount, in string) Rounded {
	out := Rounded{Unit: in}
	if b.Less > 0 && v > 0 {
		r, out.Less, out.OrZero = b.Less, true, b.OrZero
	}
	digits := b.Digits
	if b.Sig > 0 {
		digits = sigDigits(r, Worth(in), b.Sig)
	}
	out.Figure = Figure{unit.MulDiv(int64(r), pow10(digits), int64(Worth(in))), digits}
	return out
}

// sigDigits is how many decimals show r with so many significant figures.
func sigDigits(r, worth Amount, sig int) int {
	digits := 0
	for r > 0 && digits < sig+3 && r/worth < Amount(pow10(sig-1)) {
		worth /= 10
		digits++
		if worth == 0 {
			break
		}
	}
	return digits
}

// Worth is one of a unit of a nutrition declaration: "g", "mg", "µg", "kJ" or
// "kcal".
func Worth(in string) Amount {
	switch in {
	case "mg":
		return Milli
	case "µg":
		return Micro
	}
	return One
}

// Eaten is so much of something that carries energy.
type Eaten struct {
	Key  string
	Mass unit.Mass
}

// Energy adds up kJ and kcal, each from its own factors; one is never computed
// from the other. Carbohydrate is counted without polyols and without
// erythritol, which have factors of their own. A key without a factor is an
// error: energy is never silently too low.
func (n Nutrition) Energy(eaten []Eaten) (kj, kcal Amount, err error) {
	for _, e := range eaten {
		i := slices.IndexFunc(n.Factors, func(f Factor) bool { return f.Key == e.Key })
		if i < 0 || e.Mass < 0 {
			return 0, 0, fmt.Errorf("no energy factor for %s of %q", e.Mass, e.Key)
		}
		kj += Amount(unit.MulDiv(int64(e.Mass), n.Factors[i].Kj, 10))
		kcal += Amount(unit.MulDiv(int64(e.Mass), n.Factors[i].Kcal, 10))
	}
	return kj, kcal, nil
}

// Rounds reports whether the market says how its figures are rounded.
func (n Nutrition) Rounds() bool {
	return slices.ContainsFunc(n.Nutrients, func(x Nutrient) bool { return x.Must && len(x.Bands) > 0 })
}

// HasFactor reports whether energy is counted for a key of its own.
func (n Nutrition) HasFactor(key string) bool {
	return slices.ContainsFunc(n.Factors, func(f Factor) bool { return f.Key == key })
}

// OfReference gives v as a percentage of the daily reference (One is 1 %).
func (n Nutrition) OfReference(key string, v Amount) (Amount, bool) {
	x, ok := n.Find(key)
	if !ok || x.Reference == 0 || v < 0 {
		return 0, false
	}
	return Amount(unit.MulDiv(int64(v), int64(100*One), int64(x.Reference))), true
}

// Declares reports whether a line declares a percentage of its reference.
func (n Nutrition) Declares(key string) bool {
	whole := key
	switch key {
	case n.Together[0]:
		return false
	case n.Together[1]:
		whole = n.Together[0]
	}
	x, ok := n.Find(whole)
	return ok && x.Reference > 0 && !slices.Contains(n.NoPercent, key)
}

// PercentFor gives the percentage of the daily reference that a line declares,
// rounded; of is the exact amount of each line. It reports false where none is
// declared.
func (n Nutrition) PercentFor(key string, of func(key string) Amount) (Rounded, bool) {
	v, whole := of(key), key
	switch key {
	case n.Together[0]:
		return Rounded{}, false
	case n.Together[1]:
		v, whole = v+of(n.Together[0]), n.Together[0]
	}
	if r, ok := n.RoundFor(key, of); ok && whole == key && (slices.Contains(n.FromRounded, key) || n.NoneOfZero && r.N == 0) {
		v = Amount(unit.MulDiv(r.N, int64(Worth(r.Unit)), pow10(r.Decimals)))
	}
	share, ok := n.OfReference(whole, v)
	switch {
	case !ok || slices.Contains(n.NoPercent, key):
		return Rounded{}, false
	case slices.Contains(n.Micros, key):
		return MicroPercent(share)
	}
	return n.RoundPercent(share)
}

// Salt is the salt equivalent of sodium: × 2.5 (Regulation (EU) No 1169/2011,
// Annex I).
func Salt(sodium unit.Mass) unit.Mass { return sodium.Mul(5, 2) }

// Protein is the protein equivalent of nitrogen: × 6.25 (same annex).
func Protein(nitrogen unit.Mass) unit.Mass { return nitrogen.Mul(25, 4) }
