package declare

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
)

// OnCard are the allergens of a product for those who make it: what some
// market of the shop wants declared of it, in the order of Annex II. It asks
// for no label, so that what is wrong with a label keeps no card from the
// bench.
func OnCard(sh *shop.Shop, p *shop.Product) []string {
	return inMarkets(sh, func(w *work) []string {
		w.product = p
		out := w.food(p).contains()
		for _, c := range w.assorted(p, nil) {
			out = union(out, w.food(c).contains())
		}
		return out
	})
}

// Declared are the allergens of one ingredient that some market of the shop
// wants declared; of sulphites only that it contains them, not how much.
func Declared(sh *shop.Shop, i *shop.Ingredient) []string {
	return inMarkets(sh, func(w *work) []string {
		return slices.DeleteFunc(w.contained(i), func(id string) bool { _, ok := w.market.Allergens.Find(id); return !ok })
	})
}

// inMarkets joins what is asked of each market of the shop, in the order of
// Annex II.
func inMarkets(sh *shop.Shop, ask func(*work) []string) []string {
	var all []string
	for _, code := range sh.Profile.Markets {
		if m, ok := market.Get(code.V); ok {
			all = union(all, ask(&work{shop: sh, market: m, facts: &Facts{Market: m}, found: &diag.List{}}))
		}
	}
	return slices.DeleteFunc(market.AllergenIDs(), func(id string) bool { return !slices.Contains(all, id) })
}
