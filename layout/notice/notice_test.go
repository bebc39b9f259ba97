package notice

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// demo is a recall of two products of the demo shop.
func demo(t layouttest.TB, langs ...string) Sheet {
	t.Helper()
	sh := layouttest.Shop(t)
	s := Sheet{Shop: sh, Langs: layouttest.Langs(t, langs...), Day: layouttest.Day(), Why: map[string]string{}, Contact: "7 Weighhouse Lane, ask@label.example",
		Stock: layouttest.Paper(t, "card-a4"), Dots: layouttest.Office()}
	dates := map[string]string{}
	for _, l := range langs {
		dates[l], s.Why[l] = "Best before 14.04.2026", "It contains almonds, which the label does not name."
	}
	s.Foods = []Food{{sh.Products["bench-tin"], "L26076A", dates}, {sh.Products["rye-shortbread-tin"], "L26076B", nil}}
	return s
}

func pagesOf(t layouttest.TB, s Sheet) []*page.Page {
	t.Helper()
	return layouttest.Clean(t, func(found *diag.List) []*page.Page { return Compose(s, layouttest.Faces(t), found) })
}

func Example() {
	fmt.Println(len(pagesOf(layouttest.Aloud{}, demo(layouttest.Aloud{}, "en", "fr"))), "pages")
	// Output: 2 pages
}

func TestGolden(t *testing.T) {
	for i, pg := range pagesOf(t, demo(t, "en")) {
		layouttest.Golden(t, fmt.Sprintf("en-%d.dump", i+1), pg.Dump())
	}
}

// In every language that has the words; capitals are a two-hundredth of the
// metre from which the notice is read (the rule of the FAA).
func TestPreflight(t *testing.T) {
	for _, code := range words.Codes() {
		l, _ := words.Get(code)
		if !l.Has("sheet") {
			continue
		}
		for _, id := range []string{"card-a4", "card-letter", "card-a3"} {
			s := demo(t, code)
			s.Stock = layouttest.Paper(t, id)
			pages := pagesOf(t, s)
			layouttest.Passes(t, preflight.Sheet{What: "the notice", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
			layouttest.Capitals(t, door/200, layouttest.Marks(pages))
		}
	}
}

// Reg. (EC) No 178/2002 Art. 19(1): what is recalled and why; and each language
// says all of it on its own pages, the head on every one of them.
func TestSaysAll(t *testing.T) {
	s := demo(t, "en", "de")
	for range 12 { // more than one page has room for
		s.Foods = append(s.Foods, s.Foods[0])
	}
	pages := pagesOf(t, s)
	if len(pages) < 4 {
		t.Fatalf("%d pages", len(pages))
	}
	got := layouttest.Read(layouttest.Marks(pages))
	for _, l := range s.Langs {
		head, _ := l.Word("recall.head")
		if n := strings.Count(got, layouttest.Bare(head)); n != len(pages)/2 {
			t.Errorf("%s: %q stands on %d of %d pages", l.Code(), head, n, len(pages)/2)
		}
		for _, key := range []string{"recall.do", "recall.ill", "recall.authority"} {
			w, _ := l.Word(key)
			layouttest.Has(t, got, w)
		}
	}
	layouttest.Has(t, got, "L26076A", "L26076B", "Best before 14.04.2026", "180 g (12 pieces), 9520001000034", "almonds", "ask@label.example", "Quoin & Crumb Pastry",
		"Roggen-Mürbegebäck mit Aprikosen und Zitrusschalen", "17 March 2026", "17. März 2026")
}

func TestRefused(t *testing.T) {
	var found diag.List
	s := demo(t, "en")
	s.Foods = nil
	if pages := Compose(s, layouttest.Faces(t), &found); pages != nil || found.Len() != 0 {
		t.Errorf("nothing is recalled: %d pages, %v", len(pages), found.All())
	}
	s = demo(t, "en")
	s.Langs = layouttest.Langs(t, "et")
	if pages := Compose(s, layouttest.Faces(t), &found); pages != nil || found.Errors() != 1 || found.All()[0].Rule != "words" {
		t.Errorf("a language without the words: %d pages, %v", len(pages), found.All())
	}
}
