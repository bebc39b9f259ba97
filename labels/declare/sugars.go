package declare

import (
	"slices"
	"strings"

	"chablon/labels/shop"
)

// sugars puts the sugars-based ingredients of a list behind one word, in the
// place of their total mass, where the market wants that. Components inside a
// compound stay where they are. It is not for a food that is nothing else, nor
// for a single one that is called a sugar in all languages of the label (C.R.C.,
// c. 870, B.01.008.3).
func (f *food) sugars(in []thing) []thing {
	if f.market.List.Sugars.Act == "" {
		return in
	}
	var rest []thing
	group := thing{key: "sugars", group: "sugars", src: f.product.Pos}
	for _, t := range in {
		if !f.sweetens(t) {
			rest = append(rest, t)
			continue
		}
		group.mass, group.used = group.mass+t.mass, group.used+t.used
		group.contains = union(group.contains, t.contains)
		group.inner = append(group.inner, t)
	}
	if n := len(group.inner); n == 0 || len(rest) == 0 || n == 1 && f.calledSugar(group.inner[0].name) {
		return in
	}
	return append(rest, group)
}

// sweetens reports whether a thing is a sugars-based ingredient: a mono- or
// disaccharide, or another sweetening agent, such as honey or a syrup (B.01.001);
// by the flag sugar in a specification, or by its name. Additives and polyols are
// none.
func (f *food) sweetens(t thing) bool {
	if t.class != "" || t.alt != nil || t.group != "" {
		return false
	}
	flag := func(flag string) bool {
		return slices.ContainsFunc(t.ids, func(id string) bool {
			i := f.shop.Ingredients[id]
			return i != nil && !slices.Contains(t.opened, id) && flagged(flag)(i) > 0
		})
	}
	return !flag("polyol") && (flag("sugar") || isCalled(t.name, "sugar") || isCalled(t.name, "honey"))
}

// calledSugar reports whether a name holds "sugar" or "sucre", in whichever
// languages of the label have such a word.
func (f *food) calledSugar(name shop.Words) bool {
	for code, word := range map[string]string{"en": "sugar", "fr": "sucre"} {
		if n, ok := shop.In(name, code); ok && !strings.Contains(strings.ToLower(n.V), word) {
			return false
		}
	}
	return true
}
