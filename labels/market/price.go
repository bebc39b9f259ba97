package market

import (
	"chablon/labels/unit"
)

// UnitPrice is the rule on the price of a round quantity beside the selling
// price: for which mass, and who asks. Rounding is not in the acts: the nearest
// smallest coin is a house rule.
type UnitPrice struct {
	Per unit.Mass
	Cite
}

// UnitPrice gives the rule. It reports false where nobody here knows one, as
// for markets that leave it to their states.
func (m *Market) UnitPrice() (UnitPrice, bool) {
	for _, r := range unitPrices() {
		if r.code == m.Code {
			return r.UnitPrice, true
		}
	}
	return UnitPrice{}, false
}

func unitPrices() []struct {
	code string
	UnitPrice
} {
	kilo := func(act, article string) UnitPrice { return UnitPrice{unit.Kilogram, memory(act, article)} }
	return []struct {
		code string
		UnitPrice
	}{
		{"eu", kilo("Directive 98/6/EC", "Art. 2(b), 3(1)")},
		{"ie", kilo("Directive 98/6/EC", "Art. 2(b), 3(1)")},
		{"gb", kilo("Price Marking Order 2004", "Art. 5")},
		{"ch", kilo("SR 942.211", "Art. 5")},
	}
}

// Asked reports whether a pack with this net quantity needs a unit price beside
// its selling price: not where the two are the same.
func (u UnitPrice) Asked(net unit.Mass) bool { return net > 0 && net != u.Per }
