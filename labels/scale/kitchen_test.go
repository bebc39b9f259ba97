package scale_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/read"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

const (
	cm    = unit.CM
	ounce = 28_349_523_125 * unit.Nanogram // avoirdupois, NIST Handbook 44, appendix C
	pound = 16 * ounce
)

// Moulds of one height: Ø 18 to 30 cm takes 2.78 times as much (a published
// table; it prints 2.77 from π = 3.14), Ø 18 to 24 cm 1.78 times.
func TestMoulds(t *testing.T) {
	round := func(d unit.Length) scale.Mould { return scale.Mould{Long: d * cm, High: 4 * cm} }
	for _, c := range []struct {
		from, to scale.Mould
		volume   bool
		want     string
	}{
		{round(18), round(30), false, "2.777778"},
		{round(18), round(24), false, "1.777778"},
		{round(18), round(18), true, "1"},
		{round(20), scale.Mould{Long: 20 * cm, Wide: 20 * cm}, false, "1.27324"}, // 4/π
		{round(18), scale.Mould{Long: 18 * cm, High: 6 * cm}, true, "1.5"},
		{scale.Mould{Long: 10 * cm, Wide: 20 * cm}, scale.Mould{Long: 30 * cm, Wide: 40 * cm}, false, "6"},
	} {
		by := scale.ByArea
		if c.volume {
			by = scale.ByVolume
		}
		if got, err := by(c.from, c.to); err != nil || got.String() != c.want {
			t.Errorf("%v to %v: %s, %v, want %s", c.from, c.to, got, err, c.want)
		}
	}
	if _, err := scale.ByVolume(scale.Mould{Long: cm}, round(18)); err == nil {
		t.Error("a mould without a height has a volume")
	}
	if got := scale.By(900*unit.Gram, 2_777_778); got.Round(unit.Gram) != 2500*unit.Gram {
		t.Errorf("900 g, 2.777778 times: %s", got)
	}
}

func TestTrays(t *testing.T) {
	for _, c := range []struct {
		n, holds, trays unit.Count
		last            int64
		spare           unit.Count
	}{
		{48, 12, 4, 12, 0}, {50, 12, 5, 2, 10}, {5, 12, 1, 5, 7}, {0, 12, 0, 0, 0}, {5, 0, 0, 0, 0},
	} {
		f := scale.Trays(c.n, c.holds)
		if f.Vessels != c.trays || f.Least != c.last || scale.Spare(c.n, c.holds) != c.spare {
			t.Errorf("%d on trays of %d: %+v, %d spare", c.n, c.holds, f, scale.Spare(c.n, c.holds))
		}
	}
}

// Equal bowls hold all, none overflows, one bowl less would, and no two differ
// by more than the least unit.
func TestShareHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(1, 1<<60).Draw(t, "n")
		most := rapid.Int64Range(1+n/1_000_000, 1<<61).Draw(t, "most")
		least := rapid.Int64Range(0, most).Draw(t, "least")
		f := scale.Share(n, least, most)
		k := int64(f.Vessels)
		switch {
		case f.Most > most, f.Most-f.Least > 1:
			t.Fatalf("%+v overflows or is unequal", f)
		case k > 1 && (k-1) <= n/most && (k-1)*most >= n:
			t.Fatalf("%+v: one less would do", f)
		case k*f.Least > n || n-k*f.Least >= k:
			t.Fatalf("%+v does not hold %d", f, n)
		case f.Short != (f.Least < least):
			t.Fatalf("%+v, least %d", f, least)
		}
	})
}

