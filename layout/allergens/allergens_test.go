package allergens

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// demo is the list of the demo shop, with the last product not known.
func demo(t layouttest.TB, lang string) Sheet {
	t.Helper()
	s := Sheet{Shop: layouttest.Shop(t), Lang: layouttest.Langs(t, lang)[0], Day: layouttest.Day(), Stock: layouttest.Paper(t, "card-a4"), Dots: layouttest.Office()}
	eu, _ := market.Get("eu")
	for i, id := range s.Shop.ProductIDs {
		p := s.Shop.Products[id]
		f := declare.Of(s.Shop, p, &p.Packs[0], eu, s.Day, &diag.List{})
		s.Foods = append(s.Foods, Food{Product: p, Contains: f.Contains, May: f.May, Known: i < len(s.Shop.ProductIDs)-1})
	}
	return s
}

// called is a product under a name in every language of a list.
func called(p *shop.Product, lang, name string) *shop.Product {
	q := *p
	q.Name = shop.Words{{Key: diag.At[string]{V: lang}, V: shop.Text{V: name}}}
	return &q
}

func pagesOf(t layouttest.TB, s Sheet) []*page.Page {
	t.Helper()
	return layouttest.Clean(t, func(found *diag.List) []*page.Page { return Compose(s, layouttest.Faces(t), found) })
}

// What is not known is asked, and not guessed.
func Example() {
	all := layouttest.Read(layouttest.Marks(pagesOf(layouttest.Aloud{}, demo(layouttest.Aloud{}, "en"))))
	fmt.Println(strings.Count(all, "askinthekitchen"), strings.Contains(all, "wheat,milk"))
	// Output:
	// 1 false
}

func TestGolden(t *testing.T) { layouttest.Golden(t, "demo.dump", pagesOf(t, demo(t, "en"))[0].Dump()) }

// In every language of the staff, on every paper for cards: nothing touches, all
// is within the margins, and capitals are at least a two-hundredth of 0.5 m high
// (the rule of the FAA).
func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr", "de", "it", "es", "pt", "pl", "ro", "uk", "tr", "nl"} {
		for _, id := range []string{"card-a4", "card-letter", "card-a3", "card-a4-landscape"} {
			s := demo(t, lang)
			s.Stock = layouttest.Paper(t, id)
			for i, f := range s.Foods {
				s.Foods[i].Product = called(f.Product, lang, f.Product.ID)
			}
			pages := pagesOf(t, s)
			layouttest.Passes(t, preflight.Sheet{What: "the list", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
			layouttest.Capitals(t, 2500*unit.UM, layouttest.Marks(pages))
		}
	}
}

// Every allergen of every product that is known is named, and none of one that is
// not, whatever the allergens: each of Annex II of Regulation (EU) No 1169/2011.
func TestEveryAllergen(t *testing.T) {
	s := demo(t, "en")
	one, two := called(s.Foods[0].Product, "en", "Q"), called(s.Foods[1].Product, "en", "Z")
	eu, _ := market.Get("eu")
	for _, a := range eu.Allergens.Table {
		s.Foods = []Food{{Product: one, Contains: []string{a.ID}, Known: true}, {Product: two, May: []string{a.ID}, Known: true}}
		name, _, err := s.Lang.Allergen(a.ID)
		if err != nil {
			t.Fatal(err)
		}
		name = layouttest.Bare(name)
		all := layouttest.Read(layouttest.Marks(pagesOf(t, s)))
		if n := strings.Count(all, name); n != 2 {
			t.Errorf("%s stands there %d times: %s", name, n, all)
		}
		s.Foods[0].Known, s.Foods[1].Known = false, false
		if all := layouttest.Read(layouttest.Marks(pagesOf(t, s))); strings.Contains(all, name) || strings.Count(all, "askinthekitchen") != 2 {
			t.Errorf("%s is told of what is not known: %s", name, all)
		}
	}
}

func TestRefused(t *testing.T) {
	s := demo(t, "en")
	if s.Foods = nil; pagesOf(t, s) != nil {
		t.Error("a list without products")
	}
	var found diag.List
	s = demo(t, "en")
	s.Lang = layouttest.Langs(t, "et")[0]
	if pages := Compose(s, layouttest.Faces(t), &found); pages != nil || !layouttest.Only(&found, "words") {
		t.Errorf("in a language without the words: %v", found.All())
	}
}
