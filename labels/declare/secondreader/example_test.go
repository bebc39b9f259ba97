package secondreader_test

import (
	"fmt"
	"math/big"
	"testing"

	"chablon/labels/declare/secondreader"
)

// Dough of 700 g of flour and 300 g of water that bakes to 900 g: 200 g of the
// water are left.
func ExampleFood_List() {
	bread := secondreader.Food{Lines: []secondreader.Line{{Name: "water", Mass: 300_000, Water: true}, {Name: "flour", Mass: 700_000}}, Lost: 100_000}
	for _, e := range bread.List(secondreader.Union) {
		fmt.Println(e.Name, e.Weight.FloatString(0))
	}
	// Output:
	// flour 700000
	// water 200000
}

// The second reader is right itself where somebody published the answer: FDA,
// Food Labeling Guide, question 5.34 (47 calories are 45) and Appendix H; the
// guidance of the Commission of December 2012, section 6; United Kingdom QUID
// guidance (butter biscuits, from memory) and the leaflet "How to provide QUID
// declaration" (sultanas).
func TestPublished(t *testing.T) {
	rat := func(n, d int64) *big.Rat { return big.NewRat(n, d) }
	for _, c := range []struct{ what, got, want string }{
		{"47 calories", secondreader.AmericanFigure("energy-kcal", rat(47, 1)), "45"},
		{"4.9 calories", secondreader.AmericanFigure("energy-kcal", rat(49, 10)), "0"},
		{"50 calories", secondreader.AmericanFigure("energy-kcal", rat(50, 1)), "50"},
		{"0.49 g fat", secondreader.AmericanFigure("fat", rat(49, 100)), "0"},
		{"140 mg sodium", secondreader.AmericanFigure("sodium", rat(140, 1)), "140"},
		{"0.9 g sugars", secondreader.AmericanFigure("sugars", rat(9, 10)), "< 1"},
		{"10.4 g fat for 100 g", secondreader.UnionGrams(rat(10_400, 1), false), "10"},
		{"9.94 g fat for 100 g", secondreader.UnionGrams(rat(9_940, 1), false), "9.9"},
		{"0.5 g fat for 100 g", secondreader.UnionGrams(rat(500, 1), false), "< 0.5"},
		{"0.1 g saturates for 100 g", secondreader.UnionGrams(rat(100, 1), true), "< 0.1"},
		{"0.0125 g salt for 100 g", secondreader.UnionSalt(rat(25, 2)), "< 0.01"},
		{"1.04 g salt for 100 g", secondreader.UnionSalt(rat(1_040, 1)), "1.0"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, published %s", c.what, c.got, c.want)
		}
	}
	biscuits := secondreader.Food{Lines: []secondreader.Line{{Name: "flour", Mass: 100}, {Name: "sugar", Mass: 35}, {Name: "butter", Mass: 50}, {Name: "eggs", Mass: 10}}, Lost: 26}
	if q := biscuits.Quantities([]string{"butter"})["butter"]; q.Share.Cmp(rat(50, 169)) != 0 {
		t.Errorf("butter: %s", q.Share)
	}
	dough := secondreader.Food{Lines: []secondreader.Line{{Name: "dough", Mass: 800}, {Name: "sultanas", Mass: 200}}, Lost: 200}
	if q := dough.Quantities([]string{"sultanas"})["sultanas"]; q.Share.Cmp(rat(1, 4)) != 0 || q.Grams {
		t.Errorf("sultanas: %s", q.Share)
	}
}
