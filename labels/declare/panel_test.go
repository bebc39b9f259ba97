package declare_test

import (
	"strings"
	"testing"
)

// A bag of 10 pieces of 12 g; portions of two pieces.
const bag = "packs: [{id: pack, pieces: 10, net: 120 g, front-symbol: {reference-amount: 40 g}, portion: 24 g, paper: roll-100x60, largest-face: 100 cm², nutrition: declared}]"

// All that a composition may state; in 24 g a quarter of it, less a quarter of
// 4 %.
const full = "carbohydrate: 50 g, polyols: 2 g, fibre: 5 g, organic-acids: 1 g, protein: 6 g, fat: 25 g, saturates: 10 g, sugars: 30 g, " +
	"salt: 1 g, trans: 0.5 g, cholesterol: 18 mg, added-sugars: 20 g, vitamin-d: 2 µg, calcium: 125 mg, iron: 4 mg, potassium: 300 mg"

// The panels of the markets that declare for a portion; the steps are those of
// the tests of labels/market.
func TestPanel(t *testing.T) {
	for _, c := range []struct{ in, want, source string }{
		{"us", "energy-kcal 110 kcal, fat 6 g 8 %, saturates 2.5 g 12 %, trans 0 g, cholesterol < 5 mg 1 %, sodium 95 mg 4 %, " +
			"carbohydrate 13 g 5 %, fibre 1 g 4 %, sugars 7 g, added-sugars 5 g 10 %, protein 1 g, " +
			"vitamin-d 0.5 µg 2 %, calcium 30 mg 2 %, iron 1.0 mg 6 %, potassium 70 mg 0 %",
			cfr + " 101.9(c): carbohydrate by difference is 50 + 5 + 1 = 56 g, so 24 g hold 13.44 g; 4 × 56 + 4 × 6 + 9 × 25 = 473 kcal, of 24 g 113.52; 72 mg potassium are 1.5 %, zero below 2 %"},
		{"ca", "energy-kcal 110 kcal, fat 6 g 8 %, saturates 2.5 g, trans 0.1 g 13 %, carbohydrate 13 g, fibre 1 g 4 %, sugars 7 g 7 %, protein 1 g, " +
			"cholesterol 5 mg, sodium 95 mg 4 %, potassium 75 mg 2 %, calcium 30 mg 2 %, iron 1.00 mg 6 %",
			fdr + " table to B.01.401: 2.4 + 0.12 of 20 g are 12.6 %; with 2.4 g of saturates 0.12 g of trans fat is not free of it"},
		{"au", "energy-kj 463 kJ, protein 1.4 g, fat 6.0 g, saturates 2.4 g, carbohydrate 12.0 g, sugars 7.2 g, sodium 96 mg",
			fsc + " Schedule 11 (from memory): 50 × 17 + 6 × 17 + 25 × 37 + 1 × 13 + 5 × 8 = 1930 kJ, of 24 g 463.2"},
	} {
		k := pantry()
		k.ingredient("food-stuff", "per-100-g: {source: test, "+full+"}")
		k.product("food", "food-stuff 12", "", bag)
		f, found := of(t, k, "food", c.in)
		if f.Nutrition == nil || errorsOf(rules(found)) != "" {
			t.Errorf("%s: %v", c.in, found.All())
			continue
		}
		var got []string
		for _, r := range f.Nutrition.Rows {
			row := r.Key + " " + figure(*r.Portion)
			if r.Percent != nil {
				row += " " + figure(*r.Percent)
			}
			got = append(got, row)
		}
		if g := strings.Join(got, ", "); g != c.want || f.Nutrition.Portions != 5 {
			t.Errorf("%s, %d portions (%s):\n got %s\nwant %s", c.in, f.Nutrition.Portions, c.source, g, c.want)
		}
		if f.Nutrition.Pieces != map[string]int64{"us": 2, "ca": 2}[c.in] {
			t.Errorf("%s: %d pieces in a portion of 24 g, each of 12 g", c.in, f.Nutrition.Pieces)
		}
	}
}

// What a panel asks for and nobody knows is an error, never zero; each missing
// figure is named. Markets that do not ask do not miss it.
func TestPanelMissing(t *testing.T) {
	for _, c := range []struct {
		in   string
		want int
	}{{"us", 7}, {"ca", 5}, {"eu", 0}, {"au", 0}} {
		k := pantry()
		at := strings.Index(full, ", trans")
		k.ingredient("food-stuff", "per-100-g: {source: test, "+full[:at]+"}")
		k.product("food", "food-stuff 12", "", bag)
		_, found := of(t, k, "food", c.in)
		if got := strings.Count(rules(found), "composition"); got != c.want {
			t.Errorf("%s: %d figures are missing, want %d: %s", c.in, got, c.want, rules(found))
		}
	}
}

// A portion must be something a buyer can count, and the pack whole portions:
// 21 CFR 101.9(b)(5), (7), (8), from memory.
func TestPanelPortion(t *testing.T) {
	for _, c := range []struct{ in, portion, want string }{
		{"us", "", "nutrition-portion"},
		{"ca", "", "nutrition-portion"},
		{"au", "", "nutrition-portion"},
		{"eu", "", ""},
		{"us", "portion: 30 g, ", "nutrition-portion"}, // two and a half pieces
		{"us", "portion: 48 g, ", "nutrition-portion"}, // two and a half portions
		{"us", "portion: 60 g, ", ""},
		{"us", "portion: 120 g, ", ""},
		{"us", "portion: 240 g, ", "nutrition-portion"},
		{"au", "portion: 30 g, ", ""},
	} {
		k := pantry()
		k.ingredient("food-stuff", "per-100-g: {source: test, "+full+"}")
		k.product("food", "food-stuff 12", "", strings.Replace(bag, "portion: 24 g, ", c.portion, 1))
		if _, found := of(t, k, "food", c.in); errorsOf(rules(found)) != c.want {
			t.Errorf("%s, %q: %s, want %s", c.in, c.portion, rules(found), c.want)
		}
	}
}

// Where a market has no factor for polyols or fibre, they count as
// carbohydrate: the energy is never too low.
func TestEnergyNeverTooLow(t *testing.T) {
	const sweet = "carbohydrate: 20 g, polyols: 10 g, protein: 0 g, fat: 0 g, fibre: 10 g, saturates: 0 g, sugars: 0 g, salt: 0 g"
	for in, want := range map[string]string{
		"eu": "350 kJ", // 10 × 17 + 10 × 10 + 10 × 8, Annex XIV
		"au": "420 kJ", // 20 × 17 + 10 × 8
	} {
		k := pantry()
		k.ingredient("food-stuff", "per-100-g: {source: test, "+sweet+"}")
		k.product("food", "food-stuff 12", "", bag)
		f, found := of(t, k, "food", in)
		if f.Nutrition == nil || figure(f.Nutrition.Rows[0].Shown) != want {
			t.Errorf("%s: %v, want %s", in, found.All(), want)
		}
	}
}
