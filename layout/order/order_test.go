package order

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// demo is the order of the demo shop on 17 March 2026.
func demo(t layouttest.TB, lang string) Sheet {
	t.Helper()
	s := Sheet{Shop: layouttest.Shop(t), Day: layouttest.Day(), Dots: layouttest.Office()}
	s.Lang, s.Stock = layouttest.Langs(t, lang)[0], layouttest.Paper(t, "card-a4")
	plan, _ := s.Shop.PlanFor(s.Day)
	for _, r := range plan.Runs {
		p := s.Shop.Products[r.Product.V]
		s.Runs = append(s.Runs, Run{p, r.Pieces.V, declare.OnCard(s.Shop, p)})
	}
	return s
}

func pagesOf(t layouttest.TB, s Sheet) []*page.Page {
	t.Helper()
	return layouttest.Clean(t, func(found *diag.List) []*page.Page { return Compose(s, layouttest.Faces(t), found) })
}

func said(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

// The bench tin is packed behind the biscuits and the cubes that are in it.
func Example() {
	s := demo(layouttest.Aloud{}, "en")
	turns := s.Turns()
	for _, i := range scale.Cleanest(turns) {
		fmt.Println(s.Runs[i].Product.ID, len(turns[i].Contains))
	}
	// Output:
	// lemon-thyme-marshmallow 1
	// rye-shortbread-tin 5
	// bench-tin 5
	// passion-caramel-bar 4
	// pistachio-choux 4
	// pear-hazelnut-tartlet 5
}

func TestGolden(t *testing.T) { layouttest.Golden(t, "demo.dump", pagesOf(t, demo(t, "en"))[0].Dump()) }

func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr", "de"} { // the languages that the demo's products are named in
		for _, id := range []string{"card-a4", "card-letter", "card-a3", "card-a4-landscape"} {
			s := demo(t, lang)
			s.Stock = layouttest.Paper(t, id)
			pages := pagesOf(t, s)
			layouttest.Passes(t, preflight.Sheet{What: "the sheet", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
			layouttest.Capitals(t, 2500*unit.UM, layouttest.Marks(pages))
		}
	}
}

// Between two runs an allergen that leaves is named on a line for cleaning, and
// only there; by hand from the sheet of the demo.
func TestCleaningLines(t *testing.T) {
	all := said(pagesOf(t, demo(t, "en")))
	if n := strings.Count(all, "CLEANbenches"); n != 3 {
		t.Errorf("%d lines for cleaning, want 3", n)
	}
	layouttest.Has(t, all, "To get rid of: pistachio nuts.", "Before the first", "in the order of the plan: 4", "The shop's own plan and local law decide.")
	s := demo(t, "en")
	s.Runs = s.Runs[4:5] // one run: nothing between
	all = said(pagesOf(t, s))
	if strings.Contains(all, "CLEANbenches") {
		t.Error("cleaned behind the last")
	}
	s.Runs[0].Contains = nil
	layouttest.Has(t, said(pagesOf(t, s)), "No allergen to declare")
	if s.Runs = nil; pagesOf(t, s) != nil {
		t.Error("a day without runs has an order")
	}
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Sheet)
		rule   string
	}{
		"a language without the words": {func(s *Sheet) { s.Lang = layouttest.Langs(t, "et")[0] }, "words"},
		"no translation":               {func(s *Sheet) { s.Runs[0].Product.Name = nil }, "translation"},
		"paper for a tub":              {func(s *Sheet) { s.Stock = layouttest.Paper(t, "roll-40x30") }, "overflow"},
	} {
		var found diag.List
		s := demo(t, "en")
		c.change(&s)
		if pages := Compose(s, layouttest.Faces(t), &found); len(pages) != 0 || !layouttest.Only(&found, c.rule) || found.All()[0].Hint == "" {
			t.Errorf("%s: %d pages, %v", name, len(pages), found.All())
		}
	}
}
