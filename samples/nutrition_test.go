package samples_test

import (
	"math"
	"regexp"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/unit"
)

// A nutrient vector is in the order of ciqual-2020.csv: fat, saturates,
// carbohydrate, sugars, polyols, fibre, protein, salt, alcohol, organic acids;
// grams in one gram of food.
type vector [10]float64

func (v *vector) add(w vector, times float64) {
	for i := range v {
		v[i] += w[i] * times
	}
}

// paper computes the nutrition of the demo in floating point from what was
// worked out on paper (formulas.txt) and from the rows of Ciqual 2020 (ANSES,
// Etalab open licence 2.0). Only what no table has, such as a supplier's
// couverture, comes from the shop's files. Nothing of the program takes part.
type paper struct {
	formulas map[string][]line
	out      map[string]float64
	foods    map[string]vector
	fromRows map[string]bool
}

type line struct {
	use string
	g   float64
}

func onPaper(t *testing.T) *paper {
	p := &paper{map[string][]line{}, map[string]float64{}, map[string]vector{}, map[string]bool{}}
	number := func(s string) float64 { return float64(grams(t, s)) / float64(unit.Gram) }
	table(t, "formulas.txt", func(head []string, list [][]string) {
		sum := 0.0
		for _, l := range list {
			p.formulas[head[0]] = append(p.formulas[head[0]], line{l[0], number(l[1])})
			sum += number(l[1])
		}
		if p.out[head[0]] = sum; head[1] != "-" {
			p.out[head[0]] = number(head[1])
		}
	})
	// A kilogram of pear takes up 50 g of the syrup and loses 50 g of water.
	p.formulas["poached-pear"] = append(p.formulas["poached-pear"], line{"pear-syrup", 50})
	sh, rows := demo(t), ciqual(t)
	for _, id := range sh.IngredientIDs {
		c := sh.Ingredients[id].Per100
		figures := figures(c)
		if m := regexp.MustCompile(`^CIQUAL 2020, (\d+)(?:: .*)?$`).FindStringSubmatch(c.Source.V); m != nil {
			figures, p.fromRows[id] = rows[m[1]], true
		}
		var v vector
		for i, g := range figures {
			v[i] = float64(g) / float64(100*unit.Gram)
		}
		p.foods[id] = v
	}
	return p
}

// of is what one gram of an ingredient or of a formula holds.
func (p *paper) of(id string) vector {
	lines, formula := p.formulas[id]
	if !formula {
		return p.foods[id]
	}
	var sum, one vector
	for _, l := range lines {
		sum.add(p.of(l.use), l.g)
	}
	one.add(sum, 1/p.out[id])
	return one
}

// fromTable is the share of a formula's or ingredient's mass that rows of the
// open table stand for.
func (p *paper) fromTable(id string) float64 {
	lines, formula := p.formulas[id]
	if !formula {
		if p.fromRows[id] {
			return 1
		}
		return 0
	}
	part, all := 0.0, 0.0
	for _, l := range lines {
		part, all = part+l.g*p.fromTable(l.use), all+l.g
	}
	return part / all
}

// The declared nutrition of five products, against the paper: exact to a
// milligram and a tenth of a kilojoule, and rounded by the guidance of
// December 2012 as it is read here. Energy by Reg. (EU) 1169/2011 Annex XIV.
func TestNutritionAgreesWithTheTable(t *testing.T) {
	p, sh := onPaper(t), demo(t)
	eu, _ := market.Get("eu")
	for _, c := range []struct {
		product  string
		finished float64 // grams of a piece, or of the slab
		makeUp   []line
		table    float64 // at least this share of what goes in is in the open table
	}{
		{"pear-hazelnut-tartlet", 96*0.875 + 1.5, []line{{"sweet-pastry", 28}, {"hazelnut-frangipane", 30}, {"poached-pear", 35}, {"chopped-hazelnut", 3}, {"apricot-jam", 1.5}}, 0.9},
		{"pistachio-choux", 34*0.62 + 49, []line{{"choux-paste", 28}, {"craquelin", 6}, {"pistachio-diplomat", 47}, {"chopped-pistachio", 1.5}, {"icing-sugar", 0.5}}, 0.8},
		{"passion-caramel-bar", 45, []line{{"dark-64", 20}, {"passion-caramel", 17}, {"white-crisp", 8}}, 0.15},
		{"rye-shortbread-tin", 16.5 * 0.91, []line{{"rye-shortbread", 16.5}}, 0.8},
		{"lemon-thyme-marshmallow", 1039, []line{{"marshmallow", 979}, {"icing-sugar", 30}, {"potato-starch", 30}}, 0.6},
	} {
		var sum, v vector
		mass, known := 0.0, 0.0
		for _, l := range c.makeUp {
			sum.add(p.of(l.use), l.g)
			mass, known = mass+l.g, known+l.g*p.fromTable(l.use)
		}
		v.add(sum, 100/c.finished)
		if known < c.table*mass {
			t.Errorf("%s: the open table stands for %.0f %% of it, want %.0f %%", c.product, 100*known/mass, 100*c.table)
		}
		kj := 37*v[0] + 17*(v[2]-v[4]) + 10*v[4] + 8*v[5] + 17*v[6] + 29*v[8] + 13*v[9]
		kcal := 9*v[0] + 4*(v[2]-v[4]) + 2.4*v[4] + 2*v[5] + 4*v[6] + 7*v[8] + 3*v[9]
		want := map[string][2]float64{
			"energy-kj": {kj, math.Round(kj)}, "energy-kcal": {kcal, math.Round(kcal)},
			"fat": {v[0], coarse(v[0], 0.5)}, "saturates": {v[1], coarse(v[1], 0.1)}, "carbohydrate": {v[2], coarse(v[2], 0.5)},
			"sugars": {v[3], coarse(v[3], 0.5)}, "protein": {v[6], coarse(v[6], 0.5)}, "salt": {v[7], salt(v[7])},
		}
		q := sh.Products[c.product]
		var found diag.List
		f := declare.Of(sh, q, &q.Packs[0], eu, unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
		if f.Nutrition == nil { // a pack that is exempt; its figures are the same
			pack := q.Packs[0]
			pack.Nutrition.V = "declared"
			f = declare.Of(sh, q, &pack, eu, f.Made, &found)
		}
		if found.Errors() > 0 || len(f.Nutrition.Rows) != len(want) {
			t.Fatalf("%s: %v", c.product, found.All())
		}
		for _, r := range f.Nutrition.Rows {
			exact, shown := float64(r.Exact)/float64(market.One), float64(r.Shown.N)/math.Pow10(r.Shown.Decimals)
			w, limit := want[r.Key], 0.001
			if r.Of == "" && r.Shown.Unit != "g" {
				limit = 0.1
			}
			if math.Abs(exact-w[0]) > limit || math.Abs(shown-w[1]) > 1e-9 {
				t.Errorf("%s: %s is %.4f, printed %g; on paper %.4f and %g", c.product, r.Key, exact, shown, w[0], w[1])
			}
		}
	}
}

// coarse rounds as the guidance proposes: whole grams from 10 g, tenths below;
// up to least it says "less than", and least is what is printed.
func coarse(g, least float64) float64 {
	switch {
	case g >= 10:
		return math.Floor(g + 0.5)
	case g > least:
		return math.Floor(g*10+0.5) / 10
	case g == 0:
		return 0
	}
	return least
}

func salt(g float64) float64 {
	switch {
	case g >= 1:
		return math.Floor(g*10+0.5) / 10
	case g > 0.0125:
		return math.Floor(g*100+0.5) / 100
	case g == 0:
		return 0
	}
	return 0.01
}
