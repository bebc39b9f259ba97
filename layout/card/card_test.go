package card

import (
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/stock"
)

// TestGolden compares cards with dumps that were read: every product and
// formula of the demo shop on A4, and one formula on every card stock in two
// languages.
func TestGolden(t *testing.T) {
	sh := layouttest.Shop(t)
	golden := map[string]Card{}
	for _, id := range sh.ProductIDs {
		golden[id+"-card-a4"] = cardOf(t, sh, id, "card-a4", "en")
	}
	for _, id := range sh.FormulaIDs {
		golden[id+"-card-a4"] = cardOf(t, sh, id, "card-a4", "en")
	}
	for _, id := range cardStocks(t) {
		golden["pistachio-pastry-cream-"+id] = cardOf(t, sh, "pistachio-pastry-cream", id, "en+fr")
	}
	var want []string
	for name, c := range golden {
		for i, pg := range composed(t, c) {
			file := filepath.Join("testdata", fmt.Sprintf("%s-%d.txt", name, i+1))
			want = append(want, file)
			layouttest.Golden(t, filepath.Base(file), pg.Dump())
		}
	}
	have, err := filepath.Glob("testdata/[^w]*.txt")
	if err != nil || len(have) == 0 {
		t.Fatalf("no golden files (%v)", err)
	}
	for _, file := range have {
		if !slices.Contains(want, file) {
			t.Errorf("%s belongs to no card", file)
		}
	}
}

func cardStocks(t testing.TB) []string {
	var out []string
	for _, id := range stock.IDs() {
		if strings.HasPrefix(id, "card-") {
			out = append(out, id)
		}
	}
	if len(out) != 6 {
		t.Fatalf("only %d card stocks", len(out))
	}
	return out
}

// TestEveryPaper sets everything of the demo shop on every card stock in one
// and two languages. A card is fit for printing, or refused because a step
// does not fit on the paper; nothing is left out of it.
func TestEveryPaper(t *testing.T) {
	sh := layouttest.Shop(t)
	var refused []string
	for _, id := range append(slices.Clone(sh.ProductIDs), sh.FormulaIDs...) {
		for _, on := range cardStocks(t) {
			for _, langs := range []string{"en", "fr+en"} {
				small := on == "card-a6" && langs != "en" // the longest step is too much for a tub card
				c := cardOf(t, sh, id, on, langs)
				c.Code = true
				var found diag.List
				pages := Compose(c, layouttest.Faces(t), &found)
				if len(pages) == 0 && small && layouttest.Only(&found, "overflow") {
					refused = append(refused, fmt.Sprintf("%s on %s in %s: %v", id, on, langs, found.All()[0]))
					continue
				}
				checkPages(c, pages, &found)
				for _, d := range found.All() {
					t.Errorf("%s on %s in %s: %v", id, on, langs, d)
				}
				complete(t, c, pages)
			}
		}
	}
	if len(refused) > 2 {
		t.Errorf("refused: %v", refused)
	}
}

// complete checks that every step and every amount can be read.
func complete(t testing.TB, c Card, pages []*page.Page) {
	t.Helper()
	all := readAll(pages)
	var found diag.List
	said := tell(c, &found)
	for _, r := range said.Rows {
		if r.Step == nil {
			for _, s := range said.Lanes[r.Lane].Name.In {
				layouttest.Has(t, all, s)
			}
			continue
		}
		completeStep(t, all, r.Step)
	}
	if a := missing(c, pages); a != nil {
		t.Errorf("%v of %s is not on the card", a.Shown, a.Line.Ref())
	}
}

// missing gives an amount of the batch that does not stand on the pages as
// often as it is weighed.
func missing(c Card, pages []*page.Page) *scale.Amount {
	have, number := map[string]int{}, ""
	runs(pages, func(it page.Item) {
		switch s := layouttest.Bare(it.Run.Text); {
		case it.Role != role.Amount:
		case strings.Trim(s, "0123456789.,") == "":
			number = s // its unit follows
		default:
			have[number+s]++
			number = ""
		}
	})
	for _, a := range c.Batch.Amounts() {
		s := layouttest.Bare(c.Langs[0].MassIn(a.Shown, "g", decimalsOf(a.Step)))
		if have[s]--; have[s] < 0 {
			return a
		}
	}
	return nil
}

func decimalsOf(step unit.Mass) int {
	switch {
	case step%unit.Gram == 0:
		return 0
	case step%(unit.Gram/10) == 0:
		return 1
	}
	return 2
}

func completeStep(t testing.TB, all string, st *step) {
	t.Helper()
	texts := slices.Concat(st.Do.In, st.Tool.In, st.Look.In, st.Keep.In, []string{st.Hands, st.Wait, st.Total})
	for _, p := range st.Puts {
		texts = append(append(texts, p.Name.In...), p.Amount)
	}
	for _, h := range st.Heats {
		texts = append(texts, h.Lead, h.Other)
	}
	if l := st.Limit; l != nil {
		texts = slices.Concat(texts, l.Measure.In, l.IfNot.In, l.Within.In, l.Hold.In)
	}
	for _, s := range texts {
		layouttest.Has(t, all, s)
	}
}

