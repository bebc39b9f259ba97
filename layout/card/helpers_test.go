package card

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// demo loads the demo shop anew, so that a test may change it.
func demo(t testing.TB) *shop.Shop {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	if found.Errors() > 0 {
		t.Fatal(found.All()[0])
	}
	return sh
}

func typefaces(t testing.TB) *text.Faces {
	t.Helper()
	f, err := shipped()
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func tongues(t testing.TB, codes string) []*words.Lang {
	t.Helper()
	var out []*words.Lang
	for _, c := range strings.Split(codes, "+") {
		l, ok := words.Get(c)
		if !ok {
			t.Fatalf("no language %q", c)
		}
		out = append(out, l)
	}
	return out
}

func paper(t testing.TB, id string) *stock.Stock {
	t.Helper()
	s, ok := stock.Get(id)
	if !ok {
		t.Fatalf("no stock %q", id)
	}
	return s
}

// day's batches of the demo shop's plan.
func pieces() map[string]unit.Count {
	return map[string]unit.Count{"pear-hazelnut-tartlet": 48, "passion-caramel-bar": 60, "rye-shortbread-tin": 120,
		"pistachio-choux": 40, "lemon-thyme-marshmallow": 80, "bench-tin": 10}
}

// cardOf is the card of a product or formula of sh.
func cardOf(t testing.TB, sh *shop.Shop, id, paperID, langs string) Card {
	t.Helper()
	c := Card{Shop: sh, Product: sh.Products[id], Formula: sh.Formulas[id], Langs: tongues(t, langs),
		Stock: paper(t, paperID), Dots: unit.Dots{N: 600, Per: unit.Inch}, Copy: 1, Copies: 3}
	var err error
	if c.Product != nil {
		c.Batch, err = scale.Pieces(sh, c.Product, pieces()[id])
		c.Pack = &c.Product.Packs[0]
		c.Contains = declared(t, sh, c.Product)
	} else {
		c.Batch, err = scale.Mass(sh, c.Formula, c.Formula.Out())
		c.Contains = inside(c.Batch)
	}
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func declared(t testing.TB, sh *shop.Shop, p *shop.Product) []string {
	t.Helper()
	eu, ok := market.Get("EU")
	if !ok {
		t.Fatal("no market EU")
	}
	var found diag.List
	made, err := unit.ParseDate("2026-03-17")
	if err != nil {
		t.Fatal(err)
	}
	return declare.Of(sh, p, &p.Packs[0], eu, made, &found).Contains
}

// inside are the allergens of the ingredients of a batch.
func inside(b *scale.Batch) []string {
	var out []string
	for _, a := range b.Amounts() {
		if a.Ingredient == nil {
			continue
		}
		for _, id := range a.Ingredient.Contains {
			if !slices.Contains(out, id.V) {
				out = append(out, id.V)
			}
		}
	}
	return out
}

// composed sets a card that must be fit for printing.
func composed(t testing.TB, c Card) []*page.Page {
	t.Helper()
	var found diag.List
	pages := Compose(c, typefaces(t), &found)
	checkPages(c, pages, &found)
	for _, d := range found.All() {
		if !d.Warning {
			t.Error(d)
		}
	}
	if len(pages) == 0 {
		t.Fatal("no pages")
	}
	return pages
}

func checkPages(c Card, pages []*page.Page, found *diag.List) {
	id, src := c.id()
	for _, pg := range pages {
		preflight.Label(preflight.Sheet{What: "the card of " + id, Src: src, Use: "retail",
			Safe: pg.Area().Inset(c.Stock.Safe.V), Heights: Heights(c.Stock)}, pg.All(), found)
	}
}

// readAll is what a reader sees on the pages, in the order of the marks.
func readAll(pages []*page.Page) string {
	var b strings.Builder
	for _, pg := range pages {
		for _, it := range pg.All() {
			if it.Run != nil {
				b.WriteString(it.Run.Text)
				b.WriteByte(' ')
			}
		}
	}
	return squeezed(b.String())
}

// squeezed is s without any spaces, so that line breaks do not count.
func squeezed(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" \u00a0\u202f\n\t", r) {
			return -1
		}
		return r
	}, s)
}

// mustRead fails unless s stands on the pages.
func mustRead(t testing.TB, all, s string) {
	t.Helper()
	if s != "" && !strings.Contains(all, squeezed(s)) {
		t.Errorf("%q is not on the card", s)
	}
}

// runs calls f for every run of the pages.
func runs(pages []*page.Page, f func(page.Item)) {
	for _, pg := range pages {
		for _, it := range pg.All() {
			if it.Run != nil {
				f(it)
			}
		}
	}
}

// rules are the names of the rules found.
func rules(found *diag.List) []string {
	var out []string
	for _, d := range found.All() {
		out = append(out, d.Rule)
	}
	return out
}
