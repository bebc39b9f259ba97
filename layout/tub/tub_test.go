package tub

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// demo reads the demo shop and the faces.
func demo(t testing.TB) (*shop.Shop, *text.Faces) {
	t.Helper()
	return layouttest.Shop(t), layouttest.Faces(t)
}

// of is a tub of a demo formula, made on 16 March 2026, the day before.
func of(sh *shop.Shop, id, stockID string, codes ...string) Tub {
	s, _ := stock.Get(stockID)
	t := Tub{Shop: sh, Formula: sh.Formulas[id], Mass: 1385600 * unit.Milligram, Batch: "L26075A", N: 1, Of: 2,
		Made: unit.Date{Year: 2026, Month: 3, Day: 16}, Stock: s, Dots: unit.Dots{N: 12, Per: unit.MM}}
	for _, c := range codes {
		l, _ := words.Get(c)
		t.Langs = append(t.Langs, l)
	}
	return t
}

func Example() {
	faces, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	t := of(sh, "sweet-pastry", "roll-100x60", "en")
	art := Compose(t, faces, &found)
	end, _ := t.UseBy()
	fmt.Println(found.Len(), len(layouttest.Sheets(t.Stock, stock.Bed{}, art, art)), end)
	for _, it := range art.Items {
		if it.Role == role.Date || it.Role == role.Allergens || it.Role == role.Statement {
			fmt.Println(it.Role, strings.TrimSpace(it.Run.Text))
		}
	}
	// Output:
	// 0 2 2026-03-19
	// date 19.03.2026
	// date 16.03.2026
	// date :
	// allergens Contains
	// allergens wheat, eggs, milk, almonds
	// statement RAW – not ready to eat
}

// sheets is a label on a page of its stock; it is nil where there is no label.
func sheets(t Tub, faces *text.Faces, found *diag.List) []*page.Page {
	art := Compose(t, faces, found)
	if art == nil {
		return nil
	}
	return layouttest.Sheets(t.Stock, stock.Bed{Dots: t.Dots}, art)
}

// A4 with eight labels and the larger roll take every demo formula in one and
// in two languages; the small roll takes what fits in one.
func TestDemo(t *testing.T) {
	sh, faces := demo(t)
	fits := map[string]int{}
	for _, id := range sh.FormulaIDs {
		for _, st := range []string{"roll-100x60", "roll-40x30", "a4-8", "roll-100x100"} {
			for _, codes := range [][]string{{"en"}, {"fr"}, {"de"}, {"en", "fr"}, {"de", "fr"}, {"fr", "en"}} {
				t.Run(fmt.Sprint(id, st, codes), func(t *testing.T) {
					var found diag.List
					k := of(sh, id, st, codes...)
					art := Compose(k, faces, &found)
					if art == nil {
						layouttest.Refused(t, &found)
						return
					}
					fits[fmt.Sprint(st, len(codes))]++
					checked(t, k, art)
				})
			}
		}
	}
	want := map[string]int{"roll-100x601": 36, "roll-100x602": 36, "roll-100x1001": 36, "roll-100x1002": 36, "a4-81": 36, "a4-82": 36, "roll-40x301": 20}
	for k, n := range want {
		if fits[k] < n {
			t.Errorf("%s: %d labels fit, want %d", k, fits[k], n)
		}
	}
}

// checked holds a label against preflight, the reading distance and what must
// stand on it.
func checked(t layouttest.TB, k Tub, art *page.Art) {
	t.Helper()
	end, _ := k.UseBy()
	layouttest.Passes(t, preflight.Sheet{What: "the tub label", Src: k.Formula.Pos, Safe: art.Area().Inset(k.Stock.Safe.V),
		Heights: Heights(k.Stock), Today: k.Made, Date: end}, &page.Page{W: art.W, H: art.H, Items: art.Items})
	w, _ := k.Stock.Size()
	// The rule of the FAA, a two-hundredth of the distance: 0.4 m for a small
	// label, 0.5 m for another. The distances are common practice.
	least := 2500 * unit.UM
	if w == 40*unit.MM {
		least = 2 * unit.MM
	}
	layouttest.Capitals(t, least, art.Items)
	layouttest.Has(t, layouttest.Read(art.Items), musts(k)...)
}

