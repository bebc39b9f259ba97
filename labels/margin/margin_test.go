package margin

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/samples"
)

func demo(t testing.TB, id string) Question {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	eu, _ := market.Get("eu")
	en, _ := words.Get("en")
	p := sh.Products[id]
	if found.Errors() > 0 || p == nil {
		t.Fatal(found.All())
	}
	return Question{sh, p, &p.Packs[0], eu, unit.Date{Year: 2026, Month: 3, Day: 17}, en}
}

// find finds a margin.
func find(t *testing.T, all []Margin, kind Kind, of, what string) Margin {
	t.Helper()
	for _, m := range all {
		if m.Kind == kind && m.Of == of && m.What == what {
			return m
		}
	}
	t.Fatalf("no margin of %s %s %s", kind, of, what)
	return Margin{}
}

// The ends of the loss in the oven of the tartlets, worked by hand: 28 + 30 + 35
// + 3 = 96 g go in, and 1.5 g of jam is put on behind it. Of the finished piece
// the 35 g of pears are 41 % from 40.5 to 41.5 % (Reg. (EU) No 1169/2011 Annex
// VIII 4, rounded to whole percents): at a loss of x, 96 g × (1 − x) + 1.5 g is
// 35 g ÷ 0.405 or 35 g ÷ 0.415, so x is 11.541 % or 13.711 %.
func TestOvenByHand(t *testing.T) {
	m := find(t, Of(demo(t, "pear-hazelnut-tartlet"), Words()), WaterLost, "pear-hazelnut-tartlet", "bake")
	for _, c := range []struct {
		end  *End
		want unit.Share
	}{{m.Spans[0].Low, 115_410_000}, {m.Spans[0].High, 137_110_000}} {
		lo, hi := unit.Share(min(c.end.Same, c.end.Other)), unit.Share(max(c.end.Same, c.end.Other))
		if c.want < lo-10_000 || c.want > hi+10_000 || hi-lo > unit.Percent/100 {
			t.Errorf("%s to %s, by hand %s", lo, hi, c.want)
		}
		if len(c.end.Changes) != 1 || c.end.Changes[0].Sort != Quantity || !strings.Contains(strings.ReplaceAll(c.end.Changes[0].Was, "\u00a0", " "), "pear 41") {
			t.Errorf("%+v", c.end.Changes)
		}
	}
}

// Each rule is met: an order, a percentage, an entry, a figure, a refusal.
func TestSorts(t *testing.T) {
	sorts := map[Sort]bool{}
	for _, id := range []string{"lemon-thyme-marshmallow", "rye-shortbread-tin", "passion-caramel-bar"} {
		for _, m := range Of(demo(t, id), Words(), Whole()) {
			for _, s := range m.Spans {
				for _, e := range []*End{s.Low, s.High} {
					for i := 0; e != nil && i < len(e.Changes); i++ {
						sorts[e.Changes[i].Sort] = true
					}
				}
			}
		}
	}
	for _, s := range []Sort{Order, Quantity, Entry, Nutrition, Refused} {
		if !sorts[s] {
			t.Errorf("no change is of the sort %s", s)
		}
	}
}

// Added water that is 5 % of the finished food or less need not be named (Annex
// VII A 1): the end of the boil of a syrup lies there.
func TestWaterRule(t *testing.T) {
	q := demo(t, "lemon-thyme-marshmallow")
	all := Of(q, Watch{See: func(_, f *declare.Facts) string {
		for _, p := range f.Lists[0].Parts {
			if p.Ref == "water" {
				return "named"
			}
		}
		return "not named"
	}})
	end := find(t, all, WaterLost, "marshmallow", "boil").Spans[0].High
	if end == nil {
		t.Fatal("the water stays named however long it boils")
	}
	left := func(v int64) unit.Share { // by subtraction, as Annex VII A 1 says
		tr := &trial{Question: q}
		tr.own()
		k := tr.knobs()[slices.IndexFunc(tr.knobs(), func(k knob) bool { return k.Kind == WaterLost && k.Of == "marshmallow" })]
		k.set(v)
		var found diag.List
		f := declare.Of(tr.Shop, tr.Product, tr.Pack, tr.Market, tr.Made, &found)
		var others unit.Mass
		for _, p := range f.Lists[0].Parts {
			if p.Ref != "water" {
				others += p.Mass
			}
		}
		return (f.Finished - others).In(f.Finished)
	}
	if a, b := left(end.Same), left(end.Other); a <= 5*unit.Percent || b > 5*unit.Percent {
		t.Errorf("%s of water are named and %s are not", a, b)
	}
}

