package market_test

import (
	"slices"
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// The Canadian symbol at the edges of its table: C.R.C., c. 870, B.01.350 and the
// table to it (read on 28 November 2026). Of a food whose reference amount is more
// than 30 g it is due from 15 % of the daily value on, to 30 g from 10 %, of a main
// dish of 200 g or more from 30 %. The daily values, from memory: 20 g, 100 g,
// 2 300 mg. Grams are those in the amount that is judged.
func TestSymbolEdges(t *testing.T) {
	ca, _ := market.Get("ca")
	rule := ca.Nutrition.Symbol
	g := func(n float64) market.Amount { return market.Amount(n*1e6+0.5) * market.Micro }
	for _, c := range []struct {
		saturates, sugars, sodium float64 // g, g, g in 100 g of a food whose amount is 100 g, 30 g, or as given
		portion, reference        unit.Mass
		main                      bool
		face                      unit.Area
		want                      int
		about                     string
	}{
		{2.999, 14.99, 0.344, 100, 100, false, 60, 0, "just under each of 3 g, 15 g, 345 mg"},
		{3, 15, 0.345, 100, 100, false, 60, 1, "at each of them"},
		{3, 15, 0.345, 100, 100, false, 30, 1, "and on a small face"},
		{3, 0, 0, 100, 100, false, 60, 5, "saturated fat alone"},
		{3, 0, 0, 100, 100, false, 30, 11, "on a face of 30 cm²"},
		{3, 15, 0, 100, 100, false, 31, 2, "saturated fat and sugars"},
		{0, 15, 0.345, 100, 100, false, 31, 3, "sugars and sodium"},
		{3, 0, 0.345, 100, 100, false, 31, 4, "saturated fat and sodium"},
		{0, 15, 0, 100, 100, false, 31, 6, "sugars"},
		{0, 0, 0.345, 100, 100, false, 31, 7, "sodium"},
		{3, 15, 0, 100, 100, false, 30, 8, "small: saturated fat and sugars"},
		{0, 15, 0.345, 100, 100, false, 30, 9, "small: sugars and sodium"},
		{3, 0, 0.345, 100, 100, false, 30, 10, "small: saturated fat and sodium"},
		{0, 15, 0, 100, 100, false, 30, 12, "small: sugars"},
		{0, 0, 0.345, 100, 100, false, 30, 13, "small: sodium"},
		{6, 30, 0.690, 250, 250, true, 60, 1, "a main dish holds 2.5 times that in 250 g"},
		{2, 10, 0.230, 250, 250, true, 60, 0, "and 5 g of 6, 25 g of 30, 575 mg of 690"},
		{2.399, 11.99, 0.2759, 250, 250, true, 60, 0, "just under 30 %"},
		{2.4, 12, 0.276, 250, 250, true, 60, 1, "at 30 %: 6 g, 30 g, 690 mg"},
		{2.4, 12, 0.276, 199, 199, true, 60, 1, "under 200 g it is judged as any food, at 15 %"},
		{3.6, 0, 0, 80, 80, false, 120, 0, "2.88 g are 14.4 %, though 15 % are printed for saturated and trans fat"},
		{18, 50, 0.08, 25, 40, false, 45, 2, "25 g are judged on the reference amount of 40 g"},
	} {
		per100 := map[string]market.Amount{"saturates": g(c.saturates), "sugars": g(c.sugars), "sodium": g(c.sodium)}
		over := rule.Over(func(k string) market.Amount { return per100[k] }, 100*unit.Gram, c.portion*unit.Gram, c.reference*unit.Gram, c.main)
		if got := rule.Version(over, c.face*unit.CM2); got != c.want {
			t.Errorf("%s: symbol %d (%v), want %d", c.about, got, over, c.want)
		}
	}
}

// Exactly ten per cent of a food of 30 g: the 20/3 g of saturated fat in 100 g
// have no last decimal, so only fractions find the 2 g in 30 g.
func TestSymbolFractions(t *testing.T) {
	ca, _ := market.Get("ca")
	for _, c := range []struct {
		reference, mass unit.Mass
		holds           market.Amount
		want            []string
	}{
		{30 * unit.Gram, 30 * unit.Gram, 2 * market.One, []string{"saturates"}},
		{30 * unit.Gram, 30 * unit.Gram, 2*market.One - 1, nil}, // a billionth of a gram too little
		{30 * unit.Gram, 3 * unit.Gram, market.One / 5, []string{"saturates"}},
		{301 * unit.Gram / 10, 30 * unit.Gram, 2 * market.One, nil}, // over 30 g: 15 %
	} {
		of := func(k string) market.Amount { return map[string]market.Amount{"saturates": c.holds}[k] }
		if got := ca.Nutrition.Symbol.Over(of, c.mass, c.reference, c.reference, false); !slices.Equal(got, c.want) {
			t.Errorf("%d in %s of a food of %s: %v, want %v", c.holds, c.mass, c.reference, got, c.want)
		}
	}
}
