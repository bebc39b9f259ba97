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
