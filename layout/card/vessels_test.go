package card

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
)

// TestBowls: 1385.6 g of dough in bowls of at most 1 kg are two of 692.8 g; of
// 600.33 g of flour, 300 g go into each (to the gram, by arithmetic).
func TestBowls(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en+fr")
	one := readAll(composed(t, c))
	bowl := c.Shop.Formulas["sweet-pastry"].Bowl
	bowl.Least.V, bowl.Most.V = 500*unit.Gram, unit.Kilogram
	all := readAll(composed(t, c))
	for _, s := range []string{"2 × 300 g", "2 × 180 g", "2 × 2.4 g", "bowls", "2 × mixer bowl, 10 l · cuve de 10 l"} {
		layouttest.Has(t, all, s)
	}
	if strings.Contains(one, layouttest.Bare("2 × 300 g")) {
		t.Error("one bowl is said to be two")
	}
	bowl.Least.V = 800 * unit.Gram
	layouttest.Has(t, readAll(composed(t, c)), "cuve de 10 l: 693 g < 800 g")
}

// TestBakes: four trays of twelve in an oven that takes three are two bakes of
// two, as equal as can be.
func TestBakes(t *testing.T) {
	for takes, want := range map[unit.Count]string{3: "2 × (2 × tray of 12 rings)", 4: "", 1: "4 × (1 × tray of 12 rings)"} {
		c := cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en")
		c.Product.Tray.Oven.V = takes
		all := readAll(composed(t, c))
		layouttest.Has(t, all, want)
		if want == "" && strings.Contains(all, layouttest.Bare("× (")) {
			t.Error("an oven that takes all is filled more than once")
		}
	}
}

// TestHeight: where water boils at 98 °C, the syrup for 118 °C is cooked to
// 116 °C (one for one; Utah State University extension on cooking at altitude).
func TestHeight(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "marshmallow", "card-a4", "en+fr")
	word := CheckWord(c)
	c.Shop.Profile.Boils = diag.At[unit.Temp]{V: unit.Celsius(98), Pos: diag.Pos{File: "shop.yaml", Line: 1, Col: 1}}
	all := readAll(composed(t, c))
	for _, s := range []string{"116 °C", "at the height of this kitchen; at sea level 118 °C (244 °F)", "au niveau de la mer 118 °C (244 °F)"} {
		layouttest.Has(t, all, s)
	}
	if CheckWord(c) == word {
		t.Error("another temperature keeps the check word")
	}
}

// TestTwoHeats: what an oven is turned down to stands below what it is set to,
// on both scales (165 × 9/5 + 32 = 329).
func TestTwoHeats(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a4", "en+fr")
	all := readAll(composed(t, c))
	layouttest.Has(t, all, "180 °C 25 min, door shut · 25 min, porte fermée 356 °F 165 °C 13 min 329 °F")
	i := slices.IndexFunc(c.Product.Steps, func(s shop.Step) bool { return len(s.Phases) == 2 })
	if i < 0 || strings.Contains(c.Product.Steps[i].Do[0].V.V, "°") {
		t.Error("a temperature is typed into the words of the step")
	}
}
