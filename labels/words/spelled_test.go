package words_test

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/words"
)

// The words of Annex II in the language versions of Reg. (EU) 1169/2011 lead to
// the id that is written in the files.
func TestSpelled(t *testing.T) {
	for word, id := range map[string]string{"lait": "milk", "Eier": "eggs", "μαλάκια": "molluscs", "nocciole": "hazelnuts", "frumpse": ""} {
		where := shop.Text{V: word, Pos: diag.Pos{File: "ingredients/it.yaml", Line: 3, Col: 12}}
		i := &shop.Ingredient{MadeOf: []shop.Inner{{MadeOf: []shop.Inner{{Contains: []shop.Text{where}}}}}}
		var found diag.List
		found.Errorf(where.Pos, "allergen", "the ids are", "%q is not an allergen", word)
		words.Spelled(&shop.Shop{Ingredients: map[string]*shop.Ingredient{"it": i}, IngredientIDs: []string{"it"}}, &found)
		all := found.All()
		if len(all) != 1 || id != "" && !strings.Contains(all[0].Hint, "is "+id+";") || id == "" && all[0].Hint != "the ids are" {
			t.Errorf("%s: %v, want a hint at %q", word, all, id)
		}
	}
}

// A language without words for cards is told where it stands.
func TestCardLanguages(t *testing.T) {
	var found diag.List
	words.Spelled(&shop.Shop{Profile: shop.Profile{CardLanguages: texts([]string{"sv", "fr"})}}, &found)
	if all := found.All(); len(all) != 1 || all[0].Rule != "language" || !strings.Contains(all[0].Hint, "fr") {
		t.Errorf("cards in Swedish and French: %v", all)
	}
}
