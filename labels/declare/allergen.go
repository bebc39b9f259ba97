package declare

import (
	"fmt"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// sulphites computes the sulphur dioxide of the finished food, without credit
// for what cooking may drive off.
func (w *work) sulphites(parts []scale.Contribution) {
	var so2 unit.Mass
	for _, c := range parts {
		so2 += c.Mass.Of(c.Ingredient.SO2.V)
	}
	w.facts.SO2 = so2
	got := fmt.Sprintf("%.1f mg/kg", float64(so2.In(w.facts.Finished))/float64(unit.MgPerKg))
	limit := fmt.Sprintf("%d mg/kg", w.market.Allergens.Sulphites.Share/unit.MgPerKg)
	w.decide("sulphites", w.product.ID, got, limit, w.product.Pos)
}

// declarable drops the sulphites where the finished food holds too little of
// them to be declared; every other allergen stays, however small its share.
func (w *work) declarable(ids []shop.Text) []string {
	var out []string
	for _, id := range ids {
		if id.V == "sulphites" && !w.market.Allergens.SulphitesAsked(w.facts.SO2, w.facts.Finished) {
			continue
		}
		out = union(out, []string{id.V})
	}
	return out
}

// allergens gathers what the food contains and what it may contain, and makes
// sure that whatever is contained can be read in the lists.
func (w *work) allergens(parts []scale.Contribution) {
	var contains, may []string
	for _, c := range parts {
		contains = union(contains, w.declarable(c.Ingredient.Contains))
	}
	var first diag.Pos
	for _, c := range parts {
		for _, id := range c.Ingredient.MayContain {
			if !slices.Contains(contains, id.V) {
				may = union(may, []string{id.V})
				if !first.Known() {
					first = id.Pos
				}
			}
		}
	}
	w.facts.Contains, w.facts.May = w.sorted(contains), w.sorted(may)
	if len(may) > 0 && !w.product.Assessment.Set() {
		w.found.Errorf(w.product.Pos, "may-contain",
			"assess the risk, then give its reference under cross-contact-assessment",
			"%s may contain %s (first from %s), but no assessment says so", w.product.ID, may[0], first)
	}
	var read []string
	for _, l := range w.facts.Lists {
		read = union(read, shown(l.Parts))
	}
	for _, id := range without(contains, read) {
		w.found.Errorf(w.product.Pos, "allergen-lost", "report this: nothing may be printed", "%s contains %s, but no part of its list shows it", w.product.ID, id)
	}
}

// sorted puts allergen ids in the order of the market's table.
func (w *work) sorted(ids []string) []string {
	var out []string
	for _, a := range w.market.Allergens.Table {
		if slices.Contains(ids, a.ID) {
			out = append(out, a.ID)
		}
	}
	for _, id := range without(ids, out) {
		w.found.Errorf(w.product.Pos, "allergen", "use the ids of the market's table", "%q is not an allergen that %s knows", id, w.market.Code)
	}
	return out
}

// alcohol computes the ethanol that went in, as a share of the finished food.
func (w *work) alcohol(parts []scale.Contribution) {
	var g unit.Mass
	for _, c := range parts {
		if c.Ingredient.Per100 != nil {
			g += c.Mass.Mul(c.Ingredient.Per100.Alcohol.V, 100*unit.Gram)
		}
	}
	w.facts.Alcohol = g.In(w.facts.Finished)
}
