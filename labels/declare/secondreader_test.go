package declare_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/declare/secondreader"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// rounds is how many random foods the two readers are held against each other
// on.
func rounds() int {
	if testing.Short() {
		return 500
	}
	return 10_000
}

// A pair is one random food as both readers see it.
type pair struct {
	food    secondreader.Food
	figures []secondreader.Figures
	shop    *shop.Shop
	product *shop.Product
	quids   []string
}

// drawPair makes a food of up to eight ingredients, one of them perhaps water,
// some compounds, some with a percentage, some weighed in two lines; it may lose
// up to a third of its water and what else is not dry matter.
func drawPair(r *rand.Rand) pair {
	p := pair{shop: &shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}, Products: map[string]*shop.Product{}}}
	pos := val("").Pos
	prod := &shop.Product{Pos: pos, ID: "p", Name: called("p")}
	var lines []shop.Line
	n := 2 + r.IntN(7)
	for i := range n {
		name := fmt.Sprintf("q%d", i)
		l := secondreader.Line{Name: name, Mass: mass(r), Water: i == 0 && r.IntN(2) == 0, Law: r.IntN(2) == 0}
		ing := &shop.Ingredient{Pos: pos, ID: name, Name: called(name), Spec: &shop.Spec{Pos: pos}, Defined: val(l.Law), AddedWater: val(l.Water)}
		if !l.Water && r.IntN(3) == 0 {
			l.Parts = drawParts(r, name)
			for _, in := range l.Parts {
				inner := shop.Inner{Pos: pos, Name: called(in.Name), Share: val(unit.Share(in.Share) * unit.Percent / 100)}
				if in.Additive {
					inner.Class = val("emulsifier")
				}
				if in.Allergen {
					inner.Contains = []shop.Text{val("milk")}
					ing.Contains = []shop.Text{val("milk")}
				}
				ing.MadeOf = append(ing.MadeOf, inner)
			}
		}
		f := drawFigures(r)
		ing.Per100 = composed(f)
		p.shop.Ingredients[name] = ing
		p.shop.IngredientIDs = append(p.shop.IngredientIDs, name)
		if !l.Water && r.IntN(4) == 0 {
			p.quids = append(p.quids, name)
			prod.Percent = append(prod.Percent, shop.Percent{Pos: pos, Of: val(name), Because: val("in-name")})
		}
		for range 1 + r.IntN(8)/7 { // now and then in two lines
			p.food.Lines, p.figures = append(p.food.Lines, l), append(p.figures, f)
			lines = append(lines, shop.Line{Pos: pos, Use: val(name), Take: val(unit.Mass(l.Mass) * unit.Milligram)})
		}
	}
	stage := shop.Stage{Pos: pos, Stage: val("bake"), Add: lines}
	if r.IntN(3) > 0 {
		p.food.Lost = p.food.AtUse() * r.Int64N(34) / 100 / 1000 * 1000
		stage.WaterLost = val(shop.Portion{Mass: unit.Mass(p.food.Lost) * unit.Milligram})
	}
	prod.Parts = []shop.Stage{stage}
	prod.Keep.Life, prod.Keep.Date = val(unit.Life{Days: 9}), val("best-before")
	prod.Packs = []shop.Pack{{Pos: pos, Nutrition: val("declared"), Net: val(100 * unit.Gram), Pieces: val(unit.Count(1))}}
	p.shop.Products["p"], p.product = prod, prod
	return p
}

// mass is one that often lies near the limits of 2 and 5 %.
func mass(r *rand.Rand) int64 {
	if r.IntN(3) == 0 {
		return 1000 * (1 + r.Int64N(60))
	}
	return 1000 * (1 + r.Int64N(900))
}

func drawParts(r *rand.Rand, name string) (out []secondreader.Part) {
	left := int64(10_000)
	for i := range 2 + r.IntN(3) {
		s := 1 + r.Int64N(left/2)
		left -= s
		out = append(out, secondreader.Part{Name: fmt.Sprintf("%s%c", name, 'a'+i), Share: s, Additive: r.IntN(4) == 0, Allergen: r.IntN(4) == 0})
	}
	return append(out, secondreader.Part{Name: name + "z", Share: left})
}

func drawFigures(r *rand.Rand) (f secondreader.Figures) {
	g := func(most int64) int64 {
		switch r.IntN(4) {
		case 0:
			return 0
		case 1:
			return r.Int64N(1200)
		}
		return r.Int64N(most)
	}
	f.Fat, f.Carbohydrate, f.Fibre, f.Protein, f.Salt = g(40_000), g(40_000), g(6_000), g(9_000), g(2_500)
	f.Saturates, f.Sugars = r.Int64N(f.Fat+1), r.Int64N(f.Carbohydrate+1)
	if r.IntN(4) == 0 {
		f.Polyols, f.Alcohol, f.Acids = (f.Carbohydrate-f.Sugars)/2, r.Int64N(900), r.Int64N(500)
	}
	return f
}