// musts is what every label says.
func musts(k Tub) []string {
	end, _ := k.UseBy()
	out := []string{k.Batch, k.Langs[0].Date(k.Made, words.Day), k.Langs[0].Date(end, words.Day)}
	if k.Formula.Keep.Temp.Set() {
		out = append(out, k.Langs[0].Limit(k.Formula.Keep.Temp.V, true))
	}
	contains, may := declare.InFormula(k.Shop, k.Formula, declare.Known{Contains: k.Contains, May: k.May})
	for _, l := range k.Langs {
		name, _ := k.Formula.Name.Get(l.Code())
		out = append(out, name.V)
		for _, ids := range [][]string{contains, may} {
			var names []string
			for _, id := range ids {
				l, _ := l.For(strings.ToLower(k.Shop.Profile.Markets[0].V))
				n, _, _ := l.Allergen(id)
				names = append(names, n)
			}
			out = append(out, l.Join(names))
		}
		raw, _ := l.Word("tub.raw")
		if declare.Raw(k.Shop, k.Formula) {
			out = append(out, raw)
		}
		if none, _ := l.Word("tub.no-allergens"); len(contains) == 0 {
			out = append(out, none)
		}
	}
	return out
}

// The height of what must not be missed at 0.5 m is that of 20 minutes of arc
// (NUREG-0700, 1.3.1-4: H = 6.283 × D × MA ÷ 21600), 2.91 mm.
func TestHeights(t *testing.T) {
	sh, faces := demo(t)
	for st, want := range map[string]float64{"roll-100x60": 6.283 * 500 * 20 / 21600, "roll-40x30": 6.283 * 400 * 20 / 21600} {
		var found diag.List
		art := Compose(of(sh, "craquelin", st, "en"), faces, &found)
		if art == nil {
			t.Fatal(found.All())
		}
		for _, it := range art.Items {
			switch it.Role {
			case role.Name, role.Allergens, role.Batch, role.Statement:
				if got := it.Run.CapHeight.MM(); got < want-0.001 {
					t.Errorf("%s: %q is %.3f mm high, want %.3f", st, it.Run.Text, got, want)
				}
			}
		}
	}
}

// A label does not say that no allergen is known while nobody knows what is in
// an ingredient: without a specification from its supplier, at any depth, it is
// named (Reg. (EU) No 1169/2011 Art. 8(8): the supplier has to say).
func TestUnsure(t *testing.T) {
	sh, faces := demo(t)
	said := 0
	for _, id := range []string{"pear-syrup", "craquelin", "poached-pear", "passion-caramel"} {
		parts := scale.ExpandFormula(sh, sh.Formulas[id], unit.Kilogram)
		ing := parts[slices.IndexFunc(parts, func(c scale.Contribution) bool { return c.Ingredient.Spec != nil })].Ingredient
		spec := ing.Spec
		ing.Spec = nil
		name, _ := ing.Name.Get("en")
		for _, paper := range []string{"roll-100x60", "roll-40x30"} {
			var found diag.List
			k := of(sh, id, paper, "en")
			art := Compose(k, faces, &found)
			if art == nil {
				layouttest.Refused(t, &found)
				continue
			}
			said++
			checked(t, k, art)
			all := layouttest.Read(art.Items)
			layouttest.Has(t, all, "Allergens not known of: "+name.V)
			if strings.Contains(all, layouttest.Bare("No allergen known")) {
				t.Errorf("%s without a specification of %s: %s", id, ing.ID, all)
			}
		}
		ing.Spec = spec
	}
	if said < 4 {
		t.Errorf("%d labels were set", said)
	}
}

// The day of making is day 0; a part that must be used sooner ends it sooner.
func TestUseBy(t *testing.T) {
	sh, _ := demo(t)
	k := of(sh, "sweet-pastry", "roll-100x60", "en")
	for _, c := range []struct {
		until unit.Date
		want  string
	}{{unit.Date{}, "2026-03-19"}, {unit.Date{Year: 2026, Month: 3, Day: 18}, "2026-03-18"}, {unit.Date{Year: 2026, Month: 4, Day: 1}, "2026-03-19"}} {
		k.Until = c.until
		if got, ok := k.UseBy(); !ok || got.String() != c.want {
			t.Errorf("until %s: %s, want %s", c.until, got, c.want)
		}
	}
	k.Formula = &shop.Formula{}
	if _, ok := k.UseBy(); ok {
		t.Error("a formula without a life has a last day")
	}
}

