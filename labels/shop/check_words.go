package shop

import (
	"slices"
	"unicode/utf8"

	"chablon/labels/diag"
	"chablon/labels/tradeword"
)

// ingredientNames: each ingredient and inner ingredient has its name in every
// language in which a product that holds it is labelled or made. There is no
// falling back to another language.
func (c *checker) ingredientNames() {
	labels := map[*Ingredient][]string{}
	c.products(func(p *Product) {
		langs := c.labelled(p)
		c.reach(p.ID, func(_ *Formula, i *Ingredient) {
			if i != nil {
				labels[i] = union(labels[i], langs)
			}
		})
	})
	c.formulas(func(f *Formula) {
		for _, l := range f.Lines {
			if i := c.Ingredients[l.Use.V]; i != nil {
				labels[i] = union(labels[i], nil)
			}
		}
	})
	c.ingredients(func(i *Ingredient) {
		langs, used := labels[i]
		if !used {
			return
		}
		c.named(i.Name, i.Pos, "the ingredient "+i.ID, union(langs, c.cards()))
		c.short(i.Name)
		inners(i.MadeOf, func(in Inner) { c.named(in.Name, in.Pos, "an inner ingredient of "+i.ID, langs) })
		if i.Piece != nil {
			c.named(i.Piece.Name, i.Piece.Pos, "a piece of "+i.ID, c.cards())
		}
	})
}

// productNames: a product has its name in the languages of its labels, of the
// assortments it is in, and of the cards.
func (c *checker) productNames() {
	langs := map[string][]string{}
	c.products(func(p *Product) {
		own := c.labelled(p)
		langs[p.ID] = union(langs[p.ID], own)
		for _, l := range p.Lines() {
			langs[l.Use.V] = union(langs[l.Use.V], own)
		}
	})
	c.products(func(p *Product) {
		c.named(p.Name, p.Pos, "the product "+p.ID, union(langs[p.ID], c.cards()))
		c.short(p.Name)
	})
}

// cardWords: whatever stands on a bench card stands in every card language.
func (c *checker) cardWords() {
	c.formulas(func(f *Formula) {
		c.named(f.Name, f.Pos, "the formula "+f.ID, c.cards())
		c.short(f.Name)
	})
	c.products(func(p *Product) {
		if p.Tray != nil {
			c.named(p.Tray.Name, p.Tray.Pos, "the tray", c.cards())
		}
	})
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			c.given(l.Name, l.Pos, "the name of this line")
		}
		for _, st := range s.steps {
			c.named(st.Do, st.Pos, "step "+st.ID.V, c.cards())
			c.given(st.Tool, st.Pos, "the tool of step "+st.ID.V)
			c.given(st.Look, st.Pos, "the look of step "+st.ID.V)
			c.given(st.Never, st.Pos, "the never of step "+st.ID.V)
			c.given(st.Or, st.Pos, "the other way of step "+st.ID.V)
			for _, r := range st.Reach {
				c.given(r.Of, r.Pos, "what a temperature of step "+st.ID.V+" is of")
			}
			if st.Picture != nil {
				c.named(st.Picture.Shows, st.Picture.Pos, "what the picture of step "+st.ID.V+" shows", c.cards())
			}
			if m := st.Limit; m != nil {
				c.named(m.Measure, m.Pos, "measure at step "+st.ID.V, c.cards())
				c.named(m.IfNot, m.Pos, "if-not at step "+st.ID.V, c.cards())
			}
		}
	})
}

// given checks words that may be left out, but not in one language only.
func (c *checker) given(w Words, pos diag.Pos, what string) {
	if len(w) > 0 {
		c.named(w, pos, what, c.cards())
	}
}

// named reports the languages in which w has no text.
func (c *checker) named(w Words, pos diag.Pos, what string, langs []string) {
	if !c.whole(pos) {
		return
	}
	if len(w) > 0 {
		pos = w[0].Key.Pos
	}
	for _, lang := range langs {
		if t, ok := In(w, lang); !ok || t.V == "" {
			c.wrong(pos, "translation", "add a line that begins with "+lang+":", "%s has no text in %q", what, lang)
		}
	}
}

// longestName is how many letters a name may have: more leave no room for
// anything else on a card of the largest paper (common practice, no source).
const longestName = 200

// short reports names that no paper has room for.
func (c *checker) short(names Words) {
	for _, e := range names {
		if n := utf8.RuneCountInString(e.V.V); n > longestName {
			c.wrong(e.V.Pos, "name", "shorten it; what the food is made of belongs in its list", "a name of %d letters has no room on any paper; at most %d have", n, longestName)
		}
	}
}

// cards gives the languages of bench cards; of too many only the first two.
func (c *checker) cards() []string {
	langs := codesOf(c.Profile.CardLanguages)
	return langs[:min(len(langs), 2)]
}

// labelled gives the languages that some label of the product is in.
func (c *checker) labelled(p *Product) []string {
	var all []string
	for i := range p.Packs {
		all = union(all, codesOf(c.LanguagesOf(&p.Packs[i])))
	}
	return all
}

func codesOf(langs []Text) []string {
	var all []string
	for _, l := range langs {
		if slices.Contains(tradeword.Codes(), l.V) { // of any other it is said once, where it stands
			all = union(all, []string{l.V})
		}
	}
	return all
}

func union(a, b []string) []string {
	for _, s := range b {
		if !slices.Contains(a, s) {
			a = append(a[:len(a):len(a)], s)
		}
	}
	return a
}
