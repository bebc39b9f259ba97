package cardlist

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// demo is a list of five cards, one of which hangs with an old word and one of
// which is made no more.
func demo(t layouttest.TB, lang string) Sheet {
	t.Helper()
	return Sheet{Shop: "Quoin & Crumb Pastry", Lang: layouttest.Langs(t, lang)[0], Day: layouttest.Day(), Stock: layouttest.Paper(t, "card-a4"), Dots: layouttest.Office(),
		Cards: []Card{
			{Name: "Pear and hazelnut tartlet", Pieces: 48, Word: "MARA-KULE", Version: "v4", Langs: []string{"en", "fr"}, Place: "oven wall", N: 1, Of: 2, Hangs: "MARA-KULE"},
			{Name: "Pear and hazelnut tartlet", Pieces: 48, Word: "MARA-KULE", Version: "v4", Langs: []string{"en", "fr"}, Place: "cold room", N: 2, Of: 2, Hangs: "TELA-RUKE"},
			{Name: "Pear and hazelnut tartlet", Pieces: 24, Word: "RAKE-TULA", Version: "v4", Langs: []string{"en"}},
			{Name: "Sweet pastry", Size: "2 kg", Word: "LUTA-MERA", Version: "v2", Langs: []string{"en"}, Place: "pastry mixer", N: 1, Of: 1, Hangs: "LUTA-MERA"},
			{Name: "Almond bar", Pieces: 30, Langs: []string{"en"}, Place: "oven wall", N: 1, Of: 1, Hangs: "KERA-MULE", Gone: true},
		}}
}

func pagesOf(t layouttest.TB, s Sheet) []*page.Page {
	t.Helper()
	return layouttest.Clean(t, func(found *diag.List) []*page.Page { return Compose(s, layouttest.Faces(t), found) })
}

func said(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

// The words, in the order in which cards are looked for.
func Example() {
	for _, it := range pagesOf(layouttest.Aloud{}, demo(layouttest.Aloud{}, "en"))[0].Items {
		if it.Run != nil && strings.Contains(it.Run.Text, "-") && it.Run.Face == "bold" {
			fmt.Println(it.Run.Text)
		}
	}
	// Output:
	// RAKE-TULA
	// MARA-KULE
	// MARA-KULE
	// LUTA-MERA
}

func TestGolden(t *testing.T) { layouttest.Golden(t, "demo.dump", pagesOf(t, demo(t, "en"))[0].Dump()) }

// passes checks pages: nothing touches, nothing leaves the paper, and capitals
// are at least a two-hundredth of 0.5 m high (the rule of the FAA).
func passes(t layouttest.TB, s Sheet, pages []*page.Page) {
	t.Helper()
	layouttest.Passes(t, preflight.Sheet{What: "the list", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
	layouttest.Capitals(t, 2500*unit.UM, layouttest.Marks(pages))
}

// In every language of the staff, on every paper for cards.
func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr", "de", "it", "es", "pt", "pl", "ro", "uk", "tr", "nl"} {
		for _, id := range []string{"card-a4", "card-letter", "card-a3", "card-a4-landscape"} {
			s := demo(t, lang)
			s.Stock = layouttest.Paper(t, id)
			passes(t, s, pagesOf(t, s))
		}
	}
}

// A copy that hangs with another word is told to come down; one with the current
// word is not.
func TestOld(t *testing.T) {
	all := said(pagesOf(t, demo(t, "en")))
	layouttest.Has(t, all, "copy 2 of 2 – hangs with the word TELA-RUKE: take it down", "no longer made", "for this day's plan", "2 kg · en · version 2")
	if n := strings.Count(all, "takeitdown"); n != 3 { // two copies, and what to do
		t.Errorf("%d are told to come down", n)
	}
}

// Whatever the names and however many, every card is on the list with its word,
// whatever the order in which they came.
func TestNothingIsDropped(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		s := demo(rt, "en")
		s.Cards = nil
		word := rapid.StringMatching(`[A-Za-zäßéœÅ0-9 -]{0,30}`)
		var want []string
		for i := range rapid.IntRange(1, 60).Draw(rt, "cards") {
			c := Card{Name: "N" + word.Draw(rt, "name"), Pieces: unit.Count(rapid.IntRange(0, 480).Draw(rt, "pieces")), Word: fmt.Sprintf("W%d", i), Version: "v1",
				Place: fmt.Sprintf("P%d%s", i, word.Draw(rt, "place")), N: 1, Of: 1}
			s.Cards, want = append(s.Cards, c), append(want, c.Name, c.Word, c.Place)
		}
		pages := pagesOf(rt, s)
		passes(rt, s, pages)
		all := said(pages)
		layouttest.Has(rt, all, want...)
		slices.Reverse(s.Cards)
		if rapid.Bool().Draw(rt, "again") && len(said(pagesOf(rt, s))) != len(all) {
			rt.Fatal("the order of the cards matters")
		}
	})
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Sheet)
		rule   string
	}{
		"a language without the words": {func(s *Sheet) { s.Lang = layouttest.Langs(t, "et")[0] }, "words"},
		"a letter that no face has":    {func(s *Sheet) { s.Cards[0].Place = "烤箱" }, "glyph"},
		"paper for a tub":              {func(s *Sheet) { s.Stock = layouttest.Paper(t, "roll-40x30") }, "too-wide"},
	} {
		var found diag.List
		s := demo(t, "en")
		c.change(&s)
		if pages := Compose(s, layouttest.Faces(t), &found); len(pages) != 0 || !layouttest.Only(&found, c.rule) || found.All()[0].Hint == "" {
			t.Errorf("%s: %d pages, %v", name, len(pages), found.All())
		}
	}
	s := demo(t, "en")
	if s.Cards = nil; pagesOf(t, s) != nil {
		t.Error("a list without cards")
	}
}
