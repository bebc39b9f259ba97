package declare

import (
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// quantities gives the declared quantity to each part that the product's
// decisions name. The quantity is the mass at use over the finished mass where
// moisture was lost, over the mass at use otherwise; where one of them, or
// all together, pass 100 %, each becomes grams for 100 g of the finished food.
// Reg. (EU) 1169/2011 Art. 22 and Annex VIII points 3 and 4.
func (w *work) quantities(p *shop.Product, parts []Part, entries []entry, atUse, finished unit.Mass) {
	base := min(atUse, finished)
	var sum unit.Mass
	var declared []*Quantity
	for _, q := range p.Quid {
		i := slices.IndexFunc(entries, func(e entry) bool {
			return slices.ContainsFunc(e.from, func(g *shop.Ingredient) bool { return g.ID == q.Of.V })
		})
		switch {
		case i < 0:
			w.found.Errorf(q.Of.Pos, "quid", "name an ingredient that the product is made of", "%s is not in %s", q.Of.V, p.ID)
		case q.Exempt.Set():
			w.decide("quid-exempt", q.Of.V, q.Exempt.V, "", q.Pos)
		case parts[i].Quid == nil:
			parts[i].Quid = &Quantity{Used: entries[i].mass, Of: base}
			declared = append(declared, parts[i].Quid)
			sum += entries[i].mass
			w.decide("quid", q.Of.V, parts[i].Quid.Share().String(), q.Because.V, q.Pos)
		}
	}
	if sum > base {
		for _, d := range declared {
			d.PerHundred = true
		}
	}
}