func TestBowls(t *testing.T) {
	sh := demo(t)
	f := sh.Formulas["sweet-pastry"]
	f.Bowl = &shop.Bowl{Least: at(800 * unit.Gram), Most: at(2 * unit.Kilogram)}
	b, err := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 96) // 2771.1 g of dough
	if err != nil {
		t.Fatal(err)
	}
	m, _ := b.Make(f)
	fill, ok := m.Bowls()
	if !ok || fill.Vessels != 2 || fill.Short || unit.Mass(fill.Most).Round(unit.Gram) != 1386*unit.Gram {
		t.Errorf("2771 g in bowls of 0.8 to 2 kg: %+v", fill)
	}
	one, n := scale.EachBowl(sh, m)
	if n != 2 || one[0].Shown != 600*unit.Gram { // flour, 1200.7 g in all, on a scale of 1 g
		t.Errorf("%d bowls of %s flour", n, one[0].Shown)
	}
	f.Bowl.Least = at(1500 * unit.Gram)
	if fill, _ := m.Bowls(); !fill.Short {
		t.Errorf("bowls of 1386 g are under 1500 g: %+v", fill)
	}
	f.Bowl = nil
	if _, n := scale.EachBowl(sh, m); n != 1 {
		t.Errorf("%d bowls where none is named", n)
	}
}

func TestBakes(t *testing.T) {
	p := &shop.Product{Tray: &shop.Tray{Holds: at(unit.Count(12)), Oven: at(unit.Count(3))}}
	if f, ok := scale.Bakes(p, 48); !ok || f.Vessels != 2 || f.Most != 2 || f.Least != 2 {
		t.Errorf("4 trays, 3 at once: %+v", f)
	}
	if f, ok := scale.Bakes(p, 85); !ok || f.Vessels != 3 || f.Most != 3 || f.Least != 2 {
		t.Errorf("8 trays, 3 at once: %+v", f)
	}
	p.Tray.Oven.V = 0
	if _, ok := scale.Bakes(p, 48); ok {
		t.Error("nobody said how many trays the oven takes")
	}
}

// 2 g on a scale of 1 g may be 25 % wrong (a published note on weighing); 50
// steps keep it within 1 % (NIST Handbook 44, G-UR.1.1, for other trades). Of
// the tartlets' 0.9 g of salt, six times as much is weighed.
func TestPremix(t *testing.T) {
	sh := demo(t)
	lines := func() []scale.Amount {
		b, err := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 24)
		if err != nil {
			t.Fatal(err)
		}
		m, _ := b.Make(sh.Formulas["hazelnut-frangipane"])
		return m.Lines
	}
	if r := scale.Remedies(sh, lines()); len(r) != 0 {
		t.Errorf("nobody asked for exact salt: %+v", r)
	}
	salt := &sh.Formulas["hazelnut-frangipane"].Lines[6]
	salt.Exact = at(true)
	r := scale.Remedies(sh, lines())
	if len(r) != 1 || r[0].Amount.Line.Use.V != "salt" || r[0].Scale != nil {
		t.Fatalf("%+v", r)
	}
	if r[0].Times != 6 || r[0].Weigh != 5400*unit.Milligram || r[0].With != 27*unit.Gram || r[0].Take != r[0].Weigh || r[0].Other.Line.Use.V != "caster-sugar" {
		t.Errorf("%d times, %s with %s of %s, take %s", r[0].Times, r[0].Weigh, r[0].With, r[0].Other.Line.Use.V, r[0].Take)
	}
	sh.Profile.Scales = append(sh.Profile.Scales, shop.Scale{UpTo: at(20 * unit.Gram), Step: at(10 * unit.Milligram)})
	if r := scale.Remedies(sh, lines()); len(r) != 0 {
		t.Errorf("with a scale of 10 mg nothing is coarse: %+v", r)
	}
}

// Whatever the amount, what a premix brings is within 1 % of it.
func TestPremixIsGood(t *testing.T) {
	sh := demo(t)
	f := sh.Formulas["sweet-pastry"]
	rapid.Check(t, func(t *rapid.T) {
		f.Lines[5].Exact = at(true)
		f.Lines[5].Take.V = unit.Mass(rapid.Int64Range(10, 9000).Draw(t, "salt")) * unit.Milligram
		b, err := scale.Mass(sh, f, unit.Mass(rapid.Int64Range(100, 40_000).Draw(t, "dough"))*unit.Gram)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range scale.Remedies(sh, b.Makes[0].Lines) {
			if r.Times == 0 {
				continue
			}
			in := r.Weigh.Mul(r.Take, r.Weigh+r.With).Grams() / r.Amount.Exact.Grams()
			if math.Abs(in-1) > 0.01 {
				t.Fatalf("%s: %+v brings %v of it", r.Amount.Exact, r, in)
			}
		}
	})
}

