package card

import (
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/shop"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
)

// "No allergen" is said only where each ingredient has a specification and no
// name leaves it open; otherwise the card says of what it is not known.
func TestNoAllergen(t *testing.T) {
	const none = "no allergen on this card"
	for _, c := range []struct {
		name, id, want string
		change         func(*shop.Shop)
	}{
		{"all specified", "pear-syrup", none, func(sh *shop.Shop) { sh.Ingredients["lemon-juice"].Contains = nil }},
		{"one is not", "pear-syrup", "allergens not known of: vanilla", func(sh *shop.Shop) { sh.Ingredients["vanilla"].Spec = nil }},
		{"tap water needs none", "pear-syrup", none, func(sh *shop.Shop) { sh.Ingredients["lemon-juice"].Contains = nil; sh.Ingredients["water"].Spec = nil }},
		{"a name leaves it open", "pear-syrup", "allergens not known of: gelatine", func(sh *shop.Shop) { sh.Ingredients["vanilla"].Name[0].V.V = "gelatine" }},
		{"beside those that are known", "choux-paste", "allergens not known of: milk", func(sh *shop.Shop) { sh.Ingredients["milk"].Spec = nil }},
	} {
		sh := layouttest.Shop(t)
		c.change(sh)
		all := strings.ReplaceAll(readAll(composed(t, cardOf(t, sh, c.id, "card-a4", "en"))), compose.NoBreak, " ")
		if !strings.Contains(all, layouttest.Bare(c.want)) {
			t.Errorf("%s: %q is not on the card", c.name, c.want)
		}
		if c.want != none && strings.Contains(all, layouttest.Bare(none)) {
			t.Errorf("%s: %q is on the card", c.name, none)
		}
	}
}

// What the law excepts (Reg. (EU) 1169/2011 Annex II 1(a)) keeps no card from
// being printed, and does not stand on that of a product.
func TestLawfulException(t *testing.T) {
	sh := layouttest.Shop(t)
	syrup := sh.Ingredients["glucose-syrup"]
	syrup.Contains = []shop.Text{{V: "wheat", Pos: syrup.Pos}}
	syrup.Exception = shop.Text{V: "wheat-glucose-syrup", Pos: syrup.Pos}
	p := sh.Products["lemon-thyme-marshmallow"]
	c := cardOf(t, sh, p.ID, "card-a4", "en")
	c.Contains = declare.OnCard(sh, p)
	if all := readAll(composed(t, c)); strings.Contains(all, "wheat") {
		t.Error("wheat stands on the card")
	}
	syrup.Exception = shop.Text{}
	c.Contains = declare.OnCard(sh, p)
	if all := readAll(composed(t, c)); !strings.Contains(all, "wheat") {
		t.Error("wheat does not stand on the card")
	}
}
