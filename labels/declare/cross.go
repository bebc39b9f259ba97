package declare

import (
	"cmp"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
)

// Site is the source of cross-contact that is the kitchen itself; the others
// are ids of ingredients.
const Site = "site"

// Ruled is an allergen that the assessment found to be kept out, with the
// sources that it was found for, in alphabetical order.
type Ruled struct {
	Allergen string
	From     []string
}

// Absent is an allergen that a name speaks of while the specification says that
// it is truly not in the ingredient, and why.
type Absent struct{ Of, Allergen, Reason string }

// source is one that cannot keep an allergen out.
type source struct {
	allergen string
	from     string // id of an ingredient, or Site
	pos      diag.Pos
}

// cross gathers what suppliers or the kitchen cannot keep out.
func (w *work) cross(parts []scale.Contribution) []source {
	var out []source
	add := func(ids []shop.Text, from string) {
		for _, id := range ids {
			if !slices.ContainsFunc(out, func(s source) bool { return s.allergen == id.V && s.from == from }) {
				out = append(out, source{id.V, from, id.Pos})
			}
		}
	}
	for _, c := range parts {
		add(c.Ingredient.MayContain, c.Ingredient.ID)
		if alt := w.shop.Ingredients[c.Line.Or.V]; alt != nil {
			add(alt.MayContain, alt.ID)
		}
	}
	add(w.shop.Profile.CrossContact, Site)
	return out
}

// mayContain decides the precautionary line: what suppliers and the kitchen
// cannot keep out, less what is contained, less what the assessment ruled out
// for each of its sources. Without an assessment nothing is printed. It returns
// the sources that are left.
func (w *work) mayContain(parts []scale.Contribution) []source {
	left := w.lessRuledOut(w.cross(parts))
	for _, a := range w.market.Allergens.Table {
		i := slices.IndexFunc(left, func(s source) bool { return s.allergen == a.ID })
		if i < 0 || slices.Contains(w.facts.Contains, a.ID) {
			continue
		}
		w.facts.May = append(w.facts.May, a.ID)
		w.decide(MayContain, a.ID, nil, Text(w.product.Assessment.V), left[i].pos)
	}
	w.assessed(left)
	return left
}

// assessed wants an assessment behind whatever is feared or ruled out.
func (w *work) assessed(left []source) {
	if len(w.facts.May) == 0 && len(w.product.RuledOut) == 0 || w.product.Assessment.Set() {
		return
	}
	id, at := first(w.facts.May), diag.Pos{}
	if id == "" {
		id, at = w.product.RuledOut[0].Allergen.V, w.product.RuledOut[0].Pos
	} else {
		at = left[slices.IndexFunc(left, func(s source) bool { return s.allergen == id })].pos
	}
	w.found.Errorf(w.product.Pos, "may-contain",
		"assess the risk, then give its reference under cross-contact-assessment",
		"%s may contain %s (first from %s), but no assessment says so", w.product.ID, id, at)
}

// lessRuledOut takes away the sources that the assessment ruled out. Each is
// named: a supplier that begins to fear an allergen later is not covered by
// what was found before.
func (w *work) lessRuledOut(all []source) []source {
	for _, r := range w.product.RuledOut {
		id := r.Allergen.V
		if slices.Contains(w.facts.Contains, id) {
			w.found.Errorf(r.Allergen.Pos, "may-contain", "take it out: the food contains it", "%s is ruled out, but %s contains it", id, w.product.ID)
			continue
		}
		said := Ruled{Allergen: id}
		for _, from := range r.From {
			before := len(all)
			all = slices.DeleteFunc(all, func(s source) bool { return s.allergen == id && s.from == from.V })
			if len(all) == before {
				w.found.Warnf(from.Pos, "may-contain", "take it out", "%s from %s is ruled out, but %s does not say that it may be in %s", id, from.V, from.V, w.product.ID)
				continue
			}
			said.From = union(said.From, []string{from.V})
			w.decide(RuledOut, id, ID(from.V), Text(w.product.Assessment.V), from.Pos)
		}
		if slices.Sort(said.From); len(said.From) > 0 {
			w.facts.Ruled = append(w.facts.Ruled, said)
		}
	}
	slices.SortStableFunc(w.facts.Ruled, func(a, b Ruled) int { return cmp.Compare(a.Allergen, b.Allergen) })
	return all
}

// absent gathers what names speak of and is said to be truly not in them. It
// stands on the papers of whoever answers for it, for nobody can see it in the
// food.
func (w *work) absent(parts []scale.Contribution) {
	for _, c := range parts {
		for _, f := range c.Ingredient.TrulyFree {
			a := Absent{c.Ingredient.ID, f.Key.V, f.V.V}
			if slices.Contains(w.facts.Absent, a) {
				continue
			}
			w.facts.Absent = append(w.facts.Absent, a)
			w.decide(TrulyFree, a.Of, ID(a.Allergen), Text(a.Reason), f.Key.Pos)
			w.found.Warnf(f.Key.Pos, "truly-free", "see that it still holds", "%s speaks of %s and is said to be truly free of it: %s", a.Of, a.Allergen, a.Reason)
		}
	}
	slices.SortFunc(w.facts.Absent, func(a, b Absent) int {
		return cmp.Or(cmp.Compare(a.Of, b.Of), cmp.Compare(a.Allergen, b.Allergen))
	})
}
