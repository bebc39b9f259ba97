package carton

import (
	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/compose"
)

// inside is what is in the carton.
func (c *run) inside() (net unit.Mass) {
	for _, in := range c.lots() {
		net += in.Facts.Pack.Net.V * unit.Mass(in.Packs)
	}
	return net
}

// amountTitle stands over what is in the carton: how many, or how heavy.
func (c *run) amountTitle(t *compose.Teller) string {
	if c.Facts.Pack.ByWeight() {
		return c.title(t, gs1.Title("3103"), "carton.net")
	}
	return c.title(t, gs1.Title("37"), "carton.count")
}

// weighed is what the bars say of the weight of a carton whose packs are sold
// by weight: kilograms with three decimals, or with fewer where six digits have
// no room for them (310n, GS1 General Specifications 3.6).
func (c *run) weighed() []gs1.Element {
	if !c.Facts.Pack.ByWeight() {
		return nil
	}
	for decimals := 3; decimals >= 0; decimals-- {
		if e, err := gs1.Weight("310", c.inside(), decimals); err == nil {
			return []gs1.Element{e}
		}
	}
	return nil
}
