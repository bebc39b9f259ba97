package scale_test

import (
	"math"
	"testing"

	"chablon/labels/read"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// bench is a kitchen with a fine scale up to 5 g and a coarse one, the usual
// steps of common practice.
func bench() *shop.Shop {
	return &shop.Shop{Profile: shop.Profile{Scales: []shop.Scale{
		{UpTo: at(5 * unit.Gram), Step: at(100 * unit.Milligram), Small: at(true)},
		{UpTo: at(5 * unit.Kilogram), Step: at(unit.Gram)},
	}}}
}

// A premix helps with what must be weighed closely from the first amount that
// half a step of its scale is more than 5 % of, to twenty times the amount, and
// as long as there is enough sugar to mix it with; the last value of each is
// tried, and the one beside it. On another scale of the bench that shows 50
// steps (the least load of NIST Handbook 44, G-UR.1.1) it needs none.
func TestPremixEdges(t *testing.T) {
	dry := func(water unit.Share, sugars, exact unit.Mass) scale.Amount {
		return scale.Amount{Exact: exact, Ingredient: &shop.Ingredient{ID: "sugar", Water: at(water), Per100: &shop.Composition{Sugars: at(sugars)}}}
	}
	close := func(exact unit.Mass) scale.Amount {
		return scale.Amount{Line: shop.Line{Exact: at(true)}, Exact: exact, Step: 100 * unit.Milligram, Coarse: true, Ingredient: &shop.Ingredient{ID: "agar"}}
	}
	sugar := dry(0, 99*unit.Gram, unit.Kilogram)
	for _, c := range []struct {
		name  string
		exact unit.Mass
		other scale.Amount
		times int64
		told  bool
	}{
		{"5 % is near enough", unit.Gram, sugar, 0, false},
		{"a little less is not", 990 * unit.Milligram, sugar, 6, true},
		{"half of it", 500 * unit.Milligram, sugar, 10, true},
		{"twenty times", 250 * unit.Milligram, sugar, 20, true},
		{"more than twenty times", 249 * unit.Milligram, sugar, 0, true},
		{"just enough to mix it with", 500 * unit.Milligram, dry(0, 99*unit.Gram, 4500*unit.Milligram), 10, true},
		{"not enough", 500 * unit.Milligram, dry(0, 99*unit.Gram, 4500*unit.Milligram-1), 0, true},
		{"a syrup", 500 * unit.Milligram, dry(2*unit.Percent, 99*unit.Gram, unit.Kilogram), 0, true},
		{"nearly a sugar", 500 * unit.Milligram, dry(0, 90*unit.Gram, unit.Kilogram), 10, true},
		{"flour", 500 * unit.Milligram, dry(0, 90*unit.Gram-1, unit.Kilogram), 0, true},
	} {
		all := scale.Remedies(bench(), []scale.Amount{close(c.exact), c.other})
		if len(all) > 0 != c.told || c.told && all[0].Times != c.times {
			t.Errorf("%s: %+v; want %d times", c.name, all, c.times)
		}
		if c.told && c.times > 0 && (all[0].With != all[0].Weigh*unit.Mass(c.times-1) || all[0].Take != all[0].Weigh) {
			t.Errorf("%s: %+v", c.name, all[0])
		}
	}
	milk, traces, coarse, unknown := dry(0, 99*unit.Gram, unit.Kilogram), dry(0, 99*unit.Gram, unit.Kilogram), sugar, sugar
	milk.Ingredient.Contains = []shop.Text{at("milk")}
	traces.Ingredient.MayContain = []shop.Text{at("peanuts")}
	coarse.Coarse = true
	unknown.Ingredient = &shop.Ingredient{ID: "?", Water: at(unit.Share(0))}
	for name, o := range map[string]scale.Amount{"an allergen": milk, "traces of one": traces, "not weighed well itself": coarse, "sugars not known": unknown, "a formula": {Exact: unit.Kilogram}} {
		if r := scale.Remedies(bench(), []scale.Amount{close(500 * unit.Milligram), o})[0]; r.Times != 0 {
			t.Errorf("%s: mixed with it", name)
		}
	}
	onScale := close(5 * unit.Gram)
	if r := scale.Remedies(bench(), []scale.Amount{onScale, sugar}); len(r) != 1 || r[0].Scale == nil {
		t.Errorf("50 steps of a scale are enough: %+v", r)
	}
	more := dry(0, 99*unit.Gram, 2*unit.Kilogram)
	more.Ingredient.ID = "more"
	col := []scale.Amount{sugar, close(500 * unit.Milligram), more, sugar}
	if r := scale.Remedies(bench(), col); len(r) != 1 || r[0].Other.Ingredient.ID != "more" {
		t.Errorf("not mixed with the largest: %+v", r)
	}
}

// What a specification says in grams goes before a trait of the same name, and
// water is only what is under water.
func TestBalanceSources(t *testing.T) {
	traits := func(pairs ...string) (out read.Dict[shop.Text]) {
		for i := 0; i < len(pairs); i += 2 {
			out = append(out, read.Entry[shop.Text]{Key: at(pairs[i]), V: at(pairs[i+1])})
		}
		return out
	}
	grams := func(fat, sugars unit.Mass) *shop.Composition {
		return &shop.Composition{Fat: at(fat * unit.Gram), Sugars: at(sugars * unit.Gram)}
	}
	for _, c := range []struct {
		name  string
		of    scale.Component
		i     shop.Ingredient
		want  float64
		known bool
	}{
		{"fat in grams before the trait", scale.Fat, shop.Ingredient{Strength: traits("fat", "10 %"), Per100: grams(30, 0)}, 30, true},
		{"fat by the trait", scale.Fat, shop.Ingredient{Strength: traits("fat", "10 %")}, 10, true},
		{"fat not known", scale.Fat, shop.Ingredient{Per100: &shop.Composition{}}, 0, false},
		{"water is no trait", scale.Water, shop.Ingredient{Strength: traits("water", "90 %"), Water: at(20 * unit.Percent)}, 20, true},
		{"water not known", scale.Water, shop.Ingredient{Strength: traits("water", "90 %")}, 0, false},
		{"sugars in grams", scale.Sugars, shop.Ingredient{Per100: grams(0, 40)}, 40, true},
		{"sugars not known", scale.Sugars, shop.Ingredient{Per100: &shop.Composition{}}, 0, false},
		{"sugars without a composition", scale.Sugars, shop.Ingredient{}, 0, false},
		{"sugars by a trait", scale.Sugars, shop.Ingredient{Strength: traits("sugars", "55 %")}, 55, true},
		{"cocoa of cocoa butter", scale.Cocoa, shop.Ingredient{Strength: traits("cocoa-butter", "100 %")}, 100, true},
		{"cocoa butter of cocoa that does not say", scale.CocoaButter, shop.Ingredient{Strength: traits("cocoa", "60 %")}, 0, false},
		{"cocoa butter of what is no cocoa", scale.CocoaButter, shop.Ingredient{}, 0, true},
		{"milk fat of milk that does not say", scale.MilkFat, shop.Ingredient{Contains: []shop.Text{at("milk")}}, 0, false},
		{"milk fat of what is no milk", scale.MilkFat, shop.Ingredient{Contains: []shop.Text{at("eggs")}}, 0, true},
	} {
		c.i.ID = "it"
		sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{"it": &c.i}}
		f := &shop.Formula{ID: "f", Lines: []shop.Line{{Use: at("it"), Take: at(50 * unit.Gram)}, {Use: at("it"), As: at("again"), Take: at(50 * unit.Gram)}}}
		sh.Formulas = map[string]*shop.Formula{"f": f}
		got := figure(t, scale.Balance(sh, f), c.of)
		if math.Abs(got.Share.Percent()-c.want) > 0.001 || got.Known() != c.known || len(got.Unknown) > 1 {
			t.Errorf("%s: %.2f %%, known %v; want %v, %v", c.name, got.Share.Percent(), got.Known(), c.want, c.known)
		}
	}
}

