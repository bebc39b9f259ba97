package samples_test

import (
	"math"
	"strings"
	"testing"

	"chablon/labels/cost"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// need adds up, in floating point and straight from the shop's files, what n good
// pieces of a product take of each ingredient as bought, in grams: a second
// working beside labels/scale, which counts in whole numbers.
func need(sh *shop.Shop, p *shop.Product, n float64, buy map[string]float64) {
	n /= 1 - float64(p.LostInHandling.V)/float64(unit.Whole)
	if p.CutTo.V > 0 { // so many slabs
		slab := 0.0
		for _, st := range p.Parts {
			for _, l := range st.Add {
				slab += float64(l.Take.V)
			}
			slab -= lost(st.WaterLost.V, slab)
		}
		n *= float64(p.CutTo.V) / slab
	}
	for _, l := range p.Lines() {
		each := n / (1 - float64(l.LostInHandling.V)/float64(unit.Whole))
		if q := sh.Products[l.Use.V]; q != nil {
			need(sh, q, math.Ceil(each*float64(l.Pieces.V)-1e-9), buy)
			continue
		}
		weigh(sh, l, float64(l.Take.V)/float64(unit.Gram)*each, buy)
	}
}

// lost is what goes missing of m ng.
func lost(p shop.Portion, m float64) float64 {
	return float64(p.Mass) + m*float64(p.Share)/float64(unit.Whole)
}

// weigh takes so many grams of a line: of a formula all that it is made of.
func weigh(sh *shop.Shop, l shop.Line, grams float64, buy map[string]float64) {
	f := sh.Formulas[l.Use.V]
	if f == nil {
		in := sh.Ingredients[l.Use.V]
		if w := l.WeighedFor; w != nil { // by the root of the strengths
			grams *= math.Sqrt(float64(w.Bloom.V) / 220)
		}
		if e := in.Edible.V; e > 0 {
			grams /= float64(e) / float64(unit.Whole)
		}
		buy[in.ID] += grams
		return
	}
	in := 0.0
	for _, l := range f.Lines {
		in += float64(l.Take.V)
	}
	if f.CookedIn != nil {
		in += float64(f.CookedIn.SoakedUp.V)
	}
	for _, loss := range f.Losses {
		in -= lost(loss.WaterLost.V, in) + lost(loss.LeftBehind.V, in)
	}
	k := grams / (in / float64(unit.Gram))
	for _, l := range f.Lines {
		weigh(sh, l, float64(l.Take.V)/float64(unit.Gram)*k, buy)
	}
	if c := f.CookedIn; c != nil {
		m := float64(c.Make.V) // all of its formula where nothing is said
		for _, l := range sh.Formulas[c.Use.V].Lines {
			if !c.Make.Set() {
				m += float64(l.Take.V)
			}
		}
		weigh(sh, shop.Line{Use: c.Use}, m/float64(unit.Gram)*k, buy)
	}
}

// The shopping list is the sum of what is weighed on its days, losses, trimmings
// and cooking medium included; assortments take their pieces from the other runs.
func TestShoppingIsWhatIsWeighed(t *testing.T) {
	sh := demo(t)
	want := map[string]float64{}
	var days []*scale.Day
	for _, plan := range sh.Plans {
		d, err := scale.PlanDay(sh, plan)
		if err != nil {
			t.Fatal(err)
		}
		days = append(days, d)
		for _, r := range plan.Runs {
			if p := sh.Products[r.Product.V]; len(p.Lines()) > 0 && sh.Products[p.Lines()[0].Use.V] == nil {
				need(sh, p, float64(r.Pieces.V), want)
			}
		}
	}
	all := scale.Together(days...)
	if len(all) != len(want) {
		t.Errorf("%d ingredients are bought, want %d", len(all), len(want))
	}
	for _, b := range all {
		id, got := b.Ingredient.ID, float64(b.Bought)/float64(unit.Gram)
		if math.Abs(got-want[id]) > 0.01 {
			t.Errorf("%s: %.3f g are bought, want %.3f g", id, got, want[id])
		}
		if pack := float64(b.Ingredient.OrderPack.V) / float64(unit.Gram); pack > 0 && b.Packs != int64(math.Ceil(want[id]/pack)) {
			t.Errorf("%s: %d packs of %g g for %.1f g", id, b.Packs, pack, want[id])
		}
	}
}

// What a batch costs is the sum over what it takes as bought, each by the price
// of its order pack (of a kilogram where it is bought loose), and its hands-on
// time: worked out a second time, in floating point.
func TestCostIsTheSum(t *testing.T) {
	sh := demo(t)
	for _, id := range sh.ProductIDs {
		buy, want := map[string]float64{}, 0.0
		need(sh, sh.Products[id], 48, buy)
		for in, grams := range buy {
			i := sh.Ingredients[in]
			pack := 1000.0
			if i.OrderPack.V > 0 {
				pack = float64(i.OrderPack.V) / float64(unit.Gram)
			}
			want += float64(i.Price.V.Minor) * grams / pack
		}
		c, err := cost.Of(sh, sh.Products[id], 48)
		if err != nil {
			t.Fatal(err)
		}
		if got := float64(c.Ingredients()) / float64(cost.One); math.Abs(got-want) > 0.01 || len(c.Unpriced()) > 0 || c.Currency != "EUR" {
			t.Errorf("%s: ingredients cost %.4f cents, want %.4f; no price of %v", id, got, want, c.Unpriced())
		}
		labour := float64(c.Hands) / float64(unit.Hour) * float64(sh.Profile.Hour.V.Minor)
		if got := float64(c.Labour) / float64(cost.One); math.Abs(got-labour) > 0.01 || !c.Priced || c.Together() != c.Ingredients()+c.Labour {
			t.Errorf("%s: %s of work cost %.4f cents, want %.4f", id, c.Hands, got, labour)
		}
	}
}

// A price that is missing is named and not guessed, one in another currency
// counts as missing, and tap water costs nothing.
func TestUnpriced(t *testing.T) {
	sh := demo(t)
	p := sh.Products["pear-hazelnut-tartlet"]
	whole, err := cost.Of(sh, p, 48)
	if err != nil {
		t.Fatal(err)
	}
	sh.Ingredients["butter"].Price = shop.Ingredient{}.Price
	sh.Ingredients["egg"].Price.V.Currency = "GBP"
	c, err := cost.Of(sh, p, 48)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, in := range c.Unpriced() {
		names = append(names, in.ID)
	}
	if got := strings.Join(names, " "); got != "butter egg" || c.Ingredients() >= whole.Ingredients() || !c.Known() {
		t.Errorf("no price of %q", got)
	}
	sh.Profile.Hour = shop.Profile{}.Hour
	if c, _ = cost.Of(sh, p, 48); c.Priced || c.Labour != 0 || c.Hands == 0 {
		t.Error("work has a price that nobody wrote")
	}
}
