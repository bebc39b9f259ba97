package audit

import (
	"slices"

	"chablon/labels/declare"
	"chablon/labels/shop"
	"chablon/layout/flow"
)

// allergens shows of each allergen that any file names whether the food
// contains it, may contain it, or why not, and every place that says so.
func (t *teller) allergens() section {
	s := section{title: t.Word("audit.allergens"), cols: []col{{t.Word("audit.allergen"), 42, flow.Left}, {t.Word("audit.state"), 34, flow.Left},
		{t.Word("audit.from"), 0, flow.Left}, {t.Word("audit.file"), 52, flow.Left}}}
	for _, a := range t.Facts.Market.Allergens.Table {
		for _, src := range t.sources(a.ID) {
			s.rows = append(s.rows, cells(plain(t.called(a.ID)), src.state, plain(src.from), place(src.at.Pos)))
		}
	}
	if len(s.rows) == 0 {
		s.rows = append(s.rows, cells(plain(t.Word("audit.no-allergens")), plain(""), plain(""), plain("")))
	}
	s.note = t.assessment()
	return s
}

func (t *teller) assessment() string {
	if a := t.Facts.Product.Assessment; a.Set() {
		return t.Fill("audit.assessment", map[string]string{"name": a.V})
	}
	return t.Word("audit.no-assessment")
}

// source is one place that names an allergen.
type source struct {
	state cell
	from  string
	at    shop.Text
}

// sources are all places that name an allergen: specifications of what is
// contained first, then those of what cannot be kept out.
func (t *teller) sources(id string) []source {
	var out []source
	seen := map[string]bool{}
	add := func(in []shop.Text, state func() cell, from string) {
		for _, x := range in {
			if x.V == id && !seen[x.Pos.String()] {
				seen[x.Pos.String()] = true
				out = append(out, source{state(), from, x})
			}
		}
	}
	contained := func() cell { return t.contained(id) }
	may := func(source string) func() cell { return func() cell { return t.crossed(id, source) } }
	for _, c := range t.parts {
		name := t.called(c.Ingredient.ID)
		add(c.Ingredient.Contains, contained, name)
		t.inside(c.Ingredient.MadeOf, name, func(in []shop.Text, from string) { add(in, contained, from) })
	}
	for _, c := range t.parts {
		add(c.Ingredient.MayContain, may(c.Ingredient.ID), t.called(c.Ingredient.ID))
		if alt := t.Shop.Ingredients[c.Line.Or.V]; alt != nil {
			add(alt.MayContain, may(alt.ID), t.called(alt.ID))
		}
	}
	add(t.Shop.Profile.CrossContact, may(declare.Site), t.Word("audit.kitchen"))
	return out
}

// inside visits inner ingredients with the way to them.
func (t *teller) inside(in []shop.Inner, from string, visit func(in []shop.Text, from string)) {
	for _, i := range in {
		name := from + " › " + t.name(i.Name, i.Pos)
		visit(i.Contains, name)
		t.inside(i.MadeOf, name, visit)
	}
}

// contained says what became of an allergen that a specification contains.
func (t *teller) contained(id string) cell {
	switch {
	case slices.Contains(t.Facts.Contains, id):
		return bold(t.Word("audit.contained"))
	case id == "sulphites":
		return plain(t.Word("audit.below-limit"))
	}
	return plain(t.Word("audit.excepted"))
}

// crossed says what became of an allergen that a source cannot keep out.
func (t *teller) crossed(id, source string) cell {
	ruled := slices.ContainsFunc(t.Facts.Ruled, func(r declare.Ruled) bool { return r.Allergen == id && slices.Contains(r.From, source) })
	switch {
	case slices.Contains(t.Facts.Contains, id):
		return plain(t.Word("audit.anyway"))
	case ruled:
		return plain(t.Word("audit.ruled-out"))
	}
	return bold(t.Word("audit.may"))
}
