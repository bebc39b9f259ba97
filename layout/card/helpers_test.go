package card

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// tongues are languages written with plus signs between them.
func tongues(t testing.TB, codes string) []*words.Lang {
	return layouttest.Langs(t, strings.Split(codes, "+")...)
}

// day's batches of the demo shop's plan, and of what is on no plan.
func pieces() map[string]unit.Count {
	return map[string]unit.Count{"pear-hazelnut-tartlet": 48, "passion-caramel-bar": 60, "rye-shortbread-tin": 120,
		"pistachio-choux": 40, "lemon-thyme-marshmallow": 80, "bench-tin": 10, "rye-shortbread-loose": 60}
}

// cardOf is the card of a product or formula of sh.
func cardOf(t testing.TB, sh *shop.Shop, id, paperID, langs string) Card {
	t.Helper()
	c := Card{Shop: sh, Product: sh.Products[id], Formula: sh.Formulas[id], Langs: tongues(t, langs),
		Stock: layouttest.Paper(t, paperID), Dots: layouttest.Office(), Copy: 1, Copies: 3, Form: Full}
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
	var found diag.List
	return declare.Of(sh, p, &p.Packs[0], layouttest.Market(t, "EU"), layouttest.Day(), &found).Contains
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
	pages := Compose(c, layouttest.Faces(t), &found)
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
			Safe: pg.Area().Inset(c.Stock.Safe.V), Heights: Heights(c.Stock, c.Form)}, pg.All(), found)
	}
}

// readAll is what a reader sees on the pages, in the order of the marks.
func readAll(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

// runs calls f for every run of the pages.
func runs(pages []*page.Page, f func(page.Item)) {
	for _, it := range layouttest.Marks(pages) {
		if it.Run != nil {
			f(it)
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
