package scale_test

import (
	"io/fs"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

func demoFolder() fs.FS { return samples.Demo() }

// perPiece sums what one piece holds of an ingredient.
func perPiece(parts []scale.Contribution, id string) unit.Mass {
	var sum unit.Mass
	for _, c := range parts {
		if c.Ingredient.ID == id {
			sum += c.Mass
		}
	}
	return sum.Mul(1, unit.Mass(scale.Basis))
}

// What one piece is made of, worked by hand from lines, losses and parts:
// rum 30 × 20 ÷ 826, pear 35, jam 1.5 of 85.5, and so on.
func TestExpand(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct{ product, ingredient, grams, share string }{
		{"pear-hazelnut-tartlet", "rum", "0.726", "0.85"},
		{"pear-hazelnut-tartlet", "pear", "35", "40.9"},
		{"pear-hazelnut-tartlet", "apricot-jam", "1.5", "1.75"},
		{"pear-hazelnut-tartlet", "ground-hazelnut", "7.264", "8.5"},
		{"pear-hazelnut-tartlet", "chopped-hazelnut", "3", "3.5"},
		{"pear-hazelnut-tartlet", "caster-sugar", "7.754", "9.1"}, // 7.264 and 0.490 of the syrup taken up
		{"pear-hazelnut-tartlet", "lemon-juice", "0.0306", "0.036"},
		{"passion-caramel-bar", "passion-puree", "4.921", "10.9"},
		{"rye-shortbread-tin", "vanilla-sugar", "0.0968", "0.645"},
		{"pistachio-choux", "milk", "28.882", "41.2"}, // 4.878 and 24.004
		{"lemon-thyme-marshmallow", "gelatine", "0.4158", "3.46"},
	} {
		p := sh.Products[c.product]
		m := perPiece(scale.Expand(sh, p), c.ingredient)
		share := 100 * unit.Gram.Mul(m, scale.Finished(sh, p))
		if !near(m, c.grams) || !near(share, c.share) {
			t.Errorf("%s: %s of %s, %s in 100; want %s, %s", c.product, m, c.ingredient, share, c.grams, c.share)
		}
	}
}

// Water by subtraction from the finished mass: 12.9 % of the marshmallow is
// added water (278 g less 144 g, of 1039 g); none is left of the choux's.
func TestWaterBySubtraction(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct {
		product string
		percent string // "" for none left
	}{{"lemon-thyme-marshmallow", "12.9"}, {"pistachio-choux", ""}} {
		p := sh.Products[c.product]
		left := scale.FinishedMass(sh, p)
		for _, part := range scale.Expand(sh, p) {
			if !part.Ingredient.AddedWater.V {
				left -= part.Mass
			}
		}
		share := 100 * unit.Gram.Mul(left, scale.FinishedMass(sh, p))
		if c.percent == "" && left > 0 || c.percent != "" && !near(share, c.percent) {
			t.Errorf("%s: %s of water left, %s in 100", c.product, left, share)
		}
	}
}

// Each contribution shows the way it came.
func TestPath(t *testing.T) {
	sh := demo(t)
	found := 0
	for _, c := range scale.Expand(sh, sh.Products["bench-tin"]) {
		if c.Ingredient.ID != "thyme" {
			continue
		}
		found++
		var files []string
		for _, p := range c.Path {
			files = append(files, p.File)
		}
		want := "products/bench-tin.yaml products/lemon-thyme-marshmallow.yaml formulas/marshmallow.yaml"
		if got := strings.Join(files, " "); got != want || c.Path[2] != c.Line.Pos {
			t.Errorf("%s, want %s", got, want)
		}
		if c.Product.ID != "lemon-thyme-marshmallow" || len(c.Via) != 1 || c.Via[0].ID != "marshmallow" || c.InMedium {
			t.Errorf("product %s via %v", c.Product.ID, c.Via)
		}
	}
	if found != 1 {
		t.Errorf("thyme comes in %d times", found)
	}
	for _, c := range scale.Expand(sh, sh.Products["pear-hazelnut-tartlet"]) {
		if c.InMedium != (c.Via != nil && c.Via[len(c.Via)-1].ID == "pear-syrup") {
			t.Errorf("%s: in the medium: %v", c.Ingredient.ID, c.InMedium)
		}
	}
}

// Mass balance: what is at use, less the water that goes off, is the finished
// mass. For each product of the demo shop the water is added up by hand from
// its losses, per piece.
func TestBalance(t *testing.T) {
	sh := demo(t)
	for id, waterOff := range map[string]string{
		"pear-hazelnut-tartlet":   "13.75",    // 12 in the oven, 35 × 50 ÷ 1000 in the syrup
		"passion-caramel-bar":     "5.659211", // 17 × 253 ÷ 760
		"rye-shortbread-tin":      "1.485",    // 16.5 × 9 %
		"lemon-thyme-marshmallow": "1.663138", // 12 × 144 ÷ 1039
	} {
		p := sh.Products[id]
		var sum unit.Mass
		for _, c := range scale.Expand(sh, p) {
			sum += c.Mass
		}
		off := (sum - scale.FinishedMass(sh, p)).Mul(1, unit.Mass(scale.Basis))
		if !near(off, waterOff) {
			t.Errorf("%s: %s go off, want %s", id, off, waterOff)
		}
	}
}

// What stays behind in the bowl is food, so it takes its share of everything.
func TestLeftBehind(t *testing.T) {
	sh, f := tiny(t, "flour 600", "water 400")
	var dry, bowl shop.Loss
	dry.WaterLost = diag.At[shop.Portion]{V: shop.Portion{Mass: 200 * unit.Gram}, Pos: diag.Pos{File: "f"}}
	bowl.LeftBehind = diag.At[shop.Portion]{V: shop.Portion{Share: 10 * unit.Percent}, Pos: diag.Pos{File: "f"}}
	f.Losses = []shop.Loss{dry, bowl}
	// 1000 g in, 800 g after drying, 720 g out of the bowl.
	parts := scale.ExpandFormula(sh, f, 720*unit.Gram)
	if parts[0].Mass != 540*unit.Gram || parts[1].Mass != 360*unit.Gram {
		t.Errorf("%s of flour and %s of water, want 540 and 360 g", parts[0].Mass, parts[1].Mass)
	}
	b, _ := scale.Mass(sh, f, 720*unit.Gram)
	if b.Makes[0].In != 1000*unit.Gram {
		t.Errorf("%s are weighed in, want 1000 g", b.Makes[0].In)
	}
}

// Even nothing taken up from a medium leaves its allergens.
func TestNothingTakenUp(t *testing.T) {
	sh := demo(t)
	sh.Formulas["poached-pear"].CookedIn.SoakedUp.V = 0
	for _, c := range scale.Expand(sh, sh.Products["pear-hazelnut-tartlet"]) {
		if c.Ingredient.ID == "lemon-juice" && c.Mass == 0 {
			return
		}
	}
	t.Error("the lemon juice of the syrup is lost, and its sulphites with it")
}

// A circle that was not refused ends all the same.
func TestCircle(t *testing.T) {
	sh := demo(t)
	sh.Formulas["craquelin"].Lines[0].Use.V = "choux-paste"
	sh.Formulas["choux-paste"].Lines[0].Use.V = "craquelin"
	p := sh.Products["pistachio-choux"]
	if parts := scale.Expand(sh, p); len(parts) == 0 {
		t.Error("nothing at all")
	}
	for _, err := range []error{
		second(scale.Pieces(sh, p, 1)), second(scale.Order(sh, &scale.Batch{Product: p})), second(scale.Mass(sh, sh.Formulas["craquelin"], unit.Kilogram)),
	} {
		if err == nil || !strings.Contains(err.Error(), "craquelin → choux-paste → craquelin") && !strings.Contains(err.Error(), "choux-paste → craquelin → choux-paste") {
			t.Errorf("%v", err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

// How much of each formula comes in on the way, worked by hand from the lines:
// 47 g of diplomat hold 47 × 1000 ÷ 1260 of pastry cream; 35 g of poached pear
// took up 35 × 50 ÷ 1000 of syrup.
func TestThrough(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct {
		product, ingredient string
		want                []string
	}{
		{"pistachio-choux", "pistachio-paste", []string{"47", "37.302"}},
		{"pear-hazelnut-tartlet", "lemon-juice", []string{"35", "1.75"}},
		{"pear-hazelnut-tartlet", "apricot-jam", nil},
	} {
		for _, part := range scale.Expand(sh, sh.Products[c.product]) {
			if part.Ingredient.ID != c.ingredient {
				continue
			}
			if len(part.Through) != len(c.want) || len(part.Via) != len(c.want) {
				t.Fatalf("%s comes through %d formulas, want %d", c.ingredient, len(part.Through), len(c.want))
			}
			for i, want := range c.want {
				if m := part.Through[i].Mul(1, unit.Mass(scale.Basis)); !near(m, want) {
					t.Errorf("%s: %s of %s, want %s g", c.ingredient, m, part.Via[i].ID, want)
				}
			}
		}
	}
}
