package declare

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// sulphurDioxide sums the sulphur dioxide that went in, without credit for
// what cooking may drive off.
func sulphurDioxide(parts []scale.Contribution) unit.Mass {
	var so2 unit.Mass
	for _, c := range parts {
		so2 += c.Mass.Of(c.Ingredient.SO2.V)
	}
	return so2
}

// sulphites records the sulphur dioxide of a food and what it is held against.
func (f *food) sulphites() {
	rule := f.market.Allergens.Sulphites
	if !rule.Set() || f.finished <= 0 {
		return
	}
	f.decide(Sulphites, f.product.ID, MgPerKg(f.so2.In(f.finished)), Limit{rule.Edge, MgPerKg(rule.Share)}, f.product.Pos)
}

// unexcepted leaves out the allergens that the law of the market excepts for
// the given reason (Annex II).
func (w *work) unexcepted(ids []shop.Text, because string) []string {
	var out []string
	for _, id := range ids {
		if because == "" || !w.market.Allergens.Excepted(id.V, because) {
			out = union(out, []string{id.V})
		}
	}
	return out
}

// contained are the allergens of an ingredient. One that only comes from inner
// ingredients is excepted when each of them is.
func (w *work) contained(ing *shop.Ingredient) []string {
	out := w.unexcepted(ing.Contains, ing.Exception.V)
	all, kept := w.ofInner(ing.MadeOf, ing.Exception.V)
	return union(slices.DeleteFunc(out, func(id string) bool {
		return slices.Contains(all, id) && !slices.Contains(kept, id)
	}), kept)
}

// ofInner are the allergens of inner ingredients: all, and those that are not
// excepted.
func (w *work) ofInner(in []shop.Inner, exception string) (all, kept []string) {
	for _, i := range in {
		because := exception
		if i.Exception.Set() {
			because = i.Exception.V
		}
		for _, id := range i.Contains {
			all = union(all, []string{id.V})
		}
		kept = union(kept, w.unexcepted(i.Contains, because))
		a, k := w.ofInner(i.MadeOf, because)
		all, kept = union(all, a), union(kept, k)
	}
	return all, kept
}

// declarable keeps, in the order of the annex, the allergens that this market
// wants declared: those of its table, and sulphites where the finished food
// holds so much of them. No allergen is ever too little to count.
func (f *food) declarable(ids []string) []string {
	var out []string
	for _, id := range market.AllergenIDs() {
		_, known := f.market.Allergens.Find(id)
		if id == "sulphites" {
			known = f.market.Allergens.SulphitesAsked(f.so2, f.finished)
		}
		if known && slices.Contains(ids, id) {
			out = append(out, id)
		}
	}
	return out
}

// contains are the allergens that the food must declare.
func (f *food) contains() []string {
	var out []string
	for _, c := range f.parts {
		out = union(out, f.declarable(f.contained(c.Ingredient)))
	}
	return f.declarable(out)
}

// cross gathers the allergens that suppliers or the kitchen cannot keep out,
// each with the place that says so first.
func (w *work) cross(parts []scale.Contribution) ([]string, map[string]diag.Pos) {
	var ids []string
	at := map[string]diag.Pos{}
	add := func(from []shop.Text) {
		for _, id := range from {
			if !slices.Contains(ids, id.V) {
				ids = append(ids, id.V)
				at[id.V] = id.Pos
			}
		}
	}
	for _, c := range parts {
		add(c.Ingredient.MayContain)
		if alt := w.shop.Ingredients[c.Line.Or.V]; alt != nil {
			add(alt.MayContain)
		}
	}
	add(w.shop.Profile.CrossContact)
	return ids, at
}

// mayContain decides the precautionary line: what suppliers and the kitchen
// cannot keep out, less what is contained, less what the assessment ruled out.
// Without an assessment nothing is printed.
func (w *work) mayContain(parts []scale.Contribution) {
	ids, at := w.cross(parts)
	for _, r := range w.product.RuledOut {
		switch {
		case !slices.Contains(ids, r.V):
			w.found.Warnf(r.Pos, "may-contain", "take it out", "%s is ruled out, but nobody says that it may be in %s", r.V, w.product.ID)
		case slices.Contains(w.facts.Contains, r.V):
			w.found.Errorf(r.Pos, "may-contain", "take it out: the food contains it", "%s is ruled out, but %s contains it", r.V, w.product.ID)
		default:
			ids = without(ids, []string{r.V})
			w.decide(RuledOut, r.V, nil, Text(w.product.Assessment.V), r.Pos)
		}
	}
	for _, a := range w.market.Allergens.Table {
		if slices.Contains(ids, a.ID) && !slices.Contains(w.facts.Contains, a.ID) {
			w.facts.May = append(w.facts.May, a.ID)
			w.decide(MayContain, a.ID, nil, Text(w.product.Assessment.V), at[a.ID])
		}
	}
	if (len(w.facts.May) > 0 || len(w.product.RuledOut) > 0) && !w.product.Assessment.Set() {
		id := first(w.facts.May)
		if id == "" {
			id = w.product.RuledOut[0].V
		}
		w.found.Errorf(w.product.Pos, "may-contain",
			"assess the risk, then give its reference under cross-contact-assessment",
			"%s may contain %s (first from %s), but no assessment says so", w.product.ID, id, at[id])
	}
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