// Lines that do not grow in proportion are told above their factor, not at it.
func TestReviewed(t *testing.T) {
	sh := demo(t)
	f := sh.Formulas["sweet-pastry"]
	f.Lines[5].Review = at(3 * shop.One)
	for times, want := range map[unit.Mass]int{1: 0, 3: 0, 4: 1} {
		b, err := scale.Mass(sh, f, f.Out()*times)
		if err != nil {
			t.Fatal(err)
		}
		if got := b.Makes[0].Reviewed(); len(got) != want {
			t.Errorf("%d times: %d to look at, want %d", times, len(got), want)
		}
	}
}

// 6.0 g of gelatine at 200 Bloom are 5.72 g at 220 by the root rule and 5.45 g
// in proportion. Both rules are in use; the figures follow from them.
func TestConverted(t *testing.T) {
	sh := demo(t)
	gel := sh.Ingredients["gelatine"]
	for rule, want := range map[string]string{"root": "5.72", "linear": "5.45"} {
		a := scale.Amount{Ingredient: gel, Written: 6 * unit.Gram}
		a.Line.WeighedFor = &shop.WeighedFor{Bloom: at(200), Rule: at(rule)}
		c, ok := a.Converted()
		if !ok || c.From != 200 || c.To != 220 || c.Same || !near(c.Mass, want) {
			t.Errorf("%s: %+v, want %s g", rule, c, want)
		}
	}
	if _, ok := (&scale.Amount{Ingredient: gel, Written: unit.Gram}).Converted(); ok {
		t.Error("nobody asked for a conversion")
	}
	strange := scale.Amount{Ingredient: &shop.Ingredient{}, Line: shop.Line{WeighedFor: &shop.WeighedFor{Bloom: at(200), Rule: at("root")}}}
	if _, ok := strange.Converted(); ok {
		t.Error("gelatine of unknown strength was converted")
	}
}

// What stands for gelatine of another strength is what is weighed, bowl by
// bowl, bought, and counted when it runs short; a declaration keeps to the
// formula.
func TestReplaced(t *testing.T) {
	sh := demo(t)
	p, cream := sh.Products["pistachio-choux"], sh.Formulas["pistachio-pastry-cream"]
	cream.Bowl = &shop.Bowl{Most: at(unit.Kilogram)}
	b, err := scale.Pieces(sh, p, 40)
	if err != nil {
		t.Fatal(err)
	}
	a := line(t, b, "pistachio-pastry-cream", "gelatine")
	if !near(a.Written, "6.0") || !near(a.Exact, "5.72") || a.Shown != 5700*unit.Milligram {
		t.Errorf("%+v", a)
	}
	m, _ := b.Make(cream)
	bowls, n := scale.EachBowl(sh, m)
	for _, one := range bowls {
		if one.Line.Ref() == "gelatine" && (n != 2 || !near(one.Exact, "2.86")) {
			t.Errorf("%d bowls of %s", n, one.Exact)
		}
	}
	for _, target := range []string{p.ID, cream.ID} {
		have, err := scale.Have(sh, target, "gelatine", a.Exact*2)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := have.Make(cream); max(got.Out-2*m.Out, 2*m.Out-got.Out) > m.Out/20 {
			t.Errorf("%s: twice the gelatine makes %s, not twice %s", target, got.Out, m.Out)
		}
	}
	for _, c := range scale.ExpandFormula(sh, cream, cream.Out()) {
		if c.Ingredient.ID == "gelatine" && !near(c.Mass, "6.0") {
			t.Errorf("%s declared", c.Mass)
		}
	}
}

