package record

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// demo is the record of a product of the demo shop.
func demo(t layouttest.TB, lang, product string, pieces unit.Count) Record {
	t.Helper()
	r := Record{Shop: layouttest.Shop(t), Day: layouttest.Day(), Code: "L26076A", Dots: layouttest.Office()}
	r.Lang, r.Stock = layouttest.Langs(t, lang)[0], layouttest.Paper(t, "card-a4")
	var err error
	if r.Batch, err = scale.Pieces(r.Shop, r.Shop.Products[product], pieces); err != nil {
		t.Fatalf("%v", err)
	}
	return r
}

func pagesOf(t layouttest.TB, r Record) []*page.Page {
	t.Helper()
	return layouttest.Clean(t, func(found *diag.List) []*page.Page { return Compose(r, layouttest.Faces(t), found) })
}

func said(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

// Every page bears the batch.
func Example() {
	for _, pg := range pagesOf(layouttest.Aloud{}, demo(layouttest.Aloud{}, "en", "pear-hazelnut-tartlet", 48)) {
		fmt.Println(pg.Items[1].Run.Text, "·", pg.Items[2].Run.Text)
	}
	// Output:
	// Quoin & Crumb Pastry · batch L26076A · page 1 of 2
	// Quoin & Crumb Pastry · batch L26076A · page 2 of 2
}

func TestGolden(t *testing.T) {
	r := demo(t, "en", "pistachio-choux", 40)
	r.Lot = func(into, of string) string { return map[string]string{"milk": "HD-4471", "egg": "BE-0310-2"}[of] }
	for i, pg := range pagesOf(t, r) {
		layouttest.Golden(t, fmt.Sprintf("choux-%d.dump", i+1), pg.Dump())
	}
}

// Nothing touches, nothing leaves the paper, and capitals are at least a
// two-hundredth of 0.5 m high (the rule of the FAA).
func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr"} { // the languages of the demo's steps
		for _, id := range []string{"card-a4", "card-letter", "card-a3", "card-a4-landscape"} {
			for _, product := range layouttest.Shop(t).ProductIDs {
				r := demo(t, lang, product, 48)
				r.Stock = layouttest.Paper(t, id)
				pages := pagesOf(t, r)
				layouttest.Passes(t, preflight.Sheet{What: "the record", Safe: pages[0].Area().Inset(r.Stock.Safe.V), Heights: Heights()}, pages...)
				layouttest.Capitals(t, 2500*unit.UM, layouttest.Marks(pages))
			}
		}
	}
}

// Whatever is weighed has a box for the grams, whatever is bought one for the
// lot too, and each limit four: counted from the shop's files, not from the page.
func TestBoxes(t *testing.T) {
	for _, product := range layouttest.Shop(t).ProductIDs {
		r := demo(t, "en", product, 48)
		want, limits := 3, 0 // good pieces, waste, why
		count := func(steps []shop.Step) {
			for _, s := range steps {
				if s.Limit != nil {
					limits++
				}
			}
		}
		line := func(use string) {
			want += 2
			if i := r.Shop.Ingredients[use]; i != nil && i.Supplier.V == "" {
				want--
			}
		}
		for _, m := range r.Batch.Makes {
			for _, l := range m.Formula.Lines {
				line(l.Use.V)
			}
			if m.Formula.CookedIn != nil {
				want += 2
			}
			want++ // what comes out
			count(m.Formula.Steps)
		}
		for _, l := range r.Batch.Product.Lines() {
			line(l.Use.V)
		}
		count(r.Batch.Product.Steps)
		got := 0
		for _, it := range layouttest.Marks(pagesOf(t, r)) {
			if it.Shape != nil && it.Shape.Kind == page.Outlined {
				got++
			}
		}
		if want += 4 * limits; got != want {
			t.Errorf("%s: %d boxes, want %d", product, got, want)
		}
	}
}

// The planned grams are those of the batch: recomputed here for 48 tartlets with
// 28 g of pastry each, 3 % lost in handling (28 × 48 ÷ 0.97 = 1385.6 g).
func TestPlanned(t *testing.T) {
	all := said(pagesOf(t, demo(t, "en", "pear-hazelnut-tartlet", 48)))
	layouttest.Has(t, all, "Pear and hazelnut tartlet, 48 pieces · L26076A", fmt.Sprintf("Comes out%.0f", 28*48/0.97),
		fmt.Sprintf("butter%.0f", 28*48/0.97*600/2308), "LIMIT C3: ≤ 5 °C (41 °F), within 2 h")
}

// A lot is proposed where one is known, and never for tap water; what is made
// once for several runs is one line.
func TestLotsAndShared(t *testing.T) {
	r := demo(t, "en", "pear-hazelnut-tartlet", 48)
	r.Lot = func(into, of string) string {
		return map[string]string{"sweet-pastry/butter": "HD-4471", "pear-syrup/water": "TAP"}[into+"/"+of]
	}
	r.Shared = func(f *shop.Formula) bool { return f.ID == "hazelnut-frangipane" }
	all := said(pagesOf(t, r))
	layouttest.Has(t, all, "proposed: HD-4471", "made once for several runs: it has a record of its own")
	if strings.Count(all, "HD-4471") != 1 || strings.Contains(all, "TAP") || strings.Contains(all, layouttest.Bare("ground hazelnuts")) {
		t.Errorf("a lot of another formula, of tap water, or the lines of what has a record of its own: %s", all)
	}
}

// A formula alone has a record too.
func TestFormula(t *testing.T) {
	r := demo(t, "fr", "bench-tin", 10)
	var err error
	if r.Batch, err = scale.Mass(r.Shop, r.Shop.Formulas["pistachio-pastry-cream"], 2*unit.Kilogram); err != nil {
		t.Fatal(err)
	}
	r.Shared = func(*shop.Formula) bool { return true } // the formula of the record itself is always written out
	all := said(pagesOf(t, r))
	layouttest.Has(t, all, "2000 g · L26076A", "LIMITE C1")
	if strings.Contains(all, layouttest.Bare("bonnes pièces")) {
		t.Error("a formula has no pieces")
	}
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Record)
		rule   string
	}{
		"a language without the words": {func(r *Record) { r.Lang = layouttest.Langs(t, "et")[0] }, "words"},
		"no translation":               {func(r *Record) { r.Shop.Formulas["craquelin"].Name = nil }, "translation"},
		"paper for a tub":              {func(r *Record) { r.Stock = layouttest.Paper(t, "roll-40x30") }, "too-wide"},
	} {
		var found diag.List
		r := demo(t, "en", "pistachio-choux", 40)
		c.change(&r)
		if pages := Compose(r, layouttest.Faces(t), &found); len(pages) != 0 || !layouttest.Only(&found, c.rule) || found.All()[0].Hint == "" {
			t.Errorf("%s: %d pages, %v", name, len(pages), found.All())
		}
	}
}
