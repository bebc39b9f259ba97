package explain

import (
	"cmp"
	"slices"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// allergens tells of the allergens that the word names, in any language; nuts
// and gluten name several.
func (f *finder) allergens() {
	for _, id := range market.AllergenIDs() {
		if !f.names(id) {
			continue
		}
		r := f.topic(f.verdict(id), Values{"allergen": declare.ID(id)})
		if r.Key == "allergen-unheard" {
			continue
		}
		if r.Key == "allergen-contained" {
			f.emphasised(r, id)
		}
		f.sources(r, id)
		f.traces(r, id)
		if id == "sulphites" {
			f.sulphites(r)
		}
	}
}

// verdict says whether an allergen is declared.
func (f *finder) verdict(id string) string {
	switch {
	case slices.Contains(f.Facts.Contains, id):
		return "allergen-contained"
	case slices.Contains(f.Facts.May, id):
		return "allergen-may"
	case f.unheard(id):
		return "allergen-unheard"
	}
	return "allergen-undeclared"
}

// unheard reports that neither a specification nor the kitchen names an
// allergen.
func (f *finder) unheard(id string) bool {
	is := func(t shop.Text) bool { return t.V == id }
	return !slices.ContainsFunc(f.Shop.Profile.CrossContact, is) && !slices.ContainsFunc(f.used(), func(i *shop.Ingredient) bool {
		_, contains := said(i, id)
		return contains || slices.ContainsFunc(i.MayContain, is)
	})
}

// names reports whether the word names an allergen.
func (f *finder) names(id string) bool {
	all := []string{id}
	switch {
	case slices.Contains([]string{"wheat", "rye", "barley", "oats"}, id):
		all = append(all, "gluten", "cereals")
	case id == "sulphites":
		all = append(all, "sulfites", "sulphur dioxide", "sulfur dioxide", "so2", "e 220")
	}
	if a, ok := f.Facts.Market.Allergens.Find(id); ok && a.Group == 8 {
		all = append(all, "nuts", "tree nuts")
	}
	for _, c := range words.Codes() {
		if l, ok := words.Get(c); ok {
			if name, _, err := l.Allergen(id); err == nil {
				all = append(all, name)
			}
		}
	}
	return f.fits(all...) == wholly
}

// emphasised names the places in the list that show an allergen.
func (f *finder) emphasised(r *Reason, id string) {
	var in Texts
	for _, s := range f.spots() {
		if slices.Contains(s.part.Show, id) {
			in = append(in, s.name)
		}
	}
	if in != nil {
		r.add("shown-at", Values{"names": in})
	}
}

// sources names the specifications that say it is contained.
func (f *finder) sources(r *Reason, id string) {
	any := false
	for _, i := range f.used() {
		pos, ok := said(i, id)
		if !ok {
			continue
		}
		any = true
		one := r.add("contains", Values{"ingredient": declare.ID(i.ID)}, pos)
		if i.Exception.Set() {
			one.add("law-excepts", Values{"exception": declare.Text(i.Exception.V)}, i.Exception.Pos)
		}
		if f.fits(append(texts(i.Name), i.ID)...) != wholly { // otherwise it is told below
			f.ways(one, i)
		}
	}
	if !any {
		r.add("no-source", nil)
	}
}

// said finds where a specification says that an ingredient contains an
// allergen.
func said(i *shop.Ingredient, id string) (pos diag.Pos, ok bool) {
	for _, c := range i.Contains {
		if c.V == id {
			return c.Pos, true
		}
	}
	inners(i.MadeOf, func(in shop.Inner) {
		for _, c := range in.Contains {
			if c.V == id && !ok {
				pos, ok = c.Pos, true
			}
		}
	})
	return pos, ok
}

// traces names who cannot keep it out, and what was decided about it.
func (f *finder) traces(r *Reason, id string) {
	before := len(r.Under)
	tell := func(key string, v Values, list []shop.Text) {
		for _, t := range list {
			if t.V == id {
				r.add(key, v, t.Pos)
			}
		}
	}
	for _, i := range f.used() {
		tell("supplier-traces", Values{"ingredient": declare.ID(i.ID)}, i.MayContain)
	}
	tell("kitchen-traces", nil, f.Shop.Profile.CrossContact)
	any, contained := len(r.Under) > before, slices.Contains(f.Facts.Contains, id)
	switch {
	case any && contained:
		r.add("contained-anyway", nil)
	case !any && !contained:
		r.add("no-traces", nil)
	}
	for _, d := range f.decisions(id) {
		r.decided(d)
	}
}

// sulphites tells how much sulphur dioxide there is, and where from.
func (f *finder) sulphites(r *Reason) {
	rule := f.Facts.Market.Allergens.Sulphites
	if !rule.Set() {
		return
	}
	for _, x := range f.foods {
		var sum unit.Mass
		for _, c := range x.parts {
			sum += c.Mass.Of(c.Ingredient.SO2.V)
		}
		key := "sulphites-under"
		if rule.Holds(sum, x.finished) {
			key = "sulphites-over"
		}
		f.sulphitesOf(r.add(key, Values{"product": declare.ID(x.product.ID), "got": declare.MgPerKg(sum.In(x.finished)),
			"limit": declare.Limit{Edge: rule.Edge, Of: declare.MgPerKg(rule.Share)}, "source": declare.Text(rule.Cite.String())}), x)
	}
}

// sulphitesOf tells what the sulphur dioxide comes from, the most first.
func (f *finder) sulphitesOf(r *Reason, x food) {
	type share struct {
		ing       *shop.Ingredient
		so2, mass unit.Mass
	}
	var all []share
	for _, i := range f.used() {
		one := share{ing: i}
		for _, c := range x.parts {
			if c.Ingredient == i {
				one.so2, one.mass = one.so2+c.Mass.Of(i.SO2.V), one.mass+c.Mass
			}
		}
		if one.so2 > 0 {
			all = append(all, one)
		}
	}
	slices.SortStableFunc(all, func(a, b share) int { return cmp.Compare(b.so2, a.so2) })
	for _, s := range all {
		r.add("sulphites-from", Values{"got": declare.MgPerKg(s.so2.In(x.finished)), "ingredient": declare.ID(s.ing.ID),
			"per-100-g": declare.Mass(per100(s.mass, x.finished)), "strength": declare.MgPerKg(s.ing.SO2.V)}, s.ing.SO2.Pos)
	}
}