func TestFaults(t *testing.T) {
	sh, faces := demo(t)
	change := func(do func(*shop.Formula)) func(*Tub) {
		return func(k *Tub) { f := *k.Formula; do(&f); k.Formula = &f }
	}
	for _, c := range []struct {
		name   string
		change func(*Tub)
		rule   string
	}{
		{"no life", change(func(f *shop.Formula) { f.Keep = nil }), "keep"},
		{"no batch", func(k *Tub) { k.Batch = " " }, "batch"},
		{"over before it was made", func(k *Tub) { k.Until = unit.Date{Year: 2026, Month: 3, Day: 15} }, "past"},
		{"no translation", change(func(f *shop.Formula) { f.Name = f.Name[:1] }), "translation"},
		{"a language without cards", func(k *Tub) { k.Langs[1], _ = words.Get("et") }, "words"},
		{"nothing in it", change(func(f *shop.Formula) { f.Lines = nil }), "empty"},
		{"nothing left of it", change(func(f *shop.Formula) {
			f.Losses = []shop.Loss{{Stage: shop.Text{V: "boil"}, WaterLost: diag.At[shop.Portion]{V: shop.Portion{Share: unit.Whole}, Pos: diag.Pos{Line: 1}}}}
		}), "empty"},
		{"three languages", func(k *Tub) { k.Langs = append(k.Langs, k.Langs[0]) }, "languages"},
		{"no language", func(k *Tub) { k.Langs = nil }, "languages"},
		{"an allergen that nobody knows", func(k *Tub) { k.Contains = []string{"rice"} }, "words"},
		{"a letter that no face has", change(func(f *shop.Formula) { f.Name = slices.Clone(f.Name); f.Name[0].V.V = "餅" }), "glyph"},
		{"too much", func(k *Tub) {
			k.May = strings.Fields("sesame lupin molluscs peanuts walnuts cashews celery mustard rye oats fish crustaceans barley soybeans")
		}, "does-not-fit"},
	} {
		var found diag.List
		k := of(sh, "sweet-pastry", "roll-100x60", "en", "fr")
		c.change(&k)
		pages := sheets(k, faces, &found)
		if pages != nil || found.Errors() == 0 || found.All()[0].Rule != c.rule || found.All()[0].Hint == "" {
			t.Errorf("%s: %d pages, %v", c.name, len(pages), found.All())
		}
	}
}

// A food without allergens says so; an unknown mass is written by hand; a
// frozen tub asks when it was thawed.
func TestWrittenByHand(t *testing.T) {
	sh, faces := demo(t)
	f := *sh.Formulas["craquelin"]
	f.Lines = slices.DeleteFunc(slices.Clone(f.Lines), func(l shop.Line) bool { return l.Use.V != "brown-sugar" })
	k := of(sh, "craquelin", "roll-100x60", "en")
	k.Formula, k.Mass, k.Of = &f, 0, 0
	var found diag.List
	art := Compose(k, faces, &found)
	if art == nil {
		t.Fatal(found.All())
	}
	checked(t, k, art)
	all := layouttest.Read(art.Items)
	for s, want := range map[string]bool{"No allergen known in it": true, "Contains": false, "thawed": true, "ready to eat": true, "tub 1": false, "1386": false} {
		if strings.Contains(all, layouttest.Bare(s)) != want {
			t.Errorf("%q on the label: %v", s, !want)
		}
	}
}

// Mass as a kitchen scale shows it.
func TestMass(t *testing.T) {
	en, _ := words.Get("en")
	for m, want := range map[unit.Mass]string{1385600 * unit.Milligram: "1386\u00a0g", 74240 * unit.Milligram: "74.2\u00a0g",
		9_999_400 * unit.Milligram: "9999\u00a0g", 12_345 * unit.Gram: "12.35\u00a0kg"} {
		if got := mass(en, m); got != want {
			t.Errorf("%s: %q, want %q", m, got, want)
		}
	}
}

