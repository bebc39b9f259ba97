package declare

import (
	"slices"

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

// contained are the allergens of an ingredient: its own and those of its inner
// ingredients, at any depth. An exception frees what it is written at and
// nothing else: neither the parts of a compound nor what stands beside it.
func (w *work) contained(ing *shop.Ingredient) []string {
	return union(w.unexcepted(ing.Contains, ing.Exception.V), w.containedInner(ing.MadeOf))
}

func (w *work) containedInner(in []shop.Inner) []string {
	var out []string
	for _, i := range in {
		out = union(out, w.unexcepted(i.Contains, i.Exception.V))
		out = union(out, w.containedInner(i.MadeOf))
	}
	return out
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