// TestColumnsAddUp adds the exact amounts: the total is their sum at the coarsest
// step of the column, and what is printed adds up to it within half a step for
// each line.
func TestColumnsAddUp(t *testing.T) {
	sh := layouttest.Shop(t)
	sums := 0
	for _, id := range sh.ProductIDs {
		var found diag.List
		said := tell(cardOf(t, sh, id, "card-a4", "en"), &found)
		for _, l := range said.Lanes {
			if l.Total == "" {
				continue
			}
			var sum, exact, within, coarsest unit.Mass
			for _, p := range l.puts {
				if !p.Aside {
					sum += parsed(t, p.Amount)
				}
			}
			for _, a := range l.make.Lines {
				exact, within, coarsest = exact+a.Exact, within+a.Step/2, max(coarsest, a.Step)
			}
			if said := parsed(t, l.Total); said != exact.Round(coarsest) || max(sum-exact, exact-sum) > within {
				t.Errorf("%s: the amounts of %s add up to %v, and the card says %v", id, l.Name.first(), exact, said)
			}
			sums++
		}
	}
	if sums < 10 {
		t.Errorf("only %d sums", sums)
	}
}

func parsed(t *testing.T, s string) unit.Mass {
	t.Helper()
	m, err := unit.ParseMass(strings.NewReplacer("\u00a0", " ", "\u202f", "").Replace(s))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestFigures looks for figures worked out by hand from the demo formulas for
// 48 tartlets with 3 % lost in handling, rounded to the shop's scales (0.1 g
// up to 50 g, 1 g above); batch yield and trim after
// W. Gisslen, Professional Baking. The temperatures are those of the °C/°F table (F = C × 9/5 + 32,
// differences × 1.8), limits rounded to the safe side.
func TestFigures(t *testing.T) {
	all := readAll(composed(t, cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en")))
	for _, s := range []string{
		"600 g", "360 g", "228 g", "72 g", "120 g", "4.8 g", // 600.3, 360.2, 228.1, 72.0, 120.1, 4.80
		"359 g", "324 g", "44.9 g", "35.9 g", "1.8 g", // 359.5, 323.5, 44.9, 35.9, 1.80
		"1732 g", "2309 g", "148 g", "74 g", // pear as prepared and as bought, nuts, jam
		"165 °C", "329 °F", "88 ± 3 °C", "190 ± 5 °F", "≥ 92 °C", "198 °F", "≤ 5 °C", "41 °F", "150 °C", "302 °F",
		"5 h 47 min", "2 h 35 min", // 347 and 155 minutes on the critical path and in the hands
		"4 × tray of 12 rings", "48 × 85.5 g",
		"LIMIT", "within 2 h", "discard pears and syrup", "start at", "done by",
		"wheat · eggs · milk · almonds · hazelnuts",
	} {
		layouttest.Has(t, all, s)
	}
}

// TestEndWeight: the pan of 60 caramel bars ends at its own weight and 1052 g
// (60 × 17 g ÷ 0.97).
func TestEndWeight(t *testing.T) {
	all := readAll(composed(t, cardOf(t, layouttest.Shop(t), "passion-caramel-bar", "card-a5", "en")))
	layouttest.Has(t, all, "pan + 1052 g")
	layouttest.Has(t, all, "Hot sugar: sticks and burns deep.")
}

func TestMissingTranslation(t *testing.T) {
	var found diag.List
	pages := Compose(cardOf(t, layouttest.Shop(t), "marshmallow", "card-a4", "de"), layouttest.Faces(t), &found)
	if len(pages) > 0 {
		t.Error("a card without its translation was set")
	}
	if !layouttest.Only(&found, "translation") {
		t.Errorf("found %v", found.All())
	}
	for _, d := range found.All() {
		if d.Pos.File != "formulas/marshmallow.yaml" || d.Pos.Line == 0 || d.Hint == "" {
			t.Errorf("%v does not say where, or what to do", d)
		}
	}
}

// TestRefused: what a card may not be silent about, and what it cannot be.
func TestRefused(t *testing.T) {
	for _, tc := range []struct {
		name, rule string
		spoil      func(*testing.T, *Card)
	}{
		{"an allergen not said", "allergen-lost", func(_ *testing.T, c *Card) { c.Contains = []string{"wheat"} }},
		{"no batch", "card", func(_ *testing.T, c *Card) { c.Batch = nil }},
		{"product and formula", "card", func(_ *testing.T, c *Card) { c.Formula = c.Shop.Formulas["choux-paste"] }},
		{"three languages", "card", func(t *testing.T, c *Card) { c.Langs = tongues(t, "en+fr+de") }},
		{"no words for cards", "card", func(t *testing.T, c *Card) { c.Langs = tongues(t, "fi") }},
		{"a roll of labels", "card", func(t *testing.T, c *Card) { c.Stock = layouttest.Paper(t, "roll-100x60") }},
		{"steps in a circle", "circle", func(_ *testing.T, c *Card) {
			f := c.Shop.Formulas["choux-paste"]
			f.Steps[0].Needs = []shop.Text{f.Steps[1].ID}
		}},
		{"a character without a shape", "glyph", func(_ *testing.T, c *Card) {
			f := c.Shop.Formulas["choux-paste"]
			f.Steps[0].Do[0].V.V = "Boil 水."
		}},
		{"a step higher than the paper", "overflow", func(t *testing.T, c *Card) {
			f := c.Shop.Formulas["choux-paste"]
			f.Steps[0].Do[0].V.V = strings.Repeat("Boil the water. ", 200)
		}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a4", "en")
			tc.spoil(t, &c)
			var found diag.List
			if pages := Compose(c, layouttest.Faces(t), &found); pages != nil {
				t.Errorf("it was set on %d pages", len(pages))
			}
			if !slices.Contains(rules(&found), tc.rule) {
				t.Errorf("found %v, want %s", found.All(), tc.rule)
			}
		})
	}
}

// TestSizes shows three batches side by side, the one of the day bold.
func TestSizes(t *testing.T) {
	sh := layouttest.Shop(t)
	c := cardOf(t, sh, "pear-hazelnut-tartlet", "card-a4", "en")
	for _, n := range []unit.Count{24, 48, 96} {
		b, err := scale.Pieces(sh, c.Product, n)
		if err != nil {
			t.Fatal(err)
		}
		c.Sizes = append(c.Sizes, b)
	}
	var found diag.List
	said := tell(c, &found)
	if tb := said.Table; tb == nil || !slices.Equal(tb.Sizes, []string{"24", "48", "96"}) || tb.Chosen != 1 {
		t.Fatalf("the table is %+v", said.Table)
	}
	// Flour and butter of the sweet pastry for 24, 48, 96, worked out by hand.
	for _, r := range said.Table.Rows {
		if want := map[string]string{"wheat flour": "300 g|600 g|1201 g", "icing sugar": "114 g|228 g|456 g"}[r.Name.first()]; want != "" {
			if got := strings.ReplaceAll(strings.Join(r.Amounts, "|"), "\u00a0", " "); got != want {
				t.Errorf("%s: %s, want %s", r.Name.first(), got, want)
			}
		}
	}
	pages := composed(t, c)
	layouttest.Has(t, readAll(pages), "batch sizes")
	complete(t, c, pages)
}

// TestCode: the code says which card it is and lies on whole printer dots,
// which the check of the pages looks at.
func TestCode(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "rye-shortbread-tin", "card-a5", "en")
	c.Code = true
	var codes []string
	for _, pg := range composed(t, c) {
		for _, it := range pg.All() {
			if it.Symbol != nil {
				codes = append(codes, it.Symbol.Data)
			}
		}
	}
	if want := "rye-shortbread-tin v3 16.02.2026 120 pieces " + CheckWord(c); !slices.Equal(codes, []string{want}) {
		t.Errorf("the codes are %q, want %q", codes, want)
	}
}

// TestSame: the same card gives the same marks.
func TestSame(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a5", "fr+en")
	a, b := composed(t, c), composed(t, cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a5", "fr+en"))
	if len(a) != len(b) {
		t.Fatalf("%d and %d pages", len(a), len(b))
	}
	for i := range a {
		if a[i].Dump() != b[i].Dump() {
			t.Errorf("page %d differs", i+1)
		}
	}
}

func BenchmarkCompose(b *testing.B) {
	c := cardOf(b, layouttest.Shop(b), "pear-hazelnut-tartlet", "card-a4", "en+fr")
	faces := layouttest.Faces(b)
	for b.Loop() {
		var found diag.List
		if len(Compose(c, faces, &found)) == 0 {
			b.Fatal(found.All())
		}
	}
}

// TestTimeline: the critical path method on the steps of the tartlet, worked
// out by hand: the pears can wait 20 minutes, the nuts 2 h 20 min, and pastry,
// shaping, baking and packing cannot (Kelley and Walker, 1959). Bars are as
// long as their time.
func TestTimeline(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en")
	pages := composed(t, c)
	all := readAll(pages)
	for _, s := range []string{"can wait 20 min", "can wait 2 h 20 min", "time 0", "5 h"} {
		layouttest.Has(t, all, s)
	}
	var hours [2]unit.Length
	for _, pg := range pages {
		runs([]*page.Page{pg}, func(it page.Item) {
			for i, s := range []string{"1\u00a0h", "5\u00a0h"} {
				if it.Run.Text == s && it.Run.Gray == soft {
					hours[i] = it.Box.X
				}
			}
		})
	}
	minute := (hours[1] - hours[0]) / 240
	if minute <= 0 {
		t.Fatal("no hours")
	}
	hatched := 0
	for _, pg := range pages {
		for _, it := range pg.All() {
			if s := it.Shape; s == nil || s.Kind != page.Hatched || it.Box.W < 6*unit.MM {
				continue
			}
			hatched++
			if got := (it.Box.W + minute/2) / minute; got != 30 && got != 12 { // baking, toasting
				t.Errorf("a bar of %d minutes in the oven", got)
			}
		}
	}
	if hatched != 2 {
		t.Errorf("%d bars in the oven, want 2", hatched)
	}
}