// Formulas to a new yield: 3000 g at 377.5 % are 794.7 g of base, and 96 oz
// are 25.43 oz (a textbook of professional cooking); 73 baguettes of 390 g at
// 100, 67, 2 and 1 % are 16 747 g flour, 11 220.5 g water, 334.9 g salt and
// 167.5 g yeast (a published worksheet).
func TestBaseFor(t *testing.T) {
	if got, ok := scale.BaseFor(3000*unit.Gram, []unit.Share{unit.Whole, 2775 * unit.Percent / 10}); !ok || !near(got, "794.7") {
		t.Errorf("3000 g: %s", got)
	}
	if got, _ := scale.BaseFor(96*ounce, []unit.Share{3775 * unit.Percent / 10}); math.Abs(float64(got)/float64(ounce)-25.43) > 0.005 {
		t.Errorf("96 oz: %v oz", float64(got)/float64(ounce))
	}
	shares := []unit.Share{unit.Whole, 67 * unit.Percent, 2 * unit.Percent, unit.Percent}
	flour, _ := scale.BaseFor(73*390*unit.Gram, shares)
	for i, want := range []string{"16747", "11220.5", "334.9", "167.5"} {
		if got := flour.Of(shares[i]); !near(got, want) {
			t.Errorf("baguettes, %s: %s, want %s g", shares[i], got, want)
		}
	}
	if _, ok := scale.BaseFor(unit.Kilogram, nil); ok {
		t.Error("a base of nothing")
	}
}

// 11.2 oz of salt on 40 lb of flour are 1.75 %, 23 lb 3.2 oz of water 58 % (a
// published worksheet).
func TestOnBase(t *testing.T) {
	f := &shop.Formula{Lines: []shop.Line{
		{Use: at("flour"), Take: at(40 * pound)},
		{Use: at("salt"), Take: at(112 * ounce / 10)},
		{Use: at("water"), Take: at(23*pound + 32*ounce/10)},
	}}
	if _, ok := scale.OnBase(f); ok {
		t.Error("no base is named")
	}
	f.Base = []shop.Text{at("flour")}
	got, ok := scale.OnBase(f)
	if !ok || fmt.Sprint(got) != "[100 % 1.75 % 58 %]" {
		t.Errorf("%v", got)
	}
}

// A ganache: cream 500 g (58 % water, 36 % fat), glucose 50 g (22 % water),
// chocolate 650 g, butter 100 g (18 % water, 82 % fat) hold 24.5 % water and
// 20.2 % milk fat (a published worked example; the second by the same sum).
func TestBalanceFigures(t *testing.T) {
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}}
	add := func(id string, water int64, traits ...string) {
		i := &shop.Ingredient{ID: id, Water: at(unit.Share(water) * unit.Percent)}
		for _, tr := range traits {
			k, v, _ := strings.Cut(tr, "=")
			i.Strength = append(i.Strength, read.Entry[shop.Text]{Key: at(k), V: at(v)})
		}
		if len(traits) > 0 && strings.HasPrefix(traits[0], "milk") {
			i.Contains = []shop.Text{at("milk")}
		}
		sh.Ingredients[id] = i
	}
	add("cream", 58, "milk-fat=36 %", "milk-solids=42 %", "fat=36 %")
	add("glucose", 22)
	add("chocolate", 0, "cocoa=60 %", "cocoa-butter=38 %", "fat=38 %")
	add("butter", 18, "milk-fat=82 %", "fat=82 %")
	sh.Ingredients["glucose"].Per100 = &shop.Composition{Fat: at(unit.Mass(0))}
	f := &shop.Formula{ID: "ganache"}
	for _, l := range []struct {
		id string
		g  unit.Mass
	}{{"cream", 500}, {"glucose", 50}, {"chocolate", 650}, {"butter", 100}} {
		f.Lines = append(f.Lines, shop.Line{Use: at(l.id), Take: at(l.g * unit.Gram)})
	}
	sh.Formulas["ganache"] = f
	for _, c := range []struct {
		of      scale.Component
		want    float64
		unknown string
	}{
		{scale.Water, 24.5, ""}, {scale.MilkFat, 20.2, ""}, {scale.Cocoa, 30, ""}, {scale.CocoaButter, 19, ""},
		{scale.Fat, 39.2, ""}, {scale.MilkSolids, 16.2, "butter"}, {scale.Sugars, 0, "butter chocolate cream glucose"},
	} {
		got := figure(t, scale.Balance(sh, f), c.of)
		if math.Abs(got.Share.Percent()-c.want) > 0.05 || strings.Join(got.Unknown, " ") != c.unknown || got.Known() != (c.unknown == "") {
			t.Errorf("%s: %.2f %%, unknown %v; want %v, unknown %q", c.of, got.Share.Percent(), got.Unknown, c.want, c.unknown)
		}
	}
}

