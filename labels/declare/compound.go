package declare

import (
	"cmp"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// part turns an entry into a printed part, with its inner list where the law
// asks for one.
func (w *work) part(e entry, finished unit.Mass) Part {
	ing := e.ing
	p := Part{Ref: ing.ID, Name: ing.Name, Class: ing.Class.V, Mass: e.mass, Src: ing.Pos}
	for _, i := range e.from {
		p.Allergens = union(p.Allergens, w.declarable(i.Contains))
	}
	p.Inner = w.inner(ing.MadeOf, e.mass, w.relieved(ing, e.mass, finished))
	if len(p.Inner) == 1 && nameKey(p.Inner[0].Name) == nameKey(p.Name) && p.Inner[0].Class == "" {
		p.Inner = p.Inner[0].Inner // nothing but itself
	}
	p.Show = without(p.Allergens, shown(p.Inner))
	return p
}

// inner makes the printed inner ingredients of a compound ingredient. Where
// its inner list is relieved, only additives with a function and whatever
// holds an allergen stay (Annex VII Part E point 2, Art. 21). Additives that
// are carried over without a function are left out unless they hold an
// allergen (Art. 20(b)(i)).
func (w *work) inner(in []shop.Inner, of unit.Mass, relieved bool) []Part {
	var out []Part
	for _, i := range in {
		p := Part{Name: i.Name, Class: i.Class.V, Varying: i.Varying.V, Mass: of.Of(i.Share.V), Src: i.Pos}
		p.Allergens = w.declarable(i.Contains)
		p.Inner = w.inner(i.MadeOf, p.Mass, relieved)
		p.Show = without(p.Allergens, shown(p.Inner))
		switch holds := len(p.Allergens) > 0 || len(p.Inner) > 0; {
		case i.CarryOver.V && !holds:
			w.decide("carried-over", i.Name[0].V.V, "", "", i.Pos)
		case relieved && p.Class == "" && !holds:
		default:
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b Part) int { return cmp.Compare(b.Mass, a.Mass) })
	return out
}

// relieved reports whether the inner list of a compound ingredient may be
// dropped: less than the market's limit of the finished food, and its
// composition set in law or a mixture of spices or herbs.
func (w *work) relieved(ing *shop.Ingredient, mass, finished unit.Mass) bool {
	if len(ing.MadeOf) == 0 {
		return false
	}
	rule := w.market.List.Compound
	kind := ing.Defined.V || ing.Mixture.Set() || !w.market.List.DefinedOnly
	if !kind || !rule.Holds(mass, finished) {
		return false
	}
	w.decide("inner-list-relieved", ing.ID, mass.In(finished).String(), rule.Share.String(), ing.Pos)
	return true
}

// shown are the allergens that the parts show themselves.
func shown(parts []Part) []string {
	var out []string
	for _, p := range parts {
		out = union(out, p.Show)
		out = union(out, shown(p.Inner))
	}
	return out
}

func union(a, b []string) []string {
	for _, x := range b {
		if !slices.Contains(a, x) {
			a = append(a[:len(a):len(a)], x)
		}
	}
	return a
}

func without(a, b []string) []string {
	var out []string
	for _, x := range a {
		if !slices.Contains(b, x) {
			out = append(out, x)
		}
	}
	return out
}
