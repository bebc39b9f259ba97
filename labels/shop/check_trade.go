package shop

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/market"
)

// tradeWords: a name that speaks of an allergen by a trade word has it under
// contains, at whatever depth it stands. Where the word leaves it open, the
// specification answers.
func (c *checker) tradeWords() {
	c.ingredients(func(i *Ingredient) {
		if !c.whole(i.Pos) || c.unsound[i.Pos.File] {
			return
		}
		for _, q := range c.Questions(i) {
			c.question(q)
		}
	})
}

func (c *checker) question(q Question) {
	what, any := q.said(), either(q.Any)
	where := "contains"
	if q.Inner {
		where = "contains of this inner ingredient"
	}
	if q.Asks {
		c.caution(q.Pos, "trade-word", "ask the supplier, then write it under contains, under may-contain, or under truly-free with the reason",
			"the name %s leaves open whether it holds %s", what, any)
		return
	}
	hint := "add " + any + " to " + where
	if slices.Contains(q.Any, "nuts") {
		hint = "name the nut under " + where + ", such as hazelnuts"
	}
	c.wrong(q.Pos, "trade-word", hint+"; if the specification says that there is none in it, write truly-free: {"+q.Any[0]+": the reason}",
		"the name %s speaks of %s, but contains does not name it", what, any)
}

// said quotes the words with their languages.
func (q Question) said() string {
	var out []string
	for _, w := range q.Words {
		out = append(out, fmt.Sprintf("%q (%s)", w.Word, w.Lang))
	}
	return strings.Join(out, ", ")
}

func either(ids []string) string {
	if n := len(ids) - 1; n > 0 {
		return strings.Join(ids[:n], ", ") + " or " + ids[n]
	}
	return ids[0]
}

// trulyFree: what is said to be truly absent is an allergen, is not
// contained or feared, and answers something.
func (c *checker) trulyFree() {
	c.ingredients(func(i *Ingredient) {
		asked := (&Shop{Profile: c.Profile}).Questions(i.without())
		for _, f := range i.TrulyFree {
			id := f.Key.V
			spoken := slices.ContainsFunc(asked, func(q Question) bool { return slices.Contains(q.Any, id) })
			switch {
			case id != "nuts" && !slices.Contains(market.AllergenIDs(), id):
				c.wrong(f.Key.Pos, "truly-free", allergenHint(id, market.AllergenIDs()), "%q is not an allergen that is declared", id)
			case Names(i.everything(), id):
				c.wrong(f.Key.Pos, "truly-free", "take one of the two out", "%s is said to be truly free of %s, but also to hold it, or that it may", i.ID, id)
			case !spoken && c.whole(i.Pos):
				c.caution(f.Key.Pos, "truly-free", "take it out", "no name of %s speaks of %s", i.ID, id)
			}
		}
	})
}

// without is the ingredient with nothing said to be truly absent.
func (i *Ingredient) without() *Ingredient {
	j := *i
	j.TrulyFree = nil
	return &j
}

// everything is all that an ingredient contains, at any depth, or may contain.
func (i *Ingredient) everything() []Text {
	all := slices.Concat(i.Contains, i.MayContain)
	inners(i.MadeOf, func(in Inner) { all = append(all, in.Contains...) })
	return all
}
