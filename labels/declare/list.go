package declare

import (
	"cmp"
	"slices"
	"strings"

	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// entry is one ingredient, or several declared as one, before its inner list
// and quantity are decided.
type entry struct {
	ing  *shop.Ingredient
	from []*shop.Ingredient
	mass unit.Mass
}

// list makes the ingredient list of one product (not an assortment).
func (w *work) list(p *shop.Product) []Part {
	parts := scale.Expand(w.shop, p)
	finished := scale.FinishedMass(w.shop, p)
	entries := w.water(merge(p, parts), finished)
	slices.SortStableFunc(entries, func(a, b entry) int {
		return cmp.Or(cmp.Compare(b.mass, a.mass), strings.Compare(a.ing.ID, b.ing.ID))
	})
	var out []Part
	for _, e := range entries {
		out = append(out, w.part(e, finished))
	}
	w.quantities(p, out, entries, total(parts), finished)
	return out
}

// merge joins what is declared as one: always the same ingredient from several
// formulas, and, when the product says so, ingredients of the same name.
func merge(p *shop.Product, parts []scale.Contribution) []entry {
	var out []entry
	at := map[string]int{}
	for _, c := range parts {
		key := c.Ingredient.ID
		if p.Merge.V == "same-name" && len(c.Ingredient.MadeOf) == 0 {
			key = nameKey(c.Ingredient.Name)
		}
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, entry{ing: c.Ingredient})
		}
		out[i].mass += c.Mass
		if !slices.Contains(out[i].from, c.Ingredient) {
			out[i].from = append(out[i].from, c.Ingredient)
		}
	}
	for i := range out {
		slices.SortFunc(out[i].from, func(a, b *shop.Ingredient) int { return strings.Compare(a.ID, b.ID) })
		out[i].ing = out[i].from[0]
	}
	return out
}

// nameKey is the same for ingredients that have the same name in every language.
func nameKey(n shop.Words) string {
	var all []string
	for _, e := range n {
		all = append(all, e.Key.V+"="+e.V.V)
	}
	slices.Sort(all)
	return strings.Join(all, "\n")
}

// water replaces the mass of added water by what is left of it in the finished
// food, which is the finished mass less all other ingredients at use; it drops
// the water where that is no more than the market's limit.
// Reg. (EU) 1169/2011 Art. 18(1) and Annex VII Part A point 1.
func (w *work) water(in []entry, finished unit.Mass) []entry {
	var others unit.Mass
	for _, e := range in {
		if !e.ing.AddedWater.V {
			others += e.mass
		}
	}
	var out []entry
	for _, e := range in {
		if e.ing.AddedWater.V {
			e.mass = max(0, min(e.mass, finished-others))
			if rule := w.market.List.Water; rule.Holds(e.mass, finished) {
				w.decide("water-left-out", e.ing.ID, e.mass.In(finished).String(), rule.Share.String(), e.ing.Pos)
				continue
			}
		}
		out = append(out, e)
	}
	return out
}
