package market_test

import (
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
