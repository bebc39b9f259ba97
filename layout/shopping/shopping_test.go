package shopping

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// demo is the list of the demo shop from 17 March 2026 on: that day has a plan
// of its own, on the others the tartlets are made twice.
func demo(t layouttest.TB, lang string, days int) Sheet {
	t.Helper()
	s := Sheet{Shop: layouttest.Shop(t), From: layouttest.Day(), Days: days, Dots: layouttest.Office()}
	s.Lang, s.Stock = layouttest.Langs(t, lang)[0], layouttest.Paper(t, "card-a4")
	var all []*scale.Day
	for n := range days {
		plan, _ := s.Shop.PlanFor(s.From.AddDays(n))
		d, err := scale.PlanDay(s.Shop, plan)
		if err != nil {
			t.Fatalf("%v", err)
		}
		all = append(all, d)
	}
	s.Buy = scale.Together(all...)
	return s
}

func pagesOf(t layouttest.TB, s Sheet) []*page.Page {
	t.Helper()
	return layouttest.Clean(t, func(found *diag.List) []*page.Page { return Compose(s, layouttest.Faces(t), found) })
}

func said(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

// Three days of butter, in whole packs of the dairy.
func Example() {
	s := demo(layouttest.Aloud{}, "en", 3)
	for _, b := range s.Buy {
		if b.Ingredient.ID == "butter" {
			fmt.Println(b.Bought.Round(unit.Gram), b.Packs, "×", b.Ingredient.OrderPack.V, "of", b.Ingredient.Supplier.V)
		}
	}
	fmt.Println(len(pagesOf(layouttest.Aloud{}, s)))
	// Output:
	// 5795 g 1 × 10000 g of Halewyn Dairy
	// 2
}

func TestGolden(t *testing.T) {
	for i, pg := range pagesOf(t, demo(t, "en", 3)) {
		layouttest.Golden(t, fmt.Sprintf("days-3-%d.dump", i+1), pg.Dump())
	}
}

func passes(t layouttest.TB, s Sheet, pages []*page.Page) {
	t.Helper()
	layouttest.Passes(t, preflight.Sheet{What: "the list", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
	layouttest.Capitals(t, 2500*unit.UM, layouttest.Marks(pages)) // a two-hundredth of 0.5 m (the rule of the FAA)
}

func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr", "de"} { // the languages that the demo's ingredients are named in
		for _, id := range []string{"card-a4", "card-letter", "card-a3", "card-a4-landscape"} {
			s := demo(t, lang, 3)
			s.Stock = layouttest.Paper(t, id)
			passes(t, s, pagesOf(t, s))
		}
	}
}

// Whole packs hold what is needed.
func TestPacks(t *testing.T) {
	s := demo(t, "en", 1)
	s.Shop.Ingredients["butter"].OrderPack.V = 500 * unit.Gram
	d, err := scale.PlanDay(s.Shop, s.Shop.Plans[0])
	if err != nil {
		t.Fatal(err)
	}
	s.Buy = d.Buy
	layouttest.Has(t, said(pagesOf(t, s)), "4 × 500 g")
}

// Several days are ordered together: the masses add up, the packs do not.
func TestTogether(t *testing.T) {
	one, three := demo(t, "en", 1), demo(t, "en", 3)
	rest := demo(t, "en", 3)
	rest.From = rest.From.AddDays(1)
	mass := func(all []scale.Buy, id string) (unit.Mass, int64) {
		i := slices.IndexFunc(all, func(b scale.Buy) bool { return b.Ingredient.ID == id })
		return all[i].Bought, all[i].Packs
	}
	plan, _ := one.Shop.PlanFor(one.From.AddDays(1))
	next, err := scale.PlanDay(one.Shop, plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range one.Buy {
		id := b.Ingredient.ID
		first, _ := mass(one.Buy, id)
		each, _ := mass(next.Buy, id)
		if got, packs := mass(three.Buy, id); got != first+2*each || packs != 0 && packs != int64((got+b.Ingredient.OrderPack.V-1)/b.Ingredient.OrderPack.V) {
			t.Errorf("%s: %s in %d packs, want %s", id, got, packs, first+2*each)
		}
	}
	layouttest.Has(t, said(pagesOf(t, three)), "For 3 days together.")
	if strings.Contains(said(pagesOf(t, one)), "together") {
		t.Error("one day is said to be several")
	}
}

// Whatever the names: every ingredient is on the list with its three boxes.
func TestNothingIsDropped(t *testing.T) {
	base := demo(t, "en", 1)
	rapid.Check(t, func(rt *rapid.T) {
		s, boxes := base, 0
		s.Buy = nil
		var names []string
		word := rapid.StringMatching(`[A-Za-zäßéœÅ0-9 -]{1,40}`)
		for i := range rapid.IntRange(1, 60).Draw(rt, "ingredients") {
			name := fmt.Sprintf("I%d%s", i, word.Draw(rt, "name"))
			ing := &shop.Ingredient{ID: fmt.Sprint(i), Supplier: shop.Text{V: word.Draw(rt, "supplier")}, Name: shop.Words{{Key: shop.Text{V: "en"}, V: shop.Text{V: name}}}}
			m := unit.Mass(rapid.Int64Range(0, 90_000_000_000_000).Draw(rt, "bought"))
			s.Buy = append(s.Buy, scale.Buy{Ingredient: ing, Edible: m, Bought: m})
			names, boxes = append(names, name, ing.Supplier.V), boxes+3
		}
		pages := pagesOf(rt, s)
		passes(rt, s, pages)
		layouttest.Has(rt, said(pages), names...)
		for _, it := range layouttest.Marks(pages) {
			if it.Shape != nil && it.Shape.Kind == page.Outlined {
				boxes--
			}
		}
		if boxes != 0 {
			rt.Fatalf("%d boxes are missing", boxes)
		}
	})
}

// Every page begins with a supplier, so that no line is without one.
func TestHeadingsAreSaidAgain(t *testing.T) {
	s := demo(t, "en", 3)
	pages := pagesOf(t, s)
	suppliers := map[string]bool{}
	for _, i := range s.Shop.Ingredients {
		suppliers[i.Supplier.V] = true
	}
	for _, pg := range pages {
		rows := pg.Items[slices.IndexFunc(pg.Items, func(it page.Item) bool { return it.Run != nil && it.Run.Text == "order" })+2:]
		if got := strings.TrimSuffix(rows[0].Run.Text, ", continued"); !suppliers[got] {
			t.Errorf("a page begins with %q", got)
		}
	}
	if all := said(pages); len(pages) != 2 || !strings.Contains(all, ",continued") || strings.Contains(all, layouttest.Bare("no supplier")) {
		t.Error("no heading is said again, or tap water is bought")
	}
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Sheet)
		rule   string
	}{
		"a language without the words": {func(s *Sheet) { s.Lang = layouttest.Langs(t, "et")[0] }, "words"},
		"no translation":               {func(s *Sheet) { s.Shop.Ingredients["egg"].Name = nil }, "translation"},
		"a letter that no face has":    {func(s *Sheet) { s.Shop.Ingredients["egg"].Name[0].V.V = "卵" }, "glyph"},
		"paper for a tub":              {func(s *Sheet) { s.Stock = layouttest.Paper(t, "roll-40x30") }, "too-wide"},
	} {
		var found diag.List
		s := demo(t, "en", 1)
		c.change(&s)
		if pages := Compose(s, layouttest.Faces(t), &found); len(pages) != 0 || !layouttest.Only(&found, c.rule) || found.All()[0].Hint == "" {
			t.Errorf("%s: %d pages, %v", name, len(pages), found.All())
		}
	}
	s := demo(t, "en", 1)
	s.Buy = nil
	if pages := pagesOf(t, s); pages != nil {
		t.Errorf("%d pages where nothing is bought", len(pages))
	}
}
