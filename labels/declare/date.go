package declare

// date computes the last day: the product's own life, or that of the component
// of an assortment that keeps the shortest. The day of making is day 0.
func (w *work) date() {
	k := w.product.Keep
	d := Date{Kind: k.Date.V, End: k.Life.V.End(w.facts.Made)}
	if d.Kind == "" {
		d.Kind = "best-before"
	}
	for _, c := range components(w.shop, w.product) {
		end := c.Keep.Life.V.End(w.facts.Made)
		if end.Before(d.End) {
			d.End, d.Limit = end, c.ID
		}
		if c.Keep.Date.V == "use-by" {
			d.Kind = "use-by"
		}
	}
	if d.Limit != "" {
		w.decide("date-limited", d.Limit, d.End.String(), k.Life.V.End(w.facts.Made).String(), k.Life.Pos)
	}
	w.facts.Date = d
}
