package scale_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

// decimals writes the digits behind a point so that they are no thousands.
func decimals(s string) string {
	if strings.Contains(s, ".") {
		s += "000"
	}
	return s
}

func demo(t testing.TB) *shop.Shop {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	for _, d := range found.All() {
		t.Fatalf("%s", d)
	}
	return sh
}

// near reports whether m, rounded as finely as want is written, is want grams.
func near(m unit.Mass, want string) bool {
	_, frac, _ := strings.Cut(want, ".")
	step := unit.Gram
	for range frac {
		step /= 10
	}
	w, err := unit.ParseMass(decimals(want) + " g")
	return err == nil && m.Round(step) == w
}

// The batch tables of the demo shop, computed independently of this program
// (in floating point, from the masses, losses and handling of each product)
// and rounded to the decimals shown. Three batch sizes to a row.
func TestBatchTables(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct {
		product string
		sizes   [3]unit.Count
		rows    string
	}{
		{"pear-hazelnut-tartlet", [3]unit.Count{24, 48, 96}, `
			sweet-pastry = 692.8 1385.6 2771.1
			sweet-pastry/wheat-flour 300.2 600.3 1200.7
			sweet-pastry/butter 180.1 360.2 720.4
			sweet-pastry/icing-sugar 114.1 228.1 456.3
			sweet-pastry/ground-almond 36.0 72.0 144.1
			sweet-pastry/egg 60.0 120.1 240.1
			sweet-pastry/salt 2.40 4.80 9.61
			hazelnut-frangipane = 742.3 1484.5 2969.1
			hazelnut-frangipane/butter 179.7 359.5 718.9
			hazelnut-frangipane/caster-sugar 179.7 359.5 718.9
			hazelnut-frangipane/ground-hazelnut 179.7 359.5 718.9
			hazelnut-frangipane/egg 161.8 323.5 647.0
			hazelnut-frangipane/maize-starch 22.5 44.9 89.9
			hazelnut-frangipane/rum 18.0 35.9 71.9
			hazelnut-frangipane/salt 0.90 1.80 3.59
			poached-pear/pear 866.0 1732.0 3463.9
			/chopped-hazelnut 74.2 148.5 296.9
			/apricot-jam 37.1 74.2 148.5`},
		{"passion-caramel-bar", [3]unit.Count{30, 60, 120}, `
			/dark-64 618.6 1237.1 2474.2
			passion-caramel = 525.8 1051.5 2103.1
			passion-caramel/caster-sugar 207.5 415.1 830.2
			passion-caramel/glucose-syrup 103.8 207.5 415.1
			passion-caramel/cream 173.0 345.9 691.8
			passion-caramel/passion-puree 152.2 304.4 608.8
			passion-caramel/butter 62.3 124.5 249.1
			passion-caramel/salt 2.08 4.15 8.30
			white-crisp = 247.4 494.8 989.7
			white-crisp/white-28 118.3 236.6 473.2
			white-crisp/cocoa-butter 19.7 39.4 78.9
			white-crisp/wafer-flakes 108.4 216.9 433.7
			white-crisp/salt 0.99 1.97 3.94`},
		{"rye-shortbread-tin", [3]unit.Count{60, 120, 240}, `
			rye-shortbread/butter 266.6 533.2 1066.5
			rye-shortbread/caster-sugar 133.3 266.6 533.2
			rye-shortbread/wheat-flour 251.8 503.6 1007.2
			rye-shortbread/rye-flour 192.6 385.1 770.2
			rye-shortbread/dried-apricot 88.9 177.7 355.5
			rye-shortbread/candied-peel 59.2 118.5 237.0
			rye-shortbread/bread-spice 7.41 14.8 29.6
			rye-shortbread/vanilla-sugar 5.92 11.85 23.7
			rye-shortbread/salt 4.44 8.89 17.8`},
		{"pistachio-choux", [3]unit.Count{20, 40, 80}, `
			choux-paste = 583.3 1166.7 2333.3
			choux-paste/water 101.6 203.3 406.5
			choux-paste/milk 101.6 203.3 406.5
			choux-paste/butter 91.5 182.9 365.9
			choux-paste/salt 2.03 4.07 8.13
			choux-paste/caster-sugar 4.07 8.13 16.3
			choux-paste/wheat-flour 111.8 223.6 447.2
			choux-paste/egg 195.1 390.2 780.5
			craquelin = 125 250 500
			pistachio-pastry-cream = 777.1 1554.2 3108.5
			pistachio-pastry-cream/milk 500.1 1000.1 2000.3
			pistachio-pastry-cream/egg-yolk 80.0 160.0 320.0
			pistachio-pastry-cream/caster-sugar 80.0 160.0 320.0
			pistachio-pastry-cream/maize-starch 40.0 80.0 160.0
			pistachio-pastry-cream/butter 30.0 60.0 120.0
			pistachio-pastry-cream/pistachio-paste 70.0 140.0 280.0
			pistachio-pastry-cream/gelatine 3.0 6.0 12.0
			pistachio-pastry-cream/bloom-water 15 30 60
			pistachio-diplomat/cream 202.1 404.1 808.2`},
		{"lemon-thyme-marshmallow", [3]unit.Count{80, 160, 160}, `
			marshmallow/caster-sugar 486.3 972.6 972.6
			marshmallow/glucose-syrup 194.5 389.0 389.0
			marshmallow/invert-sugar 58.4 116.7 116.7
			marshmallow/water 165.3 330.7 330.7
			marshmallow/gelatine 35.0 70.0 70.0
			marshmallow/bloom-water 105.0 210.1 210.1
			marshmallow/lemon-juice 38.9 77.8 77.8
			marshmallow/lemon-zest 5.84 11.67 11.67
			marshmallow/thyme 2.92 5.84 5.84
			/icing-sugar 29.2 58.4 58.4
			/potato-starch 29.2 58.4 58.4`},
	} {
		for i, n := range c.sizes {
			b, err := scale.Pieces(sh, sh.Products[c.product], n)
			if err != nil {
				t.Fatal(err)
			}
			got := masses(b)
			for row := range strings.Lines(strings.TrimSpace(c.rows)) {
				f := strings.Fields(strings.Replace(row, " = ", " ", 1))
				m, ok := got[f[0]]
				if !ok || !near(m, f[i+1]) {
					t.Errorf("%d %s: %s is %s, want %s g", n, c.product, f[0], m, f[i+1])
				}
			}
		}
	}
}