func composed(f secondreader.Figures) *shop.Composition {
	mg := func(n int64) diag.At[unit.Mass] { return val(unit.Mass(n) * unit.Milligram) }
	return &shop.Composition{Pos: val("").Pos, Source: val("test"), Fat: mg(f.Fat), Saturates: mg(f.Saturates), Carbohydrate: mg(f.Carbohydrate), Sugars: mg(f.Sugars),
		Polyols: mg(f.Polyols), Fibre: mg(f.Fibre), Protein: mg(f.Protein), Salt: mg(f.Salt), Alcohol: mg(f.Alcohol), Acids: mg(f.Acids)}
}

// The list, its order, what stands in brackets, the percentages and the
// nutrition declaration of random foods, as the engine makes them and as a
// second reader of the acts does.
func TestSecondReader(t *testing.T) {
	r := rand.New(rand.NewPCG(1169, 2011))
	acts := map[string]secondreader.Act{"eu": secondreader.Union, "codex": secondreader.Codex, "au": secondreader.Australia, "us": secondreader.American}
	markets := map[string]*market.Market{}
	for code := range acts {
		markets[code], _ = market.Get(code)
	}
	water, relieved, grams := 0, 0, 0
	for i := range rounds() {
		p := drawPair(r)
		for _, code := range []string{"eu", []string{"codex", "au", "us"}[i%3]} {
			act := acts[code]
			p.product.Packs[0].Nutrition = val("exempt-small-maker")
			if code == "eu" {
				p.product.Packs[0].Nutrition = val("declared")
			}
			f, found := facts(p.shop, p.product, markets[code])
			if found.Errors() > 0 {
				t.Fatalf("food %d, %s: %v", i, code, found.All())
			}
			want := p.food.List(act)
			if why := sameList(f.Lists[0].Parts, want); why != "" {
				t.Fatalf("food %d, %s: %s\n%+v", i, code, why, p.food)
			}
			if len(want) < len(p.food.Lines) {
				water++
			}
			for _, e := range want {
				if len(e.Parts) > 0 && len(e.Parts) < 3 {
					relieved++
				}
			}
			if code != "eu" {
				continue
			}
			q := p.food.Quantities(p.quids)
			if why := sameQuantities(f.Lists[0].Parts, q); why != "" {
				t.Fatalf("food %d: %s\n%+v", i, why, p.food)
			}
			for _, x := range q {
				if x.Grams {
					grams++
				}
			}
			if why := p.sameFigures(f.Nutrition); why != "" {
				t.Fatalf("food %d: %s\n%+v\n%+v", i, why, p.food, p.figures)
			}
		}
	}
	for what, n := range map[string]int{"without water": water, "relieved": relieved, "in grams": grams} {
		if n < rounds()/100 {
			t.Errorf("only %d foods were %s", n, what)
		}
	}
}

func sameList(got []declare.Part, want []secondreader.Entry) string {
	if len(got) != len(want) {
		return fmt.Sprintf("%d entries, the act %d: %s", len(got), len(want), showParts(got))
	}
	at := map[string]secondreader.Entry{}
	for _, e := range want {
		at[e.Name] = e
	}
	for i, g := range got {
		e, ok := at[english(g.Name)]
		if !ok || e.Weight.Cmp(want[i].Weight) != 0 { // of equal weight either may be first
			return fmt.Sprintf("%s stands where %s belongs", english(g.Name), want[i].Name)
		}
		var inner []string
		for _, in := range g.Inner {
			inner = append(inner, english(in.Name))
		}
		if !slices.Equal(inner, e.Parts) {
			return fmt.Sprintf("%s holds %v, the act says %v", e.Name, inner, e.Parts)
		}
	}
	return ""
}

func showParts(parts []declare.Part) string {
	var out []string
	for _, p := range parts {
		out = append(out, showPart(p))
	}
	return strings.Join(out, ", ")
}

func sameQuantities(got []declare.Part, want map[string]secondreader.Quantity) string {
	n := 0
	for _, p := range got {
		q, ok := want[english(p.Name)]
		if (p.Quid != nil) != ok {
			return fmt.Sprintf("%s: a quantity %v, the act %v", english(p.Name), p.Quid != nil, ok)
		}
		if !ok {
			continue
		}
		n++
		if big.NewRat(int64(p.Quid.Used), int64(p.Quid.Of)).Cmp(q.Share) != 0 || p.Quid.PerHundred != q.Grams {
			return fmt.Sprintf("%s: %s of %s, in grams %v; the act %s, %v", english(p.Name), p.Quid.Used, p.Quid.Of, p.Quid.PerHundred, q.Share.FloatString(6), q.Grams)
		}
	}
	if n != len(want) {
		return fmt.Sprintf("%d quantities, the act %d", n, len(want))
	}
	return ""
}

