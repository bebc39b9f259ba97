package declare

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// The net below the rules: should a rule ever lose an allergen, nothing may be
// printed. No input is known that gets this far.
func TestLostAllergenIsFound(t *testing.T) {
	eu, _ := market.Get("eu")
	var found diag.List
	p := &shop.Product{ID: "cake", Pos: diag.Pos{File: "cake.yaml", Line: 1, Col: 1}}
	butter := &shop.Ingredient{ID: "butter", Contains: []shop.Text{{V: "milk", Pos: p.Pos}}}
	w := &work{product: p, market: eu, facts: &Facts{Product: p}, found: &found}
	f := &food{work: w, product: p, finished: unit.Kilogram, parts: []scale.Contribution{{Ingredient: butter, Mass: unit.Gram}}}
	f.nothingLost(List{Parts: []Part{{Name: nil, Allergens: []string{"milk"}, Show: []string{"milk"}}}})
	if found.Len() != 0 {
		t.Errorf("milk shows, but: %v", found.All())
	}
	f.nothingLost(List{Parts: []Part{{Name: nil, Allergens: []string{"milk"}}}})
	if found.Errors() != 1 || found.All()[0].Rule != "allergen-lost" {
		t.Errorf("milk shows nowhere, but: %v", found.All())
	}
}
