package declare

import (
	"slices"

	"chablon/labels/unit"
)

// quantities gives the declared quantity to each part that the product's
// decisions name. The quantity is the mass at use over the finished mass where
// moisture was lost, over the mass at use otherwise, and of what is volatile
// the mass left over the finished mass; where one of them, or all together,
// pass 100 %, each becomes grams for 100 g of the finished food.
// Reg. (EU) 1169/2011 Art. 22 and Annex VIII points 3 and 4.
func (f *food) quantities(parts []Part, things []thing) {
	if !f.market.Quid.Set() || f.facts.Pack.Sale.V == "direct" {
		return // not asked for
	}
	base := min(f.atUse, f.finished)
	var sum unit.Mass
	var declared []*Quantity
	for _, q := range f.product.Percent {
		i := slices.IndexFunc(things, func(t thing) bool { return slices.Contains(t.ids, q.Of.V) })
		switch {
		case q.Exempt.Set():
			f.decide(QuantityExempt, q.Of.V, Key(q.Exempt.V), nil, q.Pos)
		case i < 0:
			f.found.Errorf(q.Of.Pos, "percent", "name an ingredient of the list, or list: by-part to declare a formula by its name", "%s has no entry of its own in the list of %s", q.Of.V, f.product.ID)
		case parts[i].Varying || parts[i].Alt != nil:
			f.decide(QuantityExempt, q.Of.V, Key("varying-mixture"), nil, q.Pos)
		case parts[i].Quid == nil:
			d := &Quantity{Used: things[i].mass, Of: base}
			if things[i].volatile || things[i].water {
				d.Of = f.finished
			}
			parts[i].Quid = d
			declared = append(declared, d)
			sum += d.Used
			f.decide(QuantityDeclared, q.Of.V, Percent(d.Share()), Key(q.Because.V), q.Pos)
		}
	}
	if f.market.Quid.Over.Set() && sum > base {
		for _, d := range declared {
			d.PerHundred = true
		}
	}
}