// sameFigures holds the declaration against the second reader's.
func (p pair) sameFigures(got *declare.Nutrition) string {
	var masses []int64
	for _, l := range p.food.Lines {
		masses = append(masses, l.Mass)
	}
	fat, sat, carb, sug, pol, fib, pro, salt, alc, acid := secondreader.Add(p.figures, masses, p.food.Finished())
	kj, kcal := secondreader.Energy(fat, carb, pol, fib, pro, alc, acid)
	want := map[string]string{"energy-kj": secondreader.Whole(kj), "energy-kcal": secondreader.Whole(kcal), "fat": secondreader.UnionGrams(fat, false),
		"saturates": secondreader.UnionGrams(sat, true), "carbohydrate": secondreader.UnionGrams(carb, false), "sugars": secondreader.UnionGrams(sug, false),
		"protein": secondreader.UnionGrams(pro, false), "salt": secondreader.UnionSalt(salt)}
	n := 0
	for _, r := range got.Rows {
		w, ok := want[r.Key]
		if !ok {
			continue
		}
		n++
		if g, same := sameFigure(r.Shown, w); !same {
			return fmt.Sprintf("%s is %s, the guidance rounds it to %s", r.Key, g, w)
		}
	}
	if n != len(want) {
		return fmt.Sprintf("%d lines, %d were computed", n, len(want))
	}
	return ""
}

// sameFigure compares figures as numbers: 9.97 g rounds to 10.0 g by the step
// below 10 g and is printed as 10 g, and the rules set no number of zeros.
func sameFigure(r market.Rounded, want string) (string, bool) {
	less, digits := strings.CutPrefix(want, "< ")
	got, _, _ := strings.Cut(strings.TrimPrefix(figure(r), "< "), " ")
	if !digits {
		less = want
	}
	a, ok := new(big.Rat).SetString(got)
	b, too := new(big.Rat).SetString(less)
	return figure(r), ok && too && a.Cmp(b) == 0 && r.Less == digits
}

// Figures for a serving in the United States, Canada and Australia.
func TestSecondReaderRounds(t *testing.T) {
	r := rand.New(rand.NewPCG(101, 9))
	us, _ := market.Get("us")
	ca, _ := market.Get("ca")
	au, _ := market.Get("au")
	units := map[string]market.Amount{"kcal": market.One, "kJ": market.One, "g": market.One, "mg": market.Milli}
	same := func(m *market.Market, key string, v market.Amount, want func(string, *big.Rat) string) {
		n, _ := m.Nutrition.Find(key)
		got, ok := m.Nutrition.Round(key, v)
		w := want(key, big.NewRat(int64(v), int64(units[n.Unit])))
		if g, same := sameFigure(got, w); !ok || !same {
			t.Fatalf("%s: %s of %v is %s, the rule says %s", m.Code, key, v, g, w)
		}
	}
	for range rounds() {
		v := market.Amount(r.Int64N(int64(12*market.One))) / market.Milli * market.Milli
		if r.IntN(2) == 0 {
			v = market.Amount(r.Int64N(24)) * market.One / 4 // at the edges
		}
		for _, key := range []string{"fat", "saturates", "trans", "carbohydrate", "fibre", "sugars", "protein"} {
			same(us, key, v, secondreader.AmericanFigure)
		}
		same(us, "energy-kcal", v*20, secondreader.AmericanFigure)
		for _, key := range []string{"sodium", "cholesterol"} {
			same(us, key, v/20, secondreader.AmericanFigure)
		}
		for _, key := range []string{"carbohydrate", "fibre", "sugars"} {
			same(ca, key, v, secondreader.CanadianFigure)
		}
		for _, key := range []string{"potassium", "calcium"} {
			same(ca, key, v/20, secondreader.CanadianFigure)
		}
		same(ca, "iron", v/2000, secondreader.CanadianFigure)
		for _, key := range []string{"energy-kj", "fat", "sugars", "sodium"} {
			got, _ := au.Nutrition.Round(key, v*50)
			if g, _, _ := strings.Cut(figure(got), " "); !secondreader.AustralianSignificant(g) {
				t.Fatalf("au: %s is %s: more than three significant figures", key, g)
			}
		}
	}
}
