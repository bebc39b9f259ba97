package words

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
)

// Spelled gives a better hint where the id of an allergen is written in another
// language than the ids are (lait means milk), and reports the languages of
// cards that have no words for cards. The shop cannot know either.
func Spelled(sh *shop.Shop, found *diag.List) {
	known := market.AllergenIDs()
	look := func(ids []shop.Text) {
		for _, t := range ids {
			if slices.Contains(known, t.V) {
				continue
			}
			if id, lang := meantBy(t.V); id != "" {
				found.Rehint(t.Pos, "allergen", fmt.Sprintf("the id of %s (%s) is %s; ids are the same in every language", t.V, lang, id))
			}
		}
	}
	carded(sh.Profile.CardLanguages, found)
	look(sh.Profile.CrossContact)
	for _, id := range sh.IngredientIDs {
		i := sh.Ingredients[id]
		look(i.Contains)
		look(i.MayContain)
		eachInner(i.MadeOf, func(in shop.Inner) { look(in.Contains) })
	}
}

// carded reports languages without words for cards.
func carded(langs []shop.Text, found *diag.List) {
	for _, t := range langs {
		if l, ok := Get(t.V); ok && !l.Has("card") {
			found.Errorf(t.Pos, "language", "cards are made in "+strings.Join(withCards(), ", "), "there are no words for cards in %s (%s) yet", l.Name(), t.V)
		}
	}
}

// withCards lists the languages that have words for cards. It reads them all.
func withCards() (codes []string) {
	for _, code := range Codes() {
		if l, ok := Get(code); ok && l.Has("card") {
			codes = append(codes, code)
		}
	}
	return codes
}

func eachInner(all []shop.Inner, do func(shop.Inner)) {
	for _, in := range all {
		do(in)
		eachInner(in.MadeOf, do)
	}
}

// meantBy finds the allergen that a word of the law names in some language, and
// what that language calls itself.
func meantBy(word string) (id, lang string) {
	for _, code := range Codes() {
		l, ok := Get(code)
		if !ok {
			continue
		}
		for _, id := range market.AllergenIDs() {
			if e, ok := l.entries["allergen."+strings.ReplaceAll(id, " ", "-")]; ok && strings.EqualFold(e.text, word) {
				return id, l.Name()
			}
		}
	}
	return "", ""
}
