package reserved_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/market"
	"chablon/labels/reserved"
)

func ExampleFind() {
	for _, h := range reserved.Find("en", "Milk chocolate biscuit with honey") {
		fmt.Println(h.Key, h.Is)
	}
	// Output:
	// milk-chocolate false
	// honey false
}

// What a food is by its name, and what it only speaks of. The names of the law
// are those of Directives 2000/36/EC and 2001/113/EC and of their German
// transpositions; the exceptions those of Decision 2010/791/EU, from memory.
func TestFind(t *testing.T) {
	for _, c := range []struct{ lang, name, want string }{
		{"en", "Milk chocolate", "milk-chocolate!"},
		{"en", "Orange milk chocolate with nuts", "citrus milk-chocolate!"},
		{"en", "Milk chocolate bar", "milk-chocolate!"},
		{"en", "Chocolates", "praline!"},
		{"en", "Chocolate cake", "chocolate"},
		{"en", "Cake with milk chocolate", "milk-chocolate"},
		{"en", "Milk-free cake", ""},
		{"en", "Biscuit without butter", ""},
		{"en", "Chocolate flavoured sponge", ""},
		{"en", "Peanut butter cups", ""},
		{"en", "Cocoa butter", ""},
		{"en", "Butternut tart", ""},
		{"en", "Butter beans", ""},
		{"en", "Custard cream", ""},
		{"en", "Easter egg", ""},
		{"en", "Butter shortbread", "butter"},
		{"en", "Extra jam", "extra-jam!"},
		{"en", "Strawberry jam", "fruit jam!"},
		{"en", "Jam tart", "jam"},
		{"fr", "Chocolat au lait aux noisettes", "milk-chocolate!"},
		{"fr", "Tablette de chocolat blanc", "white-chocolate!"},
		{"fr", "Mousse au chocolat", "chocolate"},
		{"fr", "Gâteau sans lait", ""},
		{"fr", "Lait de coco", ""},
		{"fr", "Beurre de cacao", ""},
		{"fr", "Confiture extra de fraises", "extra-jam! fruit"},
		{"fr", "Gâteau goût vanille", ""},
		{"fr", "Praliné aux noisettes", ""},
		{"fr", "Bonbons de chocolat", "praline!"},
		{"de", "Vollmilchschokolade mit Nüssen", "milk-chocolate!"},
		{"de", "Weiße Schokolade", "white-chocolate!"},
		{"de", "Weißer Schokoladenkuchen", "white-chocolate"},
		{"de", "Nussschokolade", "chocolate!"},
		{"de", "Schokoladenkuchen", "chocolate"},
		{"de", "Butterkuchen", "butter"},
		{"de", "Kakaobutter", ""},
		{"de", "Erdnussbutter", ""},
		{"de", "Kokosmilch", ""},
		{"de", "Eiscreme", "ice-cream!"},
		{"de", "Reis", ""},
		{"de", "Osterei", ""},
		{"de", "Eierkuchen", "egg"},
		{"de", "Kuchen ohne Milch", ""},
		{"de", "Honigkuchen", "honey"},
		{"de", "Honigmelone", ""},
		{"de", "Erdbeerkonfitüre", "jam!"},
		{"xx", "Milk chocolate", ""},
	} {
		var got []string
		for _, h := range reserved.Find(c.lang, c.name) {
			key := h.Key
			if h.Is {
				key += "!"
			}
			got = append(got, key)
		}
		slices.Sort(got)
		want := strings.Fields(c.want)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s %q: %v, want %v", c.lang, c.name, got, want)
		}
	}
}

// Each name that a market has bounds for, or holds to its promise, can be found
// in some language; otherwise the row would never be asked.
func TestEveryNameHasWords(t *testing.T) {
	have := map[string]bool{}
	for _, code := range reserved.Languages() {
		for _, k := range reserved.Keys(code) {
			have[k] = true
		}
	}
	for _, m := range market.All() {
		for _, c := range m.Names {
			if !have[c.Food] {
				t.Errorf("%s: no language has words for %q", m.Code, c.Food)
			}
		}
		for _, p := range m.Promises {
			if !have[p.Word] {
				t.Errorf("%s: no language has words for %q", m.Code, p.Word)
			}
		}
	}
}
