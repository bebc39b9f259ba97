package market_test

import (
	"slices"
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// How hot food is cooled: FDA Food Code 3-501.14(A), 57 to 21 °C in 2 h and to
// 5 °C in 6 h; in France 63 to 10 °C in 2 h (arrêté of 21 December 2009, from
// memory); what another country of the Union asks is not known here.
func TestCoolingIn(t *testing.T) {
	for _, c := range []struct {
		market, country string
		first, whole    int64
		ok              bool
	}{
		{"us", "US", 21, 5, true},
		{"eu", "FR", 10, 10, true},
		{"eu", "fr", 10, 10, true},
		{"eu", "DE", 0, 0, false},
		{"eu", "", 0, 0, false},
		{"gb", "GB", 0, 0, false},
	} {
		m, _ := market.Get(c.market)
		first, whole, ok := m.CoolingIn(c.country)
		if ok != c.ok {
			t.Errorf("%s in %s: %v", c.market, c.country, ok)
			continue
		}
		if ok && (first.To.C != unit.Celsius(c.first) || whole.To.C != unit.Celsius(c.whole)) {
			t.Errorf("%s in %s: to %v, then to %v; want %v and %v", c.market, c.country, first.To.C, whole.To.C, c.first, c.whole)
		}
	}
}

// Vitamins and minerals from 15 % of the reference on: Reg. (EU) 1169/2011
// Annex XIII A 2; calcium 800 mg, so 120 mg. What has no reference is never
// significant.
func TestSignificant(t *testing.T) {
	n := market.Nutrition{Nutrients: []market.Nutrient{{Key: "calcium", Reference: market.Amount(800 * unit.Milligram)}, {Key: "salt"}}}
	eu, _ := market.Get("eu")
	for _, c := range []struct {
		n    market.Nutrition
		key  string
		v    market.Amount
		want bool
	}{
		{eu.Nutrition, "calcium", market.Amount(120 * unit.Milligram), true},
		{eu.Nutrition, "calcium", market.Amount(120*unit.Milligram) - 1, false},
		{eu.Nutrition, "calcium", -1, false},
		{n, "salt", market.Amount(unit.Gram), false},
		{n, "salt", 0, false},
		{n, "gold", market.Amount(unit.Gram), false},
		{n, "gold", 0, false},
	} {
		if got := c.n.Significant(c.key, c.v); got != c.want {
			t.Errorf("%s %d: %v", c.key, c.v, got)
		}
	}
}

// A limit without a time is kept however long it takes; one with a time up to
// its last second.
func TestWithin(t *testing.T) {
	for _, c := range []struct {
		within, after unit.Span
		want          bool
	}{
		{0, 1000 * unit.Hour, true}, {2 * unit.Hour, 2 * unit.Hour, true}, {2 * unit.Hour, 2*unit.Hour + 1, false},
	} {
		if got := (market.Limit{Within: c.within}).Met(0, false, c.after); got != c.want {
			t.Errorf("within %v, after %v: %v", c.within, c.after, got)
		}
	}
}

// A limit of a member state has its code in front of its key; any other holds
// everywhere.
func TestInForce(t *testing.T) {
	for _, c := range []struct {
		key, country string
		want         bool
	}{
		{"fr-cooling", "FR", true}, {"fr-cooling", "DE", false}, {"fr-cooling", "", false},
		{"cooling-whole", "DE", true}, {"cooling", "DE", true}, {"fr", "DE", true},
	} {
		if got := (market.Limit{Key: c.key}).InForce(c.country); got != c.want {
			t.Errorf("%s in %s: %v", c.key, c.country, got)
		}
	}
}

// Which part of the food a rule holds for: without a rule for none, and never
// for a mass below nothing or of nothing.
func TestPartEdges(t *testing.T) {
	upTo := market.Part{Share: 5 * unit.Percent, Edge: market.UpTo}
	for _, c := range []struct {
		mass, whole unit.Mass
		want        bool
	}{
		{5, 100, true}, {6, 100, false}, {0, 100, true}, {-1, 100, false}, {0, 0, false}, {-1, 0, false}, {0, -1, false},
	} {
		if got := upTo.Holds(c.mass, c.whole); got != c.want {
			t.Errorf("%d of %d: %v", c.mass, c.whole, got)
		}
	}
	if !upTo.Set() || (market.Part{}).Set() || (market.Part{}).Holds(1, 100) {
		t.Error("a rule without an edge is no rule")
	}
	eu, _ := market.Get("eu")
	us, _ := market.Get("us")
	if eu.BothScales() || !us.BothScales() || !eu.List.ENumbers() || us.List.ENumbers() {
		t.Error("°F are of the United States, E numbers of the Union")
	}
	if (market.Quid{}).Set() || !(market.Quid{Cases: []string{"in-name"}}).Set() || (market.List{}).ENumbers() {
		t.Error("what a market does not say is no rule")
	}
}

// A percentage cannot be made of a mass below nothing, of nothing, or of a
// thousand times the whole and more; of all others it can.
func TestRoundQuidEdges(t *testing.T) {
	for _, c := range []struct {
		mass, whole unit.Mass
		ok          bool
		n           int64
	}{
		{0, 1, true, 0}, {-1, 1, false, 0}, {1, 0, false, 0}, {0, 0, false, 0}, {-1, 0, false, 0}, {1000, 1, true, 100000}, {1001, 1, false, 0},
	} {
		if got, ok := market.RoundQuid(c.mass, c.whole); ok != c.ok || got.N != c.n {
			t.Errorf("%d of %d: %v, %v", c.mass, c.whole, got, ok)
		}
	}
}

// Nuts are those of Annex II, group 8, and the pine nut that others list.
func TestNuts(t *testing.T) {
	want := []string{"almonds", "hazelnuts", "walnuts", "cashews", "pecan nuts", "brazil nuts", "pistachio nuts", "macadamia nuts", "pine nuts"}
	if got := market.Nuts(); !slices.Equal(got, want) {
		t.Errorf("%v", got)
	}
	keys := market.ExceptionKeys()
	if !slices.IsSorted(keys) || !slices.Contains(keys, "wheat-glucose-syrup") || len(slices.Compact(slices.Clone(keys))) != len(keys) {
		t.Errorf("%v", keys)
	}
}

// A line of which the food is free is nothing below its bound, and itself from
// the bound on: C.R.C., c. 870, table to B.01.401, "less than".
func TestRoundForEdges(t *testing.T) {
	n := market.Nutrition{Nutrients: []market.Nutrient{{Key: "fat", Unit: "g", Bands: []market.Band{{Step: market.One / 10, Digits: 1}},
		Zero: market.Zero{Below: []market.Bound{{Key: "fat", At: market.One / 2}, {Key: "trans", At: market.One / 5}}}}}}
	for _, c := range []struct {
		fat, trans market.Amount
		want       int64
	}{
		{market.One / 2, 0, 5}, {market.One/2 - 1, 0, 0}, {market.One/2 - 1, market.One / 5, 5}, {0, 0, 0},
	} {
		of := func(key string) market.Amount { return map[string]market.Amount{"fat": c.fat, "trans": c.trans}[key] }
		if got, ok := n.RoundFor("fat", of); !ok || got.N != c.want {
			t.Errorf("%d and %d: %v, %v", c.fat, c.trans, got, ok)
		}
	}
}

// Figures are written with so many significant digits, as few as nothing wants,
// and as many as anybody can read; what is less than nothing is no figure.
func TestSignificantDigits(t *testing.T) {
	n := market.Nutrition{Nutrients: []market.Nutrient{{Key: "x", Unit: "g", Bands: []market.Band{{Sig: 2}}}}}
	for _, c := range []struct {
		v        market.Amount
		n        int64
		decimals int
		ok       bool
	}{
		{0, 0, 0, true}, {34 * market.Milli, 34, 3, true}, {market.One, 10, 1, true}, {12 * market.One, 12, 0, true}, {123 * market.One, 120, 0, true},
		{1, 0, 5, true}, {-1, 0, 0, false}, {1<<56 + 1, 0, 0, false},
	} {
		got, ok := n.Round("x", c.v)
		if ok != c.ok || got.N != c.n || got.Decimals != c.decimals {
			t.Errorf("%d: %d with %d decimals, %v; want %d, %d", c.v, got.N, got.Decimals, ok, c.n, c.decimals)
		}
	}
	if _, ok := n.Round("x", 1<<56); !ok {
		t.Error("the largest amount is refused")
	}
}

// Energy is never made of less than nothing, nor of what has no factor
// (Reg. (EU) 1169/2011 Annex XIV); nothing of a thing is nothing.
func TestEnergyEdges(t *testing.T) {
	eu, _ := market.Get("eu")
	for _, c := range []struct {
		eaten market.Eaten
		kj    market.Amount
		ok    bool
	}{
		{market.Eaten{Key: "fat", Mass: unit.Gram}, 37 * market.One, true}, {market.Eaten{Key: "fat"}, 0, true},
		{market.Eaten{Key: "fat", Mass: -1}, 0, false}, {market.Eaten{Key: "gold", Mass: unit.Gram}, 0, false},
	} {
		kj, _, err := eu.Nutrition.Energy([]market.Eaten{c.eaten})
		if (err == nil) != c.ok || kj != c.kj {
			t.Errorf("%+v: %d, %v", c.eaten, kj, err)
		}
	}
	if !eu.Nutrition.HasFactor("fat") || eu.Nutrition.HasFactor("gold") || (market.Nutrition{}).HasFactor("fat") {
		t.Error("factors")
	}
	bands := []market.Band{{Step: market.One}}
	for _, c := range []struct {
		n    market.Nutrient
		want bool
	}{
		{market.Nutrient{Must: true, Bands: bands}, true}, {market.Nutrient{Must: true}, false}, {market.Nutrient{Bands: bands}, false},
	} {
		if got := (market.Nutrition{Nutrients: []market.Nutrient{c.n}}).Rounds(); got != c.want {
			t.Errorf("%+v: %v", c.n, got)
		}
	}
}

// Only what the law measures against the name stands beside it; the list of
// Canada has a height of its own and is no such thing.
func TestNotBesideTheName(t *testing.T) {
	eu, _ := market.Get("eu")
	ca, _ := market.Get("ca")
	for _, r := range []role.Role{"", role.List, "nothing"} {
		if _, ok := eu.Beside(r, unit.MM, 0); ok {
			t.Errorf("%q is measured against the name in the Union", r)
		}
		if _, ok := ca.Beside(r, unit.MM, 0); ok {
			t.Errorf("%q is measured against the name in Canada", r)
		}
	}
}

// Of several stages of cooling the first is the warmest and the whole the
// coldest, however they are written; of equals the one that stands first; what
// has no beginning or no end is no stage.
func TestCoolingStages(t *testing.T) {
	at := func(c int64) *market.Pair { return &market.Pair{C: unit.Celsius(c)} }
	stage := func(key string, from, to *market.Pair) market.Limit {
		return market.Limit{Key: key, Kind: market.Cooling, From: from, To: to}
	}
	for _, c := range []struct {
		limits       []market.Limit
		first, whole string
	}{
		{[]market.Limit{stage("a", at(57), at(5)), stage("b", at(57), at(21))}, "b", "a"},
		{[]market.Limit{stage("a", at(57), at(21)), stage("b", at(57), at(5))}, "a", "b"},
		{[]market.Limit{stage("a", at(57), at(21)), stage("b", at(57), at(21))}, "a", "a"},
		{[]market.Limit{stage("a", nil, at(90)), stage("b", at(57), at(21)), stage("c", at(57), nil)}, "b", "b"},
		{[]market.Limit{stage("fr-a", at(63), at(90)), stage("b", at(57), at(21))}, "b", "b"},
	} {
		first, whole, ok := (&market.Market{Kitchen: c.limits}).CoolingIn("DE")
		if !ok || first.Key != c.first || whole.Key != c.whole {
			t.Errorf("%s and %s, %v; want %s and %s", first.Key, whole.Key, ok, c.first, c.whole)
		}
	}
	if _, _, ok := (&market.Market{Kitchen: []market.Limit{stage("a", nil, nil)}}).CoolingIn("DE"); ok {
		t.Error("nothing is a stage")
	}
}

// The closing phrase names the least figure that all keep to, whatever the
// order of the law's blanks (21 CFR 101.4(a)(2)).
func TestThresholdOrder(t *testing.T) {
	for _, blanks := range [][]unit.Share{{2 * unit.Percent, unit.Percent / 2}, {unit.Percent / 2, 2 * unit.Percent}} {
		if got, ok := (market.List{Blanks: blanks}).Threshold([]unit.Mass{4, 5}, 1000); !ok || got != unit.Percent/2 {
			t.Errorf("%v: %s, %v", blanks, got, ok)
		}
		if got, ok := (market.List{Blanks: blanks}).Threshold([]unit.Mass{4, 6}, 1000); !ok || got != 2*unit.Percent {
			t.Errorf("%v: %s, %v", blanks, got, ok)
		}
	}
}
