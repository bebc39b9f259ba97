package declare

// crosses tells of a day within the life of the food from which the law asks
// for something else of such food.
func (w *work) crosses(d Date) {
	for _, c := range w.market.Between(w.facts.Made, d.End, w.facts.Contains) {
		w.found.Warnf(w.product.Pos, "law-changes", "see whether it touches this food before the labels are printed ("+c.Cite.String()+")",
			"%s is still on sale on %s, when the law of %s changes: %s", w.product.ID, c.From, w.market.Name(), ChangeText(c.Key))
	}
}

// ChangeText says in English what changes, by the key of a market's change.
func ChangeText(key string) string {
	return map[string]string{
		"jam-fruit":        "jam must be made with at least 450 g of fruit for 1 kg, extra jam with 500 g",
		"honey-origin":     "honey that is sold as such names every country of origin, with its share",
		"flour-folic-acid": "white flour of common wheat must hold folic acid, so the list names it: ask the mill for a new specification",
		"front-symbol":     "packs high in saturated fat, sugars or sodium bear the front-of-package symbol",
	}[key]
}
