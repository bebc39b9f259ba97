package market_test

import (
	"testing"

	"chablon/labels/market"
)

// Guidance on tolerances of December 2012, Table 1, as a trade page quotes it,
// with its own examples: 3.4 g of protein may be 1.4 to 5.4 g, 20 g 16 to 24 g,
// 55 g of sugars 47 to 63 g; 5 g of fat 3.5 to 6.5 g; 2 g of saturates 1.2 to 2.8.
func TestLeeway(t *testing.T) {
	eu := get(t, "eu")
	for _, c := range []struct {
		key         string
		printed, by market.Amount // in tenths of a gram
	}{
		{"protein", 34, 20}, {"protein", 200, 40}, {"sugars", 550, 80}, {"fat", 50, 15}, {"fat", 300, 60}, {"fat", 450, 80}, {"saturates", 20, 8}, {"saturates", 100, 20},
	} {
		got, ok := eu.Leeway(c.key, c.printed*market.One/10)
		if !ok || got.Amount != c.by*market.One/10 {
			t.Errorf("%s %d: %v, %v", c.key, c.printed, got.Amount, ok)
		}
	}
	for _, key := range []string{"salt", "energy-kj"} {
		if _, ok := eu.Leeway(key, market.One); ok {
			t.Errorf("nobody has read a tolerance of %s", key)
		}
	}
}
