package shop_test

import (
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

func TestPricesAndAbouts(t *testing.T) {
	const tin, tart = "products/tart-tin.yaml", "products/apple-tart.yaml"
	price := func(s string) edit { return edit{tin, "    net: 380 g\n", "    net: 380 g\n    price: " + s + "\n"} }
	about := func(s string) edit { return edit{tin, "version: 1\n", "version: 1\nabout: " + s + "\n"} }
	for _, c := range []struct {
		name  string
		edits []edit
		want  string
	}{
		{"a price", []edit{price("12.80 EUR")}, ""},
		{"no currency", []edit{price("12.80")}, `18:12: error: "12.80" has no currency [unit]`},
		{"a comma", []edit{price("12,80 EUR")}, `18:12: error: "12,80 EUR": a comma in a number [number]`},
		{"two currencies", []edit{price("12.80 EUR"), {tart, "    net: ", "    price: 4 CHF\n    net: "}}, `caution: this price is in EUR, others of the shop, as at `},
		{"a line", []edit{about("{en: Four of our tarts, fr: Quatre de nos tartes}")}, ""},
		{"one language only", []edit{about("{fr: Quatre de nos tartes}")}, `the line about tart-tin has no text in "en" [translation]`},
		{"too long", []edit{about("{en: " + strings.Repeat("long ", 13) + ", fr: court}")}, `this line has 64 characters, and a ticket has room for 60 [about]`},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := small(t)
			for _, e := range c.edits {
				e.apply(t, in)
			}
			var found diag.List
			sh := shop.Load(in, &found)
			var all []string
			for _, d := range found.All() {
				all = append(all, d.String())
			}
			got := strings.Join(all, "\n")
			if c.want == "" && got != "" || !strings.Contains(got, c.want) {
				t.Errorf("found %q, want %q", got, c.want)
			}
			if c.name == "a price" && sh.Products["tart-tin"].Packs[0].Price.V != (unit.Money{Minor: 1280, Currency: "EUR"}) {
				t.Error("the price is lost")
			}
		})
	}
}
