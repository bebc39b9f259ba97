package print

import (
	"slices"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// WhyRequest asks how a word came onto a label, or why it did not.
type WhyRequest struct {
	ID, Word string
	Pack     string `flag:"pack" help:"id of the pack; the product's first when left out" of:"pack"`
	Market   string `flag:"market" help:"code of the market; the shop's first when left out" of:"market"`
}

// why looks for the reasons behind one word.
type why struct {
	*Declaration
	*sheet
	word  string // as it is compared
	asked string // as it was asked
	parts []scale.Contribution
	foods []food
	found bool // something has been told already
}

// food is the product, or one component of an assortment: what has a list of
// its own.
type food struct {
	product  *shop.Product
	parts    []scale.Contribution
	finished unit.Mass
}

// Why answers in plain text: from the label back through product, formula and
// ingredient to the supplier's specification, with the masses on the way. The
// word may be a name in any language, an id, an allergen, "water", a
// percentage, a nutrient or "date".
func (p *Press) Why(r WhyRequest) (string, error) {
	d, err := p.Declare(DeclareRequest{ID: r.ID, Pack: r.Pack, Market: r.Market})
	if err != nil || p.Found.Errors() > 0 {
		return "", err
	}
	w := &why{Declaration: d, sheet: &sheet{}, word: folded(r.Word), asked: r.Word, parts: scale.Expand(p.Shop, d.Product)}
	w.foods = foodsOf(p.Shop, d.Product, w.parts)
	w.line("%s: a finished piece weighs %s; other masses are those that go in", d.Name(), short(d.Facts.Finished/unit.Mass(scale.Basis)))
	for _, look := range looks() {
		w.found = look(w) || w.found
	}
	if !w.found {
		return "", w.unheard()
	}
	return w.String(), nil
}

// unheard refuses a word that nothing behind the label answers to.
func (w *why) unheard() error {
	hint := "ask for the name of an ingredient or allergen, an id, water, a percentage, a nutrient or date"
	if near := diag.Nearest(w.asked, w.vocabulary()); near != "" {
		hint = "did you mean " + near + "?"
	}
	return usage.Errorf(hint, "nothing behind the label of %s is called %q", w.Product.ID, w.asked)
}

// looks lists what a word may mean, in the order of the answer.
func looks() []func(*why) bool {
	return []func(*why) bool{(*why).percentage, (*why).allergens, (*why).water, (*why).nutrients, (*why).date,
		(*why).ingredients, (*why).formulas, (*why).elsewhere}
}

// foodsOf are the foods that have lists of their own.
func foodsOf(sh *shop.Shop, p *shop.Product, parts []scale.Contribution) []food {
	var out []food
	for _, c := range parts {
		if !slices.ContainsFunc(out, func(f food) bool { return f.product == c.Product }) {
			out = append(out, food{c.Product, scale.Expand(sh, c.Product), scale.FinishedMass(sh, c.Product)})
		}
	}
	return out
}

// folded is a word as it is compared: small letters, plain spaces.
func folded(s string) string {
	return strings.ToLower(strings.Join(strings.Fields(s), " "))
}

// singular forgives the s of an English or French plural.
func singular(s string) string { return strings.TrimSuffix(s, "s") }

// How well a name fits the word.
const (
	not = iota
	within
	wholly
)

// fits compares the word with names; the best one counts.
func (w *why) fits(names ...string) int {
	best := not
	for _, n := range names {
		n = folded(n)
		switch {
		case n == "":
		case singular(n) == singular(w.word), strings.ReplaceAll(w.word, " ", "-") == n:
			return wholly
		case len(w.word) > 2 && strings.Contains(n, singular(w.word)):
			best = within
		}
	}
	return best
}

// head begins a block of the answer.
func (w *why) head(format string, args ...any) {
	w.line("")
	w.line(format, args...)
}

// texts are the words in all their languages.
func texts(all ...shop.Words) []string {
	var out []string
	for _, w := range all {
		for _, e := range w {
			out = append(out, e.V.V)
		}
	}
	return out
}

// used are the ingredients of the product, each once, in the order in which
// they come in.
func (w *why) used() []*shop.Ingredient {
	var out []*shop.Ingredient
	for _, c := range w.parts {
		if !slices.Contains(out, c.Ingredient) {
			out = append(out, c.Ingredient)
		}
	}
	return out
}

// through are the formulas of the product, each once.
func (w *why) through() []*shop.Formula {
	var out []*shop.Formula
	for _, c := range w.parts {
		for _, f := range c.Via {
			if !slices.Contains(out, f) {
				out = append(out, f)
			}
		}
	}
	return out
}

// vocabulary is all that would have been found, for a hint.
func (w *why) vocabulary() []string {
	out := slices.Concat([]string{"water", "date"}, market.AllergenIDs())
	for _, i := range w.used() {
		out = append(append(out, i.ID), texts(i.Name)...)
		inners(i.MadeOf, func(in shop.Inner) { out = append(out, texts(in.Name)...) })
	}
	for _, f := range w.through() {
		out = append(append(out, f.ID), texts(f.Name)...)
	}
	return slices.Concat(out, w.press.Shop.Known())
}

// inners calls do for each inner ingredient, however deep.
func inners(all []shop.Inner, do func(shop.Inner)) {
	for _, i := range all {
		do(i)
		inners(i.MadeOf, do)
	}
}

// decided are the decisions about one thing.
func (w *why) decided(about ...string) []declare.Decision {
	var out []declare.Decision
	for _, d := range w.Facts.Decisions {
		if slices.Contains(about, d.Part) {
			out = append(out, d)
		}
	}
	return out
}

// reasons writes the decisions about one thing.
func (w *why) reasons(about ...string) {
	for _, d := range w.decided(about...) {
		if d.Rule != declare.Sulphites && d.Rule != declare.MayContain { // told with the allergen
			w.item("  ", reason(d), w.at(d.Pos))
		}
	}
}

// at is a place as it can be opened from where the command was given.
func (w *why) at(p diag.Pos) string {
	if !p.Known() {
		return ""
	}
	if w.press.Name != "" {
		p.File = w.press.Name + "/" + p.File
	}
	return p.String()
}

// elsewhere answers for what the shop knows but this product does not use.
func (w *why) elsewhere() bool {
	found := false
	sh := w.press.Shop
	for _, id := range sh.IngredientIDs {
		if i := sh.Ingredients[id]; !slices.Contains(w.used(), i) && w.fits(append(texts(i.Name), id)...) == wholly {
			w.head("the ingredient %s: not in this product; no line of it or of its formulas uses it", id)
			w.usedBy(func(c scale.Contribution) bool { return c.Ingredient == i })
			found = true
		}
	}
	for _, id := range sh.FormulaIDs {
		if f := sh.Formulas[id]; !slices.Contains(w.through(), f) && w.fits(append(texts(f.Name), id)...) == wholly {
			w.head("the formula %s: not in this product", id)
			w.usedBy(func(c scale.Contribution) bool { return slices.Contains(c.Via, f) })
			found = true
		}
	}
	return found
}

// usedBy names the products that something does go into.
func (w *why) usedBy(holds func(scale.Contribution) bool) {
	var in []string
	for _, id := range w.press.Shop.ProductIDs {
		if slices.ContainsFunc(scale.Expand(w.press.Shop, w.press.Shop.Products[id]), holds) {
			in = append(in, id)
		}
	}
	if in == nil {
		w.item("  ", "no product uses it")
		return
	}
	w.item("  ", "it goes into "+strings.Join(in, ", "))
}
