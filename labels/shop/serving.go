package shop

import "chablon/labels/unit"

// PortionKnown reports whether what a portion weighs follows from something that
// somebody weighed: it is whole pieces of the pack, whose net quantity is, or a
// day is written on which a portion itself was.
func (p *Pack) PortionKnown() bool {
	if p.PortionOn.Set() {
		return true
	}
	net, all := int64(max(1, p.Net.V)), int64(max(1, p.Pieces.V))
	pieces := unit.MulDiv(int64(p.Portion.V), all, net)
	return pieces > 0 && unit.CmpProducts(net, pieces, int64(p.Portion.V), all) == 0
}

// servings: a day on which a portion was weighed says of which portion.
func (c *checker) servings() {
	c.products(func(p *Product) {
		for _, k := range p.Packs {
			if k.PortionOn.Set() && !k.Portion.Set() {
				c.wrong(k.PortionOn.Pos, "nutrition-portion", "write portion: with what it weighed, such as 40 g", "a portion was weighed, and nothing says what it weighs")
			}
		}
	})
}
