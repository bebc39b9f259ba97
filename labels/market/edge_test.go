package market_test

import (
	"slices"
	"testing"

	"chablon/labels/market"
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
