package declare

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/shop"
)

// What is a sugars-based ingredient: examples of the agency's list of ingredients
// and allergens, annex 1 (A and B), and what is none: components of a compound, an
// additive, food that only tastes of it.
func TestSugarsBased(t *testing.T) {
	for name, want := range map[string]bool{
		"sugar": true, "cane sugar": true, "caster sugar": true, "icing sugar": true, "brown sugar": true, "coconut sugar": true, "invert sugar": true,
		"honey": true, "glucose syrup": true, "maple syrup": true, "agave syrup": true, "golden syrup": true, "molasses": true,
		"lactose": true, "maltose": true, "dextrose": true, "sucrose": true, "fructose": true, "galactose": true, "glucose-fructose": true,
		"sugar-coated almonds": false, "candied peel": false, "honey flavour": false, "sugar beet fibre": false, "milk": false,
		"lactose-free milk": false, "ginger in syrup": false, "dark chocolate": false, "apple purée": false,
	} {
		f := &food{work: &work{shop: &shop.Shop{}}}
		in := thing{ids: []string{"x"}, name: shop.Words{read.Entry[shop.Text]{Key: shop.Text{V: "en"}, V: shop.Text{V: name, Pos: diag.Pos{}}}}}
		if got := f.sweetens(in); got != want {
			t.Errorf("%q is a sugars-based ingredient: %t, want %t", name, got, want)
		}
		if in.class = "sweetener"; f.sweetens(in) {
			t.Errorf("%q is an additive, and stands among sugars", name)
		}
	}
}
