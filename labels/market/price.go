package market

import (
	"chablon/labels/unit"
)

// UnitPrice is the rule on the price of a round quantity beside the selling
// price: for which mass, and who asks. Where the act does not say how it is
// rounded, the nearest smallest coin is a house rule.
type UnitPrice struct {
	Per unit.Mass
	// Fine is a price below which the unit price is given to the tenth of the
	// smallest coin; it is zero where there is no such rule.
	Fine unit.Money
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
	kilo := func(act, article string) UnitPrice {
		return UnitPrice{Per: unit.Kilogram, Cite: memory(act, article)}
	}
	gb := kilo("Price Marking Order 2004", "unit prices: decimal places and rounding")
	gb.Fine = unit.Money{Minor: 100, Currency: "GBP"} // under a pound to 0.1 p, from there to 1 p
	return []struct {
		code string
		UnitPrice
	}{
		{"eu", kilo("Directive 98/6/EC", "Art. 2(b), 3(1)")},
		{"ie", kilo("Directive 98/6/EC", "Art. 2(b), 3(1)")},
		{"gb", gb},
		{"ch", kilo("SR 942.211", "Art. 5")},
	}
}

// Asked reports whether a pack with this net quantity needs a unit price beside
// its selling price: not where the two are the same.
func (u UnitPrice) Asked(net unit.Mass) bool { return net > 0 && net != u.Per }

// Of is the unit price of a pack, N × 10^-Decimals of its currency, halves up.
// It reports false where it cannot be computed.
func (u UnitPrice) Of(price unit.Money, net unit.Mass) (Figure, bool) {
	decimals := price.Decimals()
	if u.Fine.Currency == price.Currency {
		tenths, ok := unit.Money{Minor: 10 * price.Minor, Currency: price.Currency}.For(u.Per, net)
		if ok && tenths.Minor < 10*u.Fine.Minor {
			return Figure{tenths.Minor, decimals + 1}, true
		}
	}
	m, ok := price.For(u.Per, net)
	return Figure{m.Minor, decimals}, ok
}
