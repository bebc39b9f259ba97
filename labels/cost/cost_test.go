package cost

import (
	"fmt"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

// What a box of two tartlets costs, when 48 are made at once.
func Example() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	c, err := Of(sh, sh.Products["pear-hazelnut-tartlet"], 48)
	fmt.Println(err, c.Currency, len(c.Goods) > 10, c.Together() == c.Ingredients()+c.Labour)
	fmt.Println(Amount(1_499_999).Minor(), (3*One).Share(2, 48).Minor())
	// Output:
	// <nil> EUR true true
	// 1 0
}

// By hand: 1.5 kg of what costs 10.00 EUR in packs of 5 kg costs 3.00 EUR; loose,
// at 10.00 EUR a kilogram, 15.00 EUR; tap water nothing.
func TestPrice(t *testing.T) {
	c := &Cost{Currency: "EUR"}
	in := &shop.Ingredient{Supplier: shop.Text{V: "mill", Pos: diag.Pos{File: "a.yaml", Line: 1, Col: 1}}}
	in.Price.V, in.Price.Pos = unit.Money{Minor: 1000, Currency: "EUR"}, diag.Pos{File: "a.yaml", Line: 1, Col: 1}
	if a, ok := c.price(in, 1500*unit.Gram); a != 1500*One || !ok {
		t.Errorf("loose: %d", a)
	}
	in.OrderPack.V = 5 * unit.Kilogram
	if a, ok := c.price(in, 1500*unit.Gram); a != 300*One || !ok {
		t.Errorf("in packs: %d", a)
	}
	in.Price.V.Currency = "GBP"
	if _, ok := c.price(in, unit.Gram); ok {
		t.Error("pounds are added to euros")
	}
	tap := &shop.Ingredient{}
	tap.AddedWater.V = true
	if a, ok := c.price(tap, unit.Kilogram); a != 0 || !ok {
		t.Error("tap water costs something")
	}
}
