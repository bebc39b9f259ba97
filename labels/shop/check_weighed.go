package shop

import (
	"chablon/labels/diag"
	"chablon/labels/gs1"
)

// weighed: what is sold by weight has a price and a number to go with it, and
// nothing that only packs of one weight can say.
func (c *checker) weighed() {
	form, ok := c.counterNumber()
	items := map[string]diag.Pos{}
	c.products(func(p *Product) {
		for i := range p.Packs {
			k := &p.Packs[i]
			if !k.ByWeight() {
				c.notWeighed(p, k)
				continue
			}
			c.oneWeight(p, k)
			if k.Item.Set() && ok {
				c.counterItem(p, k, form, items)
			}
		}
	})
}

// counterNumber reads the template of shop.yaml.
func (c *checker) counterNumber() (n gs1.CounterNumber, ok bool) {
	t := c.Profile.CounterNumber
	if !t.Set() {
		return n, false
	}
	n, err := gs1.ParseCounterNumber(t.V)
	if err != nil {
		c.wrong(t.Pos, "counter-number", `write it like "28{item:5}{weight:5}", with the digits that your country takes`, "no number can be made after %q: %v", t.V, err)
	}
	return n, err == nil
}

func (c *checker) notWeighed(p *Product, k *Pack) {
	for _, t := range []diag.Pos{k.PerKilo.Pos, k.Item.Pos} {
		if t.Known() {
			c.wrong(t, "sold-by", "write sold-by: weight, or take the line out", "%s in %s is not sold by weight", p.ID, k.ID.V)
			return
		}
	}
}

// oneWeight: a number for all packs, a price of one, pieces that make up the
// net quantity and the sign of the average go with packs that weigh the same
// (the sign: Directive 76/211/EEC Art. 1, constant nominal quantities).
func (c *checker) oneWeight(p *Product, k *Pack) {
	const hint = "take the line out"
	for _, w := range []struct {
		at  diag.Pos
		set bool
		key string
	}{{k.Price.Pos, k.Price.Set(), "price"}, {k.Each.Pos, k.Each.Set(), "each"}, {k.Average.Pos, k.Average.V, "e-mark"},
		{k.Portion.Pos, k.Portion.Set(), "portion"}, {k.Mark.Pos, k.Marked(), "batch-mark"},
		{k.GTIN.Pos, k.GTIN.Set() && k.Item.Set(), "gtin"}} {
		if w.set {
			c.wrong(w.at, "sold-by", hint, "%s: stands for packs that weigh the same, and %s in %s is sold by weight", w.key, p.ID, k.ID.V)
		}
	}
	switch {
	case k.Item.Set() && !k.PerKilo.Set() && c.whole(p.Pos):
		c.wrong(k.Item.Pos, "sold-by", "write price-per-kg: with the price of a kilogram", "%s in %s has no price", p.ID, k.ID.V)
	case k.GTIN.Set() && !variable(k.GTIN.V):
		c.wrong(k.GTIN.Pos, "gtin", "write the 14 digits of the number for variable weight, which begins with 9, or item-number: for your own counter", "%q is not a number for packs that are each weighed", k.GTIN.V)
	case k.Item.Set() && !c.Profile.CounterNumber.Set():
		c.wrong(k.Item.Pos, "counter-number", `write counter-number: in shop.yaml, such as "28{item:5}{weight:5}"`, "the shop does not say how its counter's numbers are made")
	}
}

// variable reports whether a GTIN is that of goods of variable weight: 14
// digits of which the first is 9 (GS1 General Specifications, 2.1.10).
func variable(gtin string) bool { return len(gtin) == 14 && gtin[0] == '9' }

func (c *checker) counterItem(p *Product, k *Pack, form gs1.CounterNumber, first map[string]diag.Pos) {
	if at, twice := first[k.Item.V]; twice {
		c.wrong(k.Item.Pos, "counter-number", "give each an item of its own", "the item %q is used already, at %s", k.Item.V, at)
		return
	}
	first[k.Item.V] = k.Item.Pos
	if _, err := form.Number(k.Item.V, 1); err != nil {
		c.wrong(k.Item.Pos, "counter-number", "write its digits in quotes", "no number can be made after %s: %v", form, err)
		return
	}
	if _, err := c.CounterNumber(k); err != nil && k.Net.V > 0 {
		c.wrong(k.Net.Pos, "counter-number", "take a template with more digits, or sell smaller packs", "%s in %s has no number: %v", p.ID, k.ID.V, err)
	}
}