// A batch has 1 to the most pieces, and a mass above nothing up to the most.
func TestBatchEdges(t *testing.T) {
	sh := demo(t)
	p, f := sh.Products["bench-tin"], sh.Formulas["pear-syrup"]
	for n, ok := range map[unit.Count]bool{0: false, 1: true, shop.MaxPieces + 1: false} {
		if _, err := scale.Pieces(sh, p, n); (err == nil) != ok {
			t.Errorf("%d pieces: %v", n, err)
		}
	}
	for m, ok := range map[unit.Mass]bool{0: false, 1: true, shop.MaxMass: true, shop.MaxMass + 1: false} {
		if _, err := scale.Mass(sh, f, m); (err == nil) != ok {
			t.Errorf("%s of syrup: %v", m, err)
		}
		if _, err := scale.Have(sh, "pear-syrup", "caster-sugar", m); m < shop.MaxMass && (err == nil) != ok {
			t.Errorf("%s of sugar: %v", m, err)
		}
	}
	if _, err := scale.Have(sh, "pear-syrup", "caster-sugar", shop.MaxMass+1); err == nil {
		t.Error("more than the most of sugar")
	}
}

// The scale that bears an amount is used up to its last gram, and an amount is
// coarse from the first that it shows in fewer than 50 steps.
func TestScaleEdges(t *testing.T) {
	sh := bench()
	sh.Ingredients = map[string]*shop.Ingredient{"a": {ID: "a"}, "b": {ID: "b"}}
	for _, c := range []struct {
		exact  unit.Mass
		small  bool
		coarse bool
	}{
		{5 * unit.Gram, true, false},
		{5*unit.Gram + unit.Milligram, false, true},
		{5*unit.Gram - unit.Milligram, true, true},
		{50 * unit.Gram, false, false},
		{50*unit.Gram - 1, false, true},
	} {
		f := &shop.Formula{ID: "f", Lines: []shop.Line{{Use: at("a"), Take: at(c.exact)}}}
		sh.Formulas = map[string]*shop.Formula{"f": f}
		b, err := scale.Mass(sh, f, c.exact)
		if err != nil {
			t.Fatal(err)
		}
		if a := b.Makes[0].Lines[0]; a.Small != c.small || a.Coarse != c.coarse {
			t.Errorf("%s: small %v, coarse %v", c.exact, a.Small, a.Coarse)
		}
	}
}

