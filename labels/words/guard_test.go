package words_test

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/words"
)

// A name names an allergen of Reg. (EU) 1169/2011 Annex II by the word of the
// law: then the specification names it too, here, above or inside.
func TestNamed(t *testing.T) {
	inner := func(name string, contains ...string) shop.Inner {
		return shop.Inner{Name: shop.Words{{Key: at("en"), V: at(name)}}, Contains: texts(contains)}
	}
	for _, c := range []struct {
		name, lang, market string
		contains           []string
		madeOf             []shop.Inner
		want               int
	}{
		{"milk powder", "en", "EU", nil, nil, 1},
		{"milk powder", "en", "EU", []string{"milk"}, nil, 0},
		{"milk and wheat", "en", "EU", []string{"milk"}, nil, 1},
		{"coconut milk", "en", "EU", nil, nil, 0},
		{"Weizenmehl", "de", "EU", nil, nil, 1},
		{"sulphite-free sugar", "en", "EU", nil, nil, 0},
		{"celery salt", "en", "EU", nil, nil, 1},
		{"celery salt", "en", "US", nil, nil, 0}, // 21 U.S.C. 321(qq) does not list it
		{"filling", "en", "EU", nil, []shop.Inner{inner("egg white")}, 1},
		{"filling", "en", "EU", []string{"eggs"}, []shop.Inner{inner("egg white")}, 0},
		{"egg filling", "en", "EU", nil, []shop.Inner{inner("white", "eggs")}, 0},
		{"filling", "en", "EU", nil, []shop.Inner{inner("base", "milk"), inner("milk powder")}, 1},
	} {
		i := &shop.Ingredient{ID: "it", Name: shop.Words{{Key: at(c.lang), V: at(c.name)}}, Contains: texts(c.contains), MadeOf: c.madeOf}
		sh := &shop.Shop{Profile: shop.Profile{Markets: texts([]string{c.market})}, Ingredients: map[string]*shop.Ingredient{"it": i}, IngredientIDs: []string{"it"}}
		var found diag.List
		words.Named(sh, &found)
		if found.Len() != c.want || found.Errors() != c.want {
			t.Errorf("%s in %s: %d findings, want %d: %v", c.name, c.market, found.Len(), c.want, found.All())
		}
	}
}

func texts(ids []string) []shop.Text {
	var out []shop.Text
	for _, id := range ids {
		out = append(out, at(id))
	}
	return out
}