// masses gives the exact masses of a batch by "formula", "formula/line" and
// "/line" for the product's own lines.
func masses(b *scale.Batch) map[string]unit.Mass {
	got := map[string]unit.Mass{}
	for _, m := range b.Makes {
		got[m.Formula.ID] = m.Out
		for _, a := range m.Lines {
			got[m.Formula.ID+"/"+a.Line.Ref()] = a.Written
		}
	}
	for _, a := range b.Lines {
		got["/"+a.Line.Ref()] = a.Written
	}
	return got
}

func line(t testing.TB, b *scale.Batch, formula, ref string) scale.Amount {
	t.Helper()
	for _, a := range b.Amounts() {
		if a.Line.Ref() == ref && strings.HasPrefix(a.Line.Pos.File, "formulas/"+formula+".") {
			return *a
		}
	}
	t.Fatalf("no line %s in %s", ref, formula)
	return scale.Amount{}
}

// What is bought before peeling: pears at an edible share of 75 %, for 24, 48
// and 96 tartlets (independently computed, as above).
func TestBuy(t *testing.T) {
	sh := demo(t)
	for n, want := range map[unit.Count]string{24: "1154.6", 48: "2309.3", 96: "4618.6"} {
		b, _ := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], n)
		if a := line(t, b, "poached-pear", "pear"); !near(a.Buy, want) {
			t.Errorf("%d pieces: %s of pears, want %s g", n, a.Buy, want)
		}
	}
}