// Of what is bought whole only a share is used: no less than all, and nothing
// where all is edible. A piece without a mass has no halves.
func TestBuyEdges(t *testing.T) {
	for _, c := range []struct {
		edible unit.Share
		buy    unit.Mass
	}{
		{0, 0}, {unit.Whole, 0}, {unit.Whole / 2, 200 * unit.Gram}, {unit.Whole / 4, 400 * unit.Gram},
	} {
		i := &shop.Ingredient{ID: "a", Edible: at(c.edible), Piece: &shop.Piece{}}
		sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{"a": i}}
		f := &shop.Formula{ID: "f", Lines: []shop.Line{{Use: at("a"), Take: at(100 * unit.Gram)}}}
		sh.Formulas = map[string]*shop.Formula{"f": f}
		b, err := scale.Mass(sh, f, 100*unit.Gram)
		if err != nil {
			t.Fatal(err)
		}
		if a := b.Makes[0].Lines[0]; a.Buy != c.buy || a.Halves != 0 {
			t.Errorf("edible %s: buy %s, halves %d; want %s, 0", c.edible, a.Buy, a.Halves, c.buy)
		}
	}
}

// What comes to nothing in a small batch is shown as nothing and is not coarse;
// what is little is never shown as nothing, even where the sum would want it.
func TestLittle(t *testing.T) {
	sh := bench()
	sh.Ingredients = map[string]*shop.Ingredient{}
	var lines []shop.Line
	for _, id := range []string{"a", "b", "c", "d"} {
		sh.Ingredients[id] = &shop.Ingredient{ID: id}
	}
	lines = []shop.Line{{Use: at("a"), Take: at(unit.Kilogram)}, {Use: at("b"), Take: at(unit.Mass(1))}}
	f := &shop.Formula{ID: "f", Lines: lines}
	sh.Formulas = map[string]*shop.Formula{"f": f}
	b, err := scale.Mass(sh, f, unit.Gram)
	if err != nil {
		t.Fatal(err)
	}
	if a := b.Makes[0].Lines[1]; a.Exact != 0 || a.Shown != 0 || a.Coarse {
		t.Errorf("nothing: %+v", a)
	}
	f.Lines = nil
	for _, id := range []string{"a", "b", "c"} {
		f.Lines = append(f.Lines, shop.Line{Use: at(id), Take: at(60 * unit.Milligram)})
	}
	if b, err = scale.Mass(sh, f, 180*unit.Milligram); err != nil {
		t.Fatal(err)
	}
	for _, a := range b.Makes[0].Lines {
		if a.Shown != 100*unit.Milligram {
			t.Errorf("60 mg on a scale of 100 mg: %s", a.Shown)
		}
	}
}