// says is all that a label says, put together from the declaration alone, with
// one figure of a shop set.
func says(t *testing.T, q Question, f Figure, v int64) string {
	t.Helper()
	tr := &trial{Question: q}
	tr.own()
	ks := tr.knobs()
	i := slices.IndexFunc(ks, func(k knob) bool { return k.At == f.At && k.Kind == f.Kind })
	if i < 0 {
		t.Fatalf("no figure %+v", f)
	}
	ks[i].set(v)
	var found diag.List
	l := words.Tell(declare.Of(tr.Shop, tr.Product, tr.Pack, tr.Market, tr.Made, &found), tr.Shop, tr.Lang, &found)
	if found.Errors() > 0 {
		return "refused"
	}
	s := l.Name.Text + l.May.Text + l.Net.Text + l.Keep.Text
	for _, p := range slices.Concat(l.Lists, l.Statements) {
		s += "\n" + p.Text
	}
	if l.Table != nil {
		s += fmt.Sprint(l.Table.Rows)
	}
	return s
}

// Of random formulas: just inside of a margin the label says the same, also at
// random places within, and just outside it says something else.
func TestRandom(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 28))
	ends := 0
	for round := range 8 {
		q := demo(t, []string{"lemon-thyme-marshmallow", "rye-shortbread-tin", "passion-caramel-bar", "pistachio-choux"}[round%4])
		tr := &trial{Question: q}
		tr.own()
		for _, k := range tr.knobs() { // another formula with the same files
			k.set(min(k.most-1, k.Value/2+r.Int64N(k.Value)))
		}
		q.Shop, q.Product = tr.Shop, tr.Product
		for _, m := range Of(q, Whole()) {
			was := says(t, q, m.Figure, m.Value)
			for _, e := range []*End{m.Spans[0].Low, m.Spans[0].High} {
				if e == nil || r.IntN(3) > 0 {
					continue
				}
				ends++
				for _, v := range []int64{e.Same, (e.Same + m.Value) / 2, m.Value + (e.Same-m.Value)/7} {
					if says(t, q, m.Figure, v) != was {
						t.Errorf("%s %s %s: at %d, within %d of %d, the label is another", m.Kind, m.Of, m.What, v, e.Same, m.Value)
					}
				}
				if got := says(t, q, m.Figure, e.Other); got == was {
					t.Errorf("%s %s %s: at %d, beyond the end, the label is the same\n%s", m.Kind, m.Of, m.What, e.Other, got)
				}
				if len(e.Changes) == 0 {
					t.Errorf("%s %s %s: nothing is told of the end", m.Kind, m.Of, m.What)
				}
			}
		}
	}
	if ends < 40 {
		t.Errorf("only %d ends", ends)
	}
}

// A figure that cannot be printed keeps its label from having margins.
func TestRefusedHasNone(t *testing.T) {
	q := demo(t, "rye-shortbread-tin")
	tr := &trial{Question: q}
	tr.own()
	for _, k := range tr.knobs() {
		if k.Kind == WaterLost {
			k.set(int64(unit.Whole))
		}
	}
	q.Shop, q.Product = tr.Shop, tr.Product
	if all := Of(q, Whole()); all != nil {
		t.Errorf("%d margins of a label that cannot be made", len(all))
	}
}

func ExampleOf() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	eu, _ := market.Get("eu")
	en, _ := words.Get("en")
	p := sh.Products["pear-hazelnut-tartlet"]
	for _, m := range Of(Question{sh, p, &p.Packs[0], eu, unit.Date{Year: 2026, Month: 3, Day: 17}, en}, Words()) {
		if m.Loss() && m.Of == p.ID {
			s := m.Spans[0]
			fmt.Println(m.Kind, m.What, m.Shown(m.Value), "between", m.Shown(s.Low.Same), "and", m.Shown(s.High.Same))
			fmt.Println(strings.ReplaceAll(s.Low.Changes[0].Was+" → "+s.Low.Changes[0].Now, "\u00a0", " "))
		}
	}
	// Output:
	// water-lost bake 12.5 % between 11.6 % and 13.7 %
	// pear 41 % → pear 40 %
}

func BenchmarkOf(b *testing.B) {
	q := demo(b, "pistachio-choux")
	for b.Loop() {
		Of(q, Words(), Tolerance(q.Market), Whole())
	}
}
