// Package explain answers: why does the label say that, or why not?
//
// [Ask] goes from a word back through product, formulas and ingredients to the
// supplier's specification, with the masses on the way. Its answer is a tree of
// [Reason] with typed values and places in files: the terminal, a web page and
// a sheet on paper say it in their own words, and read nothing out of a text.
package explain

import (
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// Question asks how a word came onto a label, or why it did not. The word may
// be a name in any language, an id, an allergen, "water", a percentage, a
// nutrient or "date".
type Question struct {
	Shop  *shop.Shop
	Facts *declare.Facts
	Lang  *words.Lang // in which names of the list are given
	Word  string
}

// finder looks for the reasons behind one word.
type finder struct {
	Question
	word  string // as it is compared
	parts []scale.Contribution
	foods []food
	out   Reason // holds the answer
}

// food is the product, or one component of an assortment: what has a list of
// its own.
type food struct {
	product  *shop.Product
	parts    []scale.Contribution
	finished unit.Mass
}

// Ask gives what is known about the word, the nearest meaning first. It is
// empty where nothing behind the label answers to the word; near is then the
// name that looks most like it, if any does.
func Ask(q Question) (answer []*Reason, near string) {
	f := &finder{Question: q, word: folded(q.Word), parts: scale.Expand(q.Shop, q.Facts.Product)}
	f.foods = foodsOf(q.Shop, f.parts)
	for _, look := range looks() {
		look(f)
	}
	if len(f.out.Under) == 0 {
		return nil, diag.Nearest(q.Word, f.vocabulary())
	}
	return f.out.Under, ""
}

// looks lists what a word may mean, in the order of the answer.
func looks() []func(*finder) {
	return []func(*finder){(*finder).percentage, (*finder).allergens, (*finder).water, (*finder).nutrients, (*finder).date,
		(*finder).ingredients, (*finder).formulas, (*finder).elsewhere}
}

// topic begins a part of the answer.
func (f *finder) topic(key string, v Values) *Reason { return f.out.add(key, v) }

// foodsOf are the foods that have lists of their own.
func foodsOf(sh *shop.Shop, parts []scale.Contribution) []food {
	var out []food
	for _, c := range parts {
		if !slices.ContainsFunc(out, func(f food) bool { return f.product == c.Product }) {
			out = append(out, food{c.Product, scale.Expand(sh, c.Product), scale.FinishedMass(sh, c.Product)})
		}
	}
	return out
}

// folded is a word as it is compared: small letters, plain spaces.
func folded(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

// singular forgives the s of an English or French plural.
func singular(s string) string { return strings.TrimSuffix(s, "s") }

// How well a name fits the word.
const (
	not = iota
	within
	wholly
)

// fits compares the word with names; the best one counts.
func (f *finder) fits(names ...string) int {
	best := not
	for _, n := range names {
		n = folded(n)
		switch {
		case n == "":
		case singular(n) == singular(f.word), strings.ReplaceAll(f.word, " ", "-") == n:
			return wholly
		case len(f.word) > 2 && strings.Contains(n, singular(f.word)):
			best = within
		}
	}
	return best
}

// texts are the words in all their languages.
func texts(w shop.Words) []string {
	var out []string
	for _, e := range w {
		out = append(out, e.V.V)
	}
	return out
}

// used are the ingredients of the product, each once, in the order in which
// they come in.
func (f *finder) used() []*shop.Ingredient {
	var out []*shop.Ingredient
	for _, c := range f.parts {
		if !slices.Contains(out, c.Ingredient) {
			out = append(out, c.Ingredient)
		}
	}
	return out
}

// through are the formulas of the product, each once.
func (f *finder) through() []*shop.Formula {
	var out []*shop.Formula
	for _, c := range f.parts {
		for _, v := range c.Via {
			if !slices.Contains(out, v) {
				out = append(out, v)
			}
		}
	}
	return out
}

// vocabulary is all that would have been found.
func (f *finder) vocabulary() []string {
	out := slices.Concat([]string{"water", "date"}, market.AllergenIDs())
	for _, i := range f.used() {
		out = append(append(out, i.ID), texts(i.Name)...)
		inners(i.MadeOf, func(in shop.Inner) { out = append(out, texts(in.Name)...) })
	}
	for _, v := range f.through() {
		out = append(append(out, v.ID), texts(v.Name)...)
	}
	return slices.Concat(out, f.Shop.Known())
}

// inners calls do for each inner ingredient, however deep.
func inners(all []shop.Inner, do func(shop.Inner)) {
	for _, i := range all {
		do(i)
		inners(i.MadeOf, do)
	}
}

// decisions are those about one thing.
func (f *finder) decisions(about ...string) []declare.Decision {
	var out []declare.Decision
	for _, d := range f.Facts.Decisions {
		if slices.Contains(about, d.Part) {
			out = append(out, d)
		}
	}
	return out
}

// decided puts the decisions about one thing behind r, but for those that are
// told with an allergen.
func (f *finder) decided(r *Reason, about ...string) {
	for _, d := range f.decisions(about...) {
		if d.Rule != declare.Sulphites && d.Rule != declare.MayContain {
			r.decided(d)
		}
	}
}

// amount is a mass for the pieces of scale.Basis as one for a piece, and for
// 100 g of the finished food.
func (f *finder) amount(m unit.Mass) Amount { return Amount{each(m), per100(m, f.Facts.Finished)} }

// each is a mass for the pieces of scale.Basis, in one of them.
func each(m unit.Mass) unit.Mass { return m / unit.Mass(scale.Basis) }

func per100(m, finished unit.Mass) unit.Mass { return (100 * unit.Gram).Mul(m, finished) }

// elsewhere answers for what the shop knows but this product does not use.
func (f *finder) elsewhere() {
	for _, id := range f.Shop.IngredientIDs {
		if i := f.Shop.Ingredients[id]; !slices.Contains(f.used(), i) && f.fits(append(texts(i.Name), id)...) == wholly {
			f.usedBy(f.topic("unused-ingredient", Values{"ingredient": declare.ID(id)}), func(c scale.Contribution) bool { return c.Ingredient == i })
		}
	}
	for _, id := range f.Shop.FormulaIDs {
		if v := f.Shop.Formulas[id]; !slices.Contains(f.through(), v) && f.fits(append(texts(v.Name), id)...) == wholly {
			f.usedBy(f.topic("unused-formula", Values{"formula": declare.ID(id)}), func(c scale.Contribution) bool { return slices.Contains(c.Via, v) })
		}
	}
}

// usedBy names the products that something does go into.
func (f *finder) usedBy(r *Reason, holds func(scale.Contribution) bool) {
	var in declare.IDs
	for _, id := range f.Shop.ProductIDs {
		if slices.ContainsFunc(scale.Expand(f.Shop, f.Shop.Products[id]), holds) {
			in = append(in, declare.ID(id))
		}
	}
	if in == nil {
		r.add("used-nowhere", nil)
		return
	}
	r.add("used-by", Values{"products": in})
}
