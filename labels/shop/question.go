package shop

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/tradeword"
)

// Question is an allergen that the name of an ingredient, or of an inner one,
// speaks of by a trade word while its specification does not answer: butter
// that is not said to contain milk, praline of which nobody says which nut.
type Question struct {
	Pos   diag.Pos // of the first name that speaks of it
	Of    Words    // all names of what it is about
	Words []Spoken // the words that speak of it, one a language at most
	Any   []string // the allergens, of which at least one is meant; "nuts" is any nut
	Asks  bool     // the word leaves it open; otherwise it says so
	Inner bool     // it is about an inner ingredient
}

// Spoken is a trade word in a name, with its language.
type Spoken struct{ Word, Lang string }

// Questions lists what the names of an ingredient speak of, at any depth and in
// every language that they are written in, and its specification does not
// answer. A word that implies an allergen is answered by contains and by
// truly-free; one that leaves it open also by may-contain and by the inner
// ingredients, which have names of their own.
func (s *Shop) Questions(i *Ingredient) []Question {
	q := &asker{shop: s, ing: i}
	q.ask(i.Name, i.Contains, i.MadeOf, false)
	inners(i.MadeOf, func(in Inner) { q.ask(in.Name, in.Contains, in.MadeOf, true) })
	return q.open
}

// Unsure reports whether nobody knows all that is in an ingredient: it has no
// specification, or a name that it leaves open.
func (s *Shop) Unsure(i *Ingredient) bool { return !i.Specified() || len(s.Questions(i)) > 0 }

// asker gathers the open questions of one ingredient.
type asker struct {
	shop *Shop
	ing  *Ingredient
	open []Question
}

// ask looks at one thing: its names, what it contains, what it is made of.
func (q *asker) ask(names Words, contains []Text, madeOf []Inner, inner bool) {
	holds := slices.Clone(contains)
	inners(madeOf, func(in Inner) { holds = append(holds, in.Contains...) })
	from := len(q.open)
	for _, name := range names {
		lang, ok := tradeword.Get(name.Key.V)
		if !ok {
			continue
		}
		for _, f := range lang.Find(name.V.V) {
			if !q.answered(f, holds, len(madeOf) > 0) {
				q.add(Question{name.V.Pos, names, []Spoken{{f.Word, name.Key.V}}, f.Any, f.Asks, inner}, from)
			}
		}
	}
}

// add keeps a question; the same one in another language is the same question.
func (q *asker) add(x Question, from int) {
	for i := from; i < len(q.open); i++ {
		if o := &q.open[i]; o.Asks == x.Asks && slices.Equal(o.Any, x.Any) {
			if o.Words[len(o.Words)-1].Lang != x.Words[0].Lang {
				o.Words = append(o.Words, x.Words...)
			}
			return
		}
	}
	q.open = append(q.open, x)
}

// answered reports whether the specification answers what a word speaks of.
func (q *asker) answered(f tradeword.Finding, holds []Text, opened bool) bool {
	named := func(ids []Text) bool {
		return slices.ContainsFunc(f.Any, func(id string) bool { return Names(ids, id) })
	}
	if named(holds) || q.free(f.Any) {
		return true
	}
	return f.Asks && (opened || named(q.ing.MayContain) ||
		slices.Contains(f.Any, "sulphites") && q.ing.SO2.V > 0 ||
		f.Law != "" && q.excepted(f))
}

// free reports whether each of the allergens is said to be truly absent.
func (q *asker) free(ids []string) bool {
	return !slices.ContainsFunc(ids, func(id string) bool { _, ok := q.ing.TrulyFree.Get(id); return !ok })
}

// excepted reports whether every market of the shop has the exception that the
// word stands for.
func (q *asker) excepted(f tradeword.Finding) bool {
	return len(q.shop.Profile.Markets) > 0 && !slices.ContainsFunc(q.shop.Profile.Markets, func(code Text) bool {
		m, ok := market.Get(code.V)
		return !ok || !m.Allergens.Excepted(f.Any[0], f.Law)
	})
}

// Names reports whether a list of allergens names id; "nuts" is named by any
// nut.
func Names(ids []Text, id string) bool {
	return has(ids, id) || id == "nuts" && slices.ContainsFunc(market.Nuts(), func(nut string) bool { return has(ids, nut) })
}