// Whatever names, batches and allergens there are, a label bears them all,
// apart from each other and large enough, or it is refused with one finding.
func TestAnything(t *testing.T) {
	sh, faces := demo(t)
	sh.Profile.Markets = []shop.Text{{V: "CA"}} // which knows pine nuts, but not in German
	rapid.Check(t, func(r *rapid.T) {
		codes := rapid.SampledFrom([][]string{{"en"}, {"de", "fr"}, {"fr", "en"}}).Draw(r, "languages")
		k := of(sh, rapid.SampledFrom(sh.FormulaIDs).Draw(r, "formula"),
			rapid.SampledFrom([]string{"roll-100x60", "roll-40x30", "a4-8", "roll-100x100"}).Draw(r, "stock"), codes...)
		ids := slices.DeleteFunc(market.AllergenIDs(), func(id string) bool { return id == "pine nuts" && codes[0] == "de" })
		f := *k.Formula
		f.Name = nil
		for _, c := range codes {
			s := strings.Join(rapid.SliceOfN(rapid.StringMatching(`[A-ZÄÉa-zäéßgjp]{1,14}`), 1, 6).Draw(r, "name"), " ")
			f.Name = append(f.Name, shop.Words{{Key: shop.Text{V: c}, V: shop.Text{V: s}}}...)
		}
		k.Formula = &f
		k.Batch = rapid.StringMatching(`[A-Z0-9]{1,20}`).Draw(r, "batch")
		k.Mass = unit.Mass(rapid.Int64Range(0, 40_000).Draw(r, "grams")) * unit.Gram
		k.Contains = rapid.SliceOfN(rapid.SampledFrom(ids), 0, 6).Draw(r, "contains")
		k.May = rapid.SliceOfN(rapid.SampledFrom(ids), 0, 6).Draw(r, "may")
		var found diag.List
		if art := Compose(k, faces, &found); art != nil {
			checked(r, k, art)
		} else {
			layouttest.Refused(r, &found)
		}
	})
}

func TestGolden(t *testing.T) {
	sh, faces := demo(t)
	for _, c := range []struct {
		id, stock string
		codes     []string
	}{
		{"sweet-pastry", "roll-100x60", []string{"en", "fr"}},
		{"pistachio-diplomat", "roll-40x30", []string{"en"}},
		{"craquelin", "a4-8", []string{"de"}},
		{"rye-shortbread", "roll-100x60", []string{"de", "fr"}},
	} {
		var found diag.List
		pages := sheets(of(sh, c.id, c.stock, c.codes...), faces, &found)
		if pages == nil {
			t.Fatal(found.All())
		}
		layouttest.Golden(t, c.id+".dump", pages[0].Dump())
	}
}

// Nine labels take two sheets of eight, each at its place on whole dots, and
// two runs give the same file.
func TestSheets(t *testing.T) {
	sh, faces := demo(t)
	var files [2][]byte
	for i := range files {
		var found diag.List
		k := of(sh, "sweet-pastry", "a4-8", "en")
		art := Compose(k, faces, &found)
		pages := layouttest.Sheets(k.Stock, stock.Bed{Dots: k.Dots, Right: 700 * unit.UM}, slices.Repeat([]*page.Art{art}, 9)...)
		if len(pages) != 2 || len(pages[0].Placed) != 8 || len(pages[1].Placed) != 1 {
			t.Fatalf("%d pages", len(pages))
		}
		preflight.Placed(preflight.Sheet{What: "the tub label", Dots: k.Dots}, pages[0], &found)
		for j, p := range pages[0].Placed {
			if d := p.X - k.Stock.Place(j).X - 700*unit.UM; d < -k.Dots.At(1) || d > k.Dots.At(1) || k.Dots.Snap(p.Y) != p.Y {
				t.Errorf("label %d lies at %s, %s", j, p.X, p.Y)
			}
		}
		if files[i] = layouttest.PDF(t, pages...); found.Len() > 0 {
			t.Fatal(found.All())
		}
	}
	if !bytes.Equal(files[0], files[1]) {
		t.Error("the same labels give two files")
	}
}