// A scale without a step or a load is none; without any the usual three are
// taken.
func TestNoScale(t *testing.T) {
	for _, s := range []shop.Scale{{UpTo: at(5 * unit.Kilogram)}, {Step: at(unit.Gram)}} {
		sh := &shop.Shop{Profile: shop.Profile{Scales: []shop.Scale{s}}, Ingredients: map[string]*shop.Ingredient{"a": {ID: "a"}}}
		f := &shop.Formula{ID: "f", Lines: []shop.Line{{Use: at("a"), Take: at(20 * unit.Gram)}}}
		sh.Formulas = map[string]*shop.Formula{"f": f}
		b, err := scale.Mass(sh, f, 20*unit.Gram)
		if err != nil {
			t.Fatal(err)
		}
		if a := b.Makes[0].Lines[0]; a.Step != 100*unit.Milligram || !a.Small {
			t.Errorf("%+v: step %s", s, a.Step)
		}
	}
}

// Gelatine of which a strength is not known, and none of it, is what it was.
func TestGelatineEdges(t *testing.T) {
	for _, rule := range []scale.Strength{scale.Linear, scale.Root} {
		for _, c := range []struct {
			m        unit.Mass
			from, to int64
			want     unit.Mass
		}{
			{0, 200, 100, 0}, {-5, 200, 100, -5}, {10, 0, 100, 10}, {10, 200, 0, 10}, {10, -1, 100, 10}, {10, 200, -1, 10}, {10, 200, 200, 10},
		} {
			if got := scale.Gelatine(c.m, c.from, c.to, rule); got != c.want {
				t.Errorf("%s: %d from %d to %d Bloom: %d, want %d", rule, c.m, c.from, c.to, got, c.want)
			}
		}
	}
}

// Of what does not go in nobody need know anything.
func TestBalanceOfNothing(t *testing.T) {
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{"a": {ID: "a", Water: at(unit.Whole)}, "b": {ID: "b"}}}
	f := &shop.Formula{ID: "f", Lines: []shop.Line{{Use: at("a"), Take: at(100 * unit.Gram)}, {Use: at("b"), Take: at(unit.Mass(0))}}}
	sh.Formulas = map[string]*shop.Formula{"f": f}
	if got := figure(t, scale.Balance(sh, f), scale.Water); !got.Known() || got.Share != unit.Whole {
		t.Errorf("%+v", got)
	}
}