// 0.90 g of salt on a scale that shows 0.1 g is under 50 steps (NIST Handbook
// 44, G-UR.1.1, asks no less of other trades); 120 g of eggs at 50 g apiece are
// about 2½.
func TestShown(t *testing.T) {
	sh := demo(t)
	b, _ := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 24)
	salt, flour := line(t, b, "hazelnut-frangipane", "salt"), line(t, b, "sweet-pastry", "wheat-flour")
	if !salt.Coarse || !salt.Small || salt.Shown != 900*unit.Milligram {
		t.Errorf("salt: %+v", salt)
	}
	if flour.Coarse || flour.Small || flour.Step != unit.Gram || flour.Shown != 300*unit.Gram {
		t.Errorf("flour: %+v", flour)
	}
	b, _ = scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 48)
	if egg := line(t, b, "sweet-pastry", "egg"); egg.Halves != 5 {
		t.Errorf("egg: %d halves, want 5", egg.Halves)
	}
	flour = line(t, b, "sweet-pastry", "wheat-flour")
	if flour.Small || flour.Step != unit.Gram || flour.Shown != 600*unit.Gram { // 600.33 g
		t.Errorf("flour: %+v", flour)
	}
	b, _ = scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 96)
	if starch := line(t, b, "hazelnut-frangipane", "maize-starch"); starch.Shown != 90*unit.Gram { // 89.86 g
		t.Errorf("starch: %+v", starch)
	}
}

// A medium is made in full and counts as a formula to make; only its uptake
// goes into the food.
func TestMedium(t *testing.T) {
	sh := demo(t)
	b, _ := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 48)
	pears, _ := b.Make(sh.Formulas["poached-pear"])
	syrup, ok := b.Make(sh.Formulas["pear-syrup"])
	if !ok || pears.Medium == nil || !near(syrup.Out, "1979.6") || pears.Medium.Exact != syrup.Out || !near(pears.Uptake, "86.6") {
		t.Errorf("syrup %+v, uptake %s", syrup, pears.Uptake)
	}
	if len(syrup.For) != 1 || !syrup.For[0].Medium || syrup.For[0].Formula != pears.Formula {
		t.Errorf("where the syrup goes: %+v", syrup.For)
	}
	if syrup, ok := b.Make(sh.Formulas["marshmallow"]); ok {
		t.Errorf("what is not needed is made: %+v", syrup)
	}
}

