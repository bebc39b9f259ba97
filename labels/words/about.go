package words

import (
	"slices"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
)

// About is the kitchen's own line about a food, empty where it has none. It is
// typed by hand, so it may not name an allergen that the food does not contain,
// be it to praise the food or to call it free of it: that is found, and a line
// that is not there in this language, whatever the line is printed on.
func About(f *declare.Facts, l *Lang, found *diag.List) Said {
	line, ok := shop.In(f.Product.About, l.Code())
	if !ok {
		if about := f.Product.About; len(about) > 0 {
			found.Errorf(about[0].Key.Pos, "translation", "add a line that begins with "+l.Code()+":", "the line about %s has no text in %s", f.Product.ID, l.Name())
		}
		return Said{}
	}
	for _, a := range f.Market.Allergens.Table {
		if _, missing := l.Emphasis(line.V, []string{a.ID}); len(missing) == 0 && !slices.Contains(f.Contains, a.ID) {
			found.Errorf(line.Pos, "about", "take the word out; what a food contains is computed", "this line names %s, which %s does not contain", a.ID, f.Product.ID)
		}
	}
	return Said{Role: role.Note, Text: line.V, Src: line.Pos}
}
