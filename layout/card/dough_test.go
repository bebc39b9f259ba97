package card

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
)

// TestDoughWater: a dough of 75 °F in a mixer that warms it by 8 °F wants water
// at 217 °F less room less flour (3 × 75 − 8; material of the San Francisco
// Baking Institute, whose room and flour of 65 °F leave 87 °F), which is 67 °C
// less the two in °C. By hand: 24 °C and 6 K are 66 °C, in a room of 20 °C 26 °C;
// with a preferment 90 °C and 30 °C; 20 °C and 14 K are 46 °C and 6 °C, for which
// 14 of 100 parts of the water are ice from a tap of 20 °C (14 K ÷ (20 + 80)).
func TestDoughWater(t *testing.T) {
	for _, c := range []struct {
		wanted     unit.Temp
		friction   unit.TempDiff
		preferment string
		want       []string
	}{
		{unit.Fahrenheit(75), 8 * unit.DegF, "", []string{"67 °C (217 °F) less room less flour"}},
		{unit.Celsius(24), 6 * unit.DegC, "", []string{"dough at 24 °C (75 °F): water at 66 °C (215 °F) less room less flour, as measured now", "20 °C (68 °F): 26 °C (79 °F)",
			"moins la pièce moins la farine"}},
		{unit.Celsius(24), 6 * unit.DegC, "butter", []string{"90 °C (290 °F) less room less flour less preferment", "30 °C (86 °F)"}},
		{unit.Celsius(20), 14 * unit.DegC, "", []string{"6 °C (43 °F); from a tap as warm, 35 g of it as ice"}},
		{unit.Celsius(2), 30 * unit.DegC, "", []string{"not even ice is cold enough"}},
	} {
		sh := layouttest.Shop(t)
		f := sh.Formulas["choux-paste"]
		at := diag.Pos{File: "formulas/choux-paste.yaml", Line: 1, Col: 1}
		f.Dough = &shop.Warmth{Pos: at}
		f.Dough.Wanted.V, f.Dough.Wanted.Pos, f.Dough.Friction.V = c.wanted, at, c.friction
		if c.preferment != "" {
			f.Dough.Preferment = shop.Text{V: c.preferment, Pos: at}
		}
		all := readAll(composed(t, cardOf(t, sh, "choux-paste", "card-a4", "en+fr")))
		for _, w := range c.want {
			layouttest.Has(t, all, w)
		}
	}
}