func figure(t *testing.T, all []scale.Figure, c scale.Component) scale.Figure {
	t.Helper()
	i := slices.IndexFunc(all, func(f scale.Figure) bool { return f.Component == c })
	if i < 0 {
		t.Fatalf("no %s in %v", c, all)
	}
	return all[i]
}

// 1013 g go into the demo's caramel with 363.5 g of water; cooked to 760 g it
// keeps 14.5 % (worked out by hand). What stays in a bowl takes of all alike.
func TestBalanceAfterBoiling(t *testing.T) {
	sh := demo(t)
	f := sh.Formulas["passion-caramel"]
	if got := figure(t, scale.Balance(sh, f), scale.Water); math.Abs(got.Share.Percent()-14.5) > 0.05 || !got.Known() {
		t.Errorf("water in the caramel: %s, unknown %v", got.Share, got.Unknown)
	}
	f.Losses = append(f.Losses, shop.Loss{LeftBehind: at(shop.Portion{Share: 5 * unit.Percent})})
	if got := figure(t, scale.Balance(sh, f), scale.Water); math.Abs(got.Share.Percent()-14.5) > 0.05 {
		t.Errorf("water with some left in the pan: %s", got.Share)
	}
	if got := scale.Balance(sh, &shop.Formula{}); got != nil {
		t.Errorf("nothing holds %v", got)
	}
}

// No formula of a random shop holds more than all of itself, or less than
// nothing, of anything.
func TestBalanceBounds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh, _ := randomShop(t)
		for _, i := range sh.Ingredients {
			i.Water = at(unit.Share(rapid.Int64Range(0, int64(unit.Whole)).Draw(t, "water")))
		}
		for _, f := range sh.Formulas {
			for _, fig := range scale.Balance(sh, f) {
				if fig.Share < 0 || fig.Share > unit.Whole {
					t.Fatalf("%s in %s: %s", fig.Component, f.ID, fig.Share)
				}
			}
		}
	})
}

// What is lost in portioning and what is rejected are chained, never added:
// 24 × 28 g ÷ (1 − 3 %) ÷ (1 − 2 %) = 706.9 g (W. Gisslen, Professional
// Baking, on yield; the figures by hand). The declaration does not change.
func TestPortioned(t *testing.T) {
	sh := demo(t)
	p := sh.Products["pear-hazelnut-tartlet"]
	before := scale.Expand(sh, p)
	p.LostInHandling.V = 2 * unit.Percent
	p.Parts[0].Add[0].LostInHandling = at(3 * unit.Percent)
	p.Parts[1].Add[0].LostInHandling = at(10 * unit.Percent)
	b, err := scale.Pieces(sh, p, 24)
	if err != nil {
		t.Fatal(err)
	}
	if m, _ := b.Make(sh.Formulas["sweet-pastry"]); !near(m.Out, "706.9") {
		t.Errorf("%s of pastry, want 706.9 g", m.Out)
	}
	if jam := b.Lines[len(b.Lines)-1]; !near(jam.Exact, "40.82") { // 24 × 1.5 ÷ 0.98 ÷ 0.9
		t.Errorf("%s of jam, want 40.82 g", jam.Exact)
	}
	for i, c := range scale.Expand(sh, p) {
		if c.Mass != before[i].Mass {
			t.Errorf("%s in a piece: %s, was %s", c.Ingredient.ID, c.Mass, before[i].Mass)
		}
	}
}
