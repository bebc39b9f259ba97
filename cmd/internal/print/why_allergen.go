package print

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// allergens tells of the allergens that the word names, in any language; nuts
// and gluten name several.
func (w *why) allergens() bool {
	found := false
	for _, id := range market.AllergenIDs() {
		if !w.names(id) {
			continue
		}
		found = true
		switch {
		case slices.Contains(w.Facts.Contains, id):
			w.head("%s: contained, declared", id)
			w.emphasised(id)
		case slices.Contains(w.Facts.May, id):
			w.head("%s: not contained; may be in it, declared", id)
		case w.unknown(id):
			w.head("%s: not declared; nobody says that it is in there or may get in", id)
			continue
		default:
			w.head("%s: not declared", id)
		}
		w.sources(id)
		w.traces(id)
		if id == "sulphites" {
			w.sulphites()
		}
	}
	return found
}

// unknown reports that neither a specification nor the kitchen names an
// allergen.
func (w *why) unknown(id string) bool {
	is := func(t shop.Text) bool { return t.V == id }
	return !slices.ContainsFunc(w.press.Shop.Profile.CrossContact, is) && !slices.ContainsFunc(w.used(), func(i *shop.Ingredient) bool {
		_, contains := said(i, id)
		return contains || slices.ContainsFunc(i.MayContain, is)
	})
}

// names reports whether the word names an allergen.
func (w *why) names(id string) bool {
	all := []string{id}
	switch {
	case slices.Contains([]string{"wheat", "rye", "barley", "oats"}, id):
		all = append(all, "gluten", "cereals")
	case id == "sulphites":
		all = append(all, "sulfites", "sulphur dioxide", "sulfur dioxide", "so2", "e 220")
	}
	if a, ok := w.Market.Allergens.Find(id); ok && a.Group == 8 {
		all = append(all, "nuts", "tree nuts")
	}
	for _, c := range words.Codes() {
		if l, ok := words.Get(c); ok {
			if name, _, err := l.Allergen(id); err == nil {
				all = append(all, name)
			}
		}
	}
	return w.fits(all...) == wholly
}

// emphasised names the places in the list that show an allergen.
func (w *why) emphasised(id string) {
	var in []string
	for _, s := range w.spots() {
		if slices.Contains(s.part.Show, id) {
			in = append(in, s.name)
		}
	}
	if in != nil {
		w.item("  ", "the list shows it at "+strings.Join(in, ", "))
	}
}

// sources names the specifications that say it is contained.
func (w *why) sources(id string) {
	any := false
	for _, i := range w.used() {
		pos, ok := said(i, id)
		if !ok {
			continue
		}
		any = true
		w.item("  ", i.ID+" contains it", w.at(pos))
		if i.Exception.Set() {
			w.item("    ", "the law excepts it: "+i.Exception.V, w.at(i.Exception.Pos))
		}
		if w.fits(append(texts(i.Name), i.ID)...) != wholly { // otherwise it is told below
			w.ways(i)
		}
	}
	if !any {
		w.item("  ", "no specification of what goes in says that it contains it")
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
func (w *why) traces(id string) {
	any := false
	tell := func(who string, list []shop.Text) {
		for _, t := range list {
			if t.V == id {
				any = true
				w.item("  ", who, w.at(t.Pos))
			}
		}
	}
	for _, i := range w.used() {
		tell(i.ID+" may contain it, says its supplier", i.MayContain)
	}
	tell("the kitchen cannot keep it out", w.press.Shop.Profile.CrossContact)
	switch contained := slices.Contains(w.Facts.Contains, id); {
	case any && contained:
		w.item("  ", "it is contained, so the may-contain line leaves it out")
	case !any && !contained:
		w.item("  ", "nobody says that it may get in by cross-contact")
	}
	for _, d := range w.decided(id) {
		w.item("  ", reason(d), w.at(d.Pos))
	}
}

// sulphites tells how much sulphur dioxide there is, and where from.
func (w *why) sulphites() {
	rule := w.Market.Allergens.Sulphites
	if !rule.Set() {
		return
	}
	for _, f := range w.foods {
		var sum unit.Mass
		for _, c := range f.parts {
			sum += c.Mass.Of(c.Ingredient.SO2.V)
		}
		verdict := "not declared"
		if rule.Holds(sum, f.finished) {
			verdict = "declared"
		}
		w.item("  ", fmt.Sprintf("%s: %s of the finished food, limit %s %s: %s. Nothing is taken off for cooking (%s).",
			f.product.ID, perKilo(sum, f.finished), edge(rule.Edge), mgPerKilo(rule.Share), verdict, rule.Cite))
		w.sulphitesOf(f)
	}
}

// sulphitesOf tells what the sulphur dioxide comes from, the most first.
func (w *why) sulphitesOf(f food) {
	type share struct {
		ing       *shop.Ingredient
		so2, mass unit.Mass
	}
	var all []share
	for _, i := range w.used() {
		one := share{ing: i}
		for _, c := range f.parts {
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
		w.item("    ", fmt.Sprintf("%s from %s: %s in 100 g, at %s", perKilo(s.so2, f.finished), s.ing.ID,
			short((100*unit.Gram).Mul(s.mass, f.finished)), mgPerKilo(s.ing.SO2.V)), w.at(s.ing.SO2.Pos))
	}
}

// edge says on which side of a limit a rule holds.
func edge(e market.Edge) string {
	switch e {
	case market.Over:
		return "more than"
	case market.From:
		return "no less than"
	case market.Below:
		return "less than"
	}
	return "no more than"
}

// perKilo is a mass in another, in mg/kg.
func perKilo(m, whole unit.Mass) string { return mgPerKilo(m.In(whole)) }

func mgPerKilo(s unit.Share) string {
	return decimal(int64(s), int64(unit.MgPerKg), 1).String() + " mg/kg"
}
