package market_test

import (
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// Directive 98/6/EC (from memory): the unit price is that of one kilogram
// (Art. 2(b)) and need not be shown where it is the selling price (Art. 3(1)).
func TestUnitPrice(t *testing.T) {
	for _, code := range market.Codes() {
		u, ok := get(t, code).UnitPrice()
		if want := code == "eu" || code == "ie" || code == "gb" || code == "ch"; ok != want {
			t.Errorf("%s: a rule is known: %v", code, ok)
		}
		if ok && (u.Per != unit.Kilogram || !u.Memory || u.Act == "") {
			t.Errorf("%s: %s, %v", code, u.Per, u.Cite)
		}
	}
	u, _ := get(t, "eu").UnitPrice()
	for net, want := range map[string]bool{"85 g": true, "1 kg": false, "2 kg": true, "0 g": false} {
		if got := u.Asked(mass(t, net)); got != want {
			t.Errorf("a unit price for %s: %v", net, got)
		}
	}
}

// Price Marking Order 2004 (from memory): a unit price under a pound to the
// nearest tenth of a penny, from a pound on to the nearest penny. Elsewhere the
// nearest smallest coin is a house rule.
func TestUnitPriceRounding(t *testing.T) {
	for _, c := range []struct {
		market, price, net string
		n                  int64
		decimals           int
	}{
		{"gb", "0.85 GBP", "1.5 kg", 567, 3},   // 56.67 p
		{"gb", "0.99 GBP", "990 g", 100, 2},    // a pound is no longer under it
		{"gb", "1.99 GBP", "1990.9 g", 100, 2}, // 99.955 p rounds to a pound
		{"gb", "1.99 GBP", "1.992 kg", 999, 3}, // 99.90 p
		{"gb", "2.50 GBP", "300 g", 833, 2},
		{"gb", "0.85 EUR", "1.5 kg", 57, 2}, // the rule is on pounds
		{"eu", "0.85 EUR", "1.5 kg", 57, 2},
		{"ch", "4.20 CHF", "170 g", 2471, 2},
	} {
		price, err := unit.ParseMoney(c.price)
		u, _ := get(t, c.market).UnitPrice()
		got, ok := u.Of(price, mass(t, c.net))
		if err != nil || !ok || got != (market.Figure{N: c.n, Decimals: c.decimals}) {
			t.Errorf("%s, %s for %s: %v %v %v, want %d with %d decimals", c.market, c.price, c.net, got, ok, err, c.n, c.decimals)
		}
	}
}
