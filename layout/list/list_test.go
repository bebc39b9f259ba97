package list

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// sheet begins a list in a language, on A4.
func sheet(t layouttest.TB, lang string, found *diag.List) (*compose.Teller, *compose.Paper, List) {
	t.Helper()
	tell := compose.Tell("list", diag.Pos{}, found, layouttest.Langs(t, lang)[0])
	l := New(tell, "Quoin & Crumb Pastry", "prep.title", "prep.do", layouttest.Day())
	return tell, compose.On(layouttest.Paper(t, "card-a4"), layouttest.Office(), layouttest.Faces(t)), l
}

// A list with one row to tick, a weight, and a box to write in.
func Example() {
	var found diag.List
	tell, paper, l := sheet(layouttest.Aloud{}, "en", &found)
	l.Tick, l.Sign = true, []string{"by"}
	l.Cols = []Col{{Head: "what", Share: 1}, {Head: "grams", Kind: Figure}, {Head: "lot", Kind: Write}}
	l.Rows = []Row{{Head: "dough"}, {Cells: []Cell{{Strong: "flour", Role: role.Name}, {Strong: Grams(tell.Lang(), 600*unit.Gram)}, {Write: true}}}}
	for _, pg := range Pages(tell, paper, l) {
		for _, it := range pg.Items {
			if it.Run != nil && it.Role == role.Name {
				fmt.Println(it.Run.Text)
			}
		}
	}
	fmt.Println(found.Len(), Least() == 2500*unit.UM, len(Heights()) > 0)
	// Output:
	// flour
	// 0 true true
}

// Whatever the rows: each is there with its boxes, nothing touches, and no
// letter is lower than a two-hundredth of 0.5 m (the rule of the FAA).
func TestNothingIsDropped(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var found diag.List
		tell, paper, l := sheet(rt, rapid.SampledFrom([]string{"en", "fr", "de", "pl", "uk", "tr"}).Draw(rt, "language"), &found)
		l.Tick = rapid.Bool().Draw(rt, "tick")
		l.Cols = []Col{{Head: "a", Share: 3}, {Head: "b", Kind: Figure}, {Head: "c", Share: 2}, {Head: "d", Kind: Write}}
		if rapid.Bool().Draw(rt, "signed") {
			l.Sign = []string{"by", "day"}
		}
		words := rapid.StringMatching(`[A-Za-zäßéœÅ0-9 -]{1,60}`)
		var want []string
		boxes := 0
		for i := range rapid.IntRange(1, 60).Draw(rt, "rows") {
			said := fmt.Sprintf("R%d%s", i, words.Draw(rt, "words"))
			want = append(want, said)
			switch rapid.IntRange(0, 3).Draw(rt, "sort") {
			case 0:
				l.Rows = append(l.Rows, Row{Head: said}, Row{Cells: []Cell{{Strong: "x"}}})
			case 1:
				l.Rows = append(l.Rows, Row{Say: said, Fields: []string{"out", "reached", "°C", "by", "lot"}})
				boxes += 5
			default:
				m := unit.Mass(rapid.Int64Range(1, 9_000_000_000_000).Draw(rt, "mass"))
				l.Rows = append(l.Rows, Row{Cells: []Cell{{Strong: said, Under: "u", Role: role.Name, Parts: []Part{{Grams(tell.Lang(), m), "p"}}},
					{Strong: Grams(tell.Lang(), m), Role: role.Amount}, {Under: words.Draw(rt, "lot"), Write: true}, {Write: true}}})
				boxes += 3
			}
			if l.Tick {
				boxes++
			}
		}
		pages := Pages(tell, paper, l)
		if found.Len() > 0 {
			rt.Fatalf("%v", found.All())
		}
		layouttest.Passes(rt, preflight.Sheet{What: "the list", Safe: pages[0].Area().Inset(paper.Stock.Safe.V), Heights: Heights()}, pages...)
		layouttest.Capitals(rt, 2500*unit.UM, layouttest.Marks(pages))
		layouttest.Has(rt, layouttest.Read(layouttest.Marks(pages)), want...)
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

// A list without lines has no page; one that goes on says again what holds.
func TestPages(t *testing.T) {
	var found diag.List
	tell, paper, l := sheet(t, "en", &found)
	l.Cols = []Col{{Head: "what", Share: 1}}
	l.Rows = []Row{{Head: "mill"}}
	if pages := Pages(tell, paper, l); pages != nil {
		t.Errorf("%d pages for a heading", len(pages))
	}
	for range 80 {
		l.Rows = append(l.Rows, Row{Cells: []Cell{{Strong: "flour"}}})
	}
	pages := Pages(tell, paper, l, l)
	if len(pages) < 4 || found.Len() > 0 {
		t.Fatalf("%d pages, %v", len(pages), found.All())
	}
	layouttest.Has(t, layouttest.Read(pages[1].Items), "mill, continued", fmt.Sprintf("page 2 of %d", len(pages)))
	l.Rows[1].Cells[0].Strong = "卵"
	if pages := Pages(tell, paper, l); pages != nil || !layouttest.Only(&found, "glyph") {
		t.Errorf("%d pages, %v", len(pages), found.All())
	}
}
