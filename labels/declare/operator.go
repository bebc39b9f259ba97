package declare

// operator finds who stands behind the food in this market, and refuses an
// address that its law does not know: the operator must be there, or else the
// importer (Reg. (EU) 1169/2011 Art. 8(1)).
func (w *work) operator() {
	p, rule := &w.shop.Profile, w.market.Operator
	w.facts.Operator = p.OperatorIn(w.market)
	if !w.market.Asks(w.facts.AsPack().Sale, "operator") {
		return
	}
	where, country := p.Address.Pos, p.Country
	if o := w.facts.Operator; o != nil {
		where, country = o.Address.Pos, o.Country
	}
	hint := "write operators: in shop.yaml with the importer, such as " + w.market.Name() + ": {name: ..., address: ..., country: " + w.market.Places[0] + ", says: imported-by}"
	switch {
	case rule.Here(country.V) || !country.Set(): // of the latter every label is told
	default:
		w.found.Errorf(where, "operator", hint, "this address is in %s; the label of %s for %s must name a house there (%s)", country.V, w.product.ID, w.market.Name(), rule.Cite)
	}
}