// Formulas stand before what uses them.
func TestMakesInOrder(t *testing.T) {
	sh := demo(t)
	b, _ := scale.Pieces(sh, sh.Products["pistachio-choux"], 40)
	var names []string
	for _, m := range b.Makes {
		names = append(names, m.Formula.ID)
	}
	if got, want := strings.Join(names, " "), "choux-paste craquelin pistachio-pastry-cream pistachio-diplomat"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// An assortment counts whole pieces: 10 tins of 6 and 6.
func TestAssortment(t *testing.T) {
	sh := demo(t)
	b, err := scale.Pieces(sh, sh.Products["bench-tin"], 10)
	if err != nil || len(b.Parts) != 2 || b.Parts[0].Pieces != 60 || b.Parts[1].Pieces != 60 {
		t.Fatalf("%+v, %v", b, err)
	}
	sh.Products["bench-tin"].LostInHandling.V = 3 * unit.Percent
	b, _ = scale.Pieces(sh, sh.Products["bench-tin"], 10)
	if b.Parts[0].Pieces != 62 { // 61.86
		t.Errorf("%d pieces, want 62", b.Parts[0].Pieces)
	}
}

// 1.2 kg of purée make 5.4545 times the caramel, 4145 g, enough for 236 bars
// (computed independently, as above); 1333 g of whole pears are 1000 g peeled,
// enough for 27 tartlets of 35 g at 3 % loss.
func TestHave(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct {
		target, ingredient string
		have               unit.Mass
		pieces             unit.Count
		out                string
	}{
		{"passion-caramel-bar", "passion-puree", 1200 * unit.Gram, 236, ""},
		{"passion-caramel", "passion-puree", 1200 * unit.Gram, 0, "4145.5"},
		{"pear-hazelnut-tartlet", "pear", 1333334 * unit.Milligram, 27, ""},
		{"pear-hazelnut-tartlet", "apricot-jam", 100 * unit.Gram, 64, ""}, // 100 × 0.97 ÷ 1.5 = 64.7
		{"poached-pear", "pear", 2000 * unit.Gram, 0, "1500"},
		{"sweet-pastry", "wheat-flour", 500 * unit.Gram, 0, "1154"},
	} {
		b, err := scale.Have(sh, c.target, c.ingredient, c.have)
		if err != nil {
			t.Errorf("%s: %v", c.target, err)
			continue
		}
		if b.Pieces != c.pieces || c.out != "" && !near(b.Out, c.out) {
			t.Errorf("%s of %s make %d pieces and %s of %s, want %d, %s", c.have, c.ingredient, b.Pieces, b.Out, c.target, c.pieces, c.out)
		}
	}
}

func TestRefused(t *testing.T) {
	sh := demo(t)
	tart, pastry := sh.Products["pear-hazelnut-tartlet"], sh.Formulas["sweet-pastry"]
	for want, do := range map[string]func() (*scale.Batch, error){
		"1 to 1000000 pieces, not 0":    func() (*scale.Batch, error) { return scale.Pieces(sh, tart, 0) },
		"1 to 1000000 pieces, not -3":   func() (*scale.Batch, error) { return scale.Pieces(sh, tart, -3) },
		"not 2000000":                   func() (*scale.Batch, error) { return scale.Pieces(sh, tart, 2_000_000) },
		"more than nothing":             func() (*scale.Batch, error) { return scale.Mass(sh, pastry, 0) },
		"no ingredient \"suger\"":       func() (*scale.Batch, error) { return scale.Have(sh, "sweet-pastry", "suger", unit.Gram) },
		"no product or formula":         func() (*scale.Batch, error) { return scale.Have(sh, "tart", "salt", unit.Gram) },
		"sweet-pastry does not use rum": func() (*scale.Batch, error) { return scale.Have(sh, "sweet-pastry", "rum", unit.Gram) },
		"does not use milk":             func() (*scale.Batch, error) { return scale.Have(sh, "pear-hazelnut-tartlet", "milk", unit.Gram) },
		"not enough for one piece":      func() (*scale.Batch, error) { return scale.Have(sh, "pear-hazelnut-tartlet", "pear", unit.Gram) },
		"makes no batch":                func() (*scale.Batch, error) { return scale.Have(sh, "sweet-pastry", "salt", 0) },
	} {
		if b, err := do(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want %q, got %v, %v", want, b, err)
		}
	}
}

func ExamplePieces() {
	sh := shop.Load(samples.Demo(), &diag.List{})
	b, err := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 48)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, a := range b.Makes[0].Lines {
		fmt.Println(a.Line.Ref(), a.Shown)
	}
	fmt.Println("together", b.Makes[0].Shown)
	// Output:
	// wheat-flour 600 g
	// butter 360 g
	// icing-sugar 228 g
	// ground-almond 72 g
	// egg 120 g
	// salt 4.8 g
	// together 1386 g
}

// tiny makes a shop of one formula from "id grams" lines.
func tiny(t fataler, lines ...string) (*shop.Shop, *shop.Formula) {
	t.Helper()
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}, Products: map[string]*shop.Product{}}
	f := &shop.Formula{ID: "f"}
	sh.Formulas["f"] = f
	for i, l := range lines {
		id, grams, _ := strings.Cut(l, " ")
		m, err := unit.ParseMass(decimals(grams) + " g")
		if err != nil {
			t.Fatal(err)
		}
		sh.Ingredients[id] = &shop.Ingredient{ID: id}
		f.Lines = append(f.Lines, shop.Line{Pos: diag.Pos{File: "f", Line: i + 1},
			Use: shop.Text{V: id, Pos: diag.Pos{File: "f"}}, Take: diag.At[unit.Mass]{V: m, Pos: diag.Pos{File: "f"}}})
	}
	return sh, f
}

// Published worked examples of scaling. Baker's percentages of 377.5 % in all:
// 3000 g ÷ 3.775 = 794.7 g of flour, and 96 ÷ 3.775 = 25.43 (a professional
// cooking textbook). 73 baguettes of 390 g at 100/67/2/1 (a public baking
// worksheet).
func TestWorkedScaling(t *testing.T) {
	for _, c := range []struct {
		lines []string
		out   string
		want  string // flour first
	}{
		{[]string{"flour 100", "rest 277.5"}, "3000 g", "794.7 2205.3"},
		{[]string{"flour 100", "rest 277.5"}, "96 g", "25.43 70.57"},
		{[]string{"flour 100", "water 67", "salt 2", "yeast 1"}, "28.47 kg", "16747 11220.5 334.9 167.5"},
	} {
		sh, f := tiny(t, c.lines...)
		out, _ := unit.ParseMass(c.out)
		b, err := scale.Mass(sh, f, out)
		if err != nil {
			t.Fatal(err)
		}
		for i, want := range strings.Fields(c.want) {
			if a := b.Makes[0].Lines[i]; !near(a.Exact, want) {
				t.Errorf("%s of %v: %s is %s, want %s", c.out, c.lines, a.Line.Ref(), a.Exact, want)
			}
		}
	}
}

// Published bake and trim losses (a baking school's weighings; a textbook and
// a culinary institute on edible yield): what must go in for what comes out.
func TestWorkedLosses(t *testing.T) {
	for _, c := range []struct{ loss, out, in string }{
		{"14.97 %", "300", "352.8"},
		{"15.5 %", "2124.33", "2514"},
		{"20 %", "8", "10"},        // 10 lb, 8 lb edible
		{"54.375 %", "36.5", "80"}, // lemons, in ounces: 45.6 % juice
	} {
		sh, f := tiny(t, "all 1000")
		var l shop.Loss
		if err := l.LeftBehind.V.UnmarshalText([]byte(c.loss)); err != nil {
			t.Fatal(err)
		}
		f.Losses = []shop.Loss{l}
		out, _ := unit.ParseMass(c.out + " g")
		if b, err := scale.Mass(sh, f, out); err != nil || !near(b.Makes[0].In, c.in) {
			t.Errorf("%s at %s: %s go in, want %s (%v)", c.out, c.loss, b.Makes[0].In, c.in, err)
		}
	}
}

// Both rules for gelatine, with the values of a trade page (3.3 g of bronze,
// 125 Bloom, against 200) and the change from 200 to 220 Bloom.
func TestGelatine(t *testing.T) {
	for _, c := range []struct {
		m        string
		from, to int64
		root     string
		linear   string
	}{
		{"3.3", 125, 200, "2.61", "2.06"},
		{"6", 200, 220, "5.72", "5.45"},
		{"6", 200, 200, "6", "6"},
		{"4", 400, 100, "8", "16"},
		{"6", 0, 220, "6", "6"},
	} {
		m, _ := unit.ParseMass(c.m + " g")
		root, linear := scale.Gelatine(m, c.from, c.to, scale.Root), scale.Gelatine(m, c.from, c.to, scale.Linear)
		if !near(root, c.root) || !near(linear, c.linear) {
			t.Errorf("%s g from %d to %d: %s and %s, want %s and %s", c.m, c.from, c.to, root, linear, c.root, c.linear)
		}
	}
}

// 40 lb of flour, 11.2 oz of salt and 23 lb 3.2 oz of water: 1.75 % and 58 %
// (a trade page; in ounces here, 640, 11.2 and 371.2).
func TestBakers(t *testing.T) {
	_, f := tiny(t, "flour 640", "salt 11.2", "water 371.2")
	got, ok := scale.Bakers(f, "flour")
	if !ok || fmt.Sprint(got) != "[100 % 1.75 % 58 %]" {
		t.Errorf("%v", got)
	}
	if _, ok := scale.Bakers(f, "rye"); ok {
		t.Error("a base that is not there")
	}
	two, _ := scale.Bakers(f, "flour", "salt")
	if sum := two[0] + two[1]; sum != unit.Whole {
		t.Errorf("the base comes to %s", strconv.FormatFloat(sum.Percent(), 'f', -1, 64))
	}
}
