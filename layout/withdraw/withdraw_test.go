package withdraw

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
)

func entry(n int64, place, name, size, paper string, now register.Current, langs ...string) Entry {
	return Entry{Name: name, Stale: register.Stale{Now: now, Gone: now == register.Current{}, Copy: register.Copy{
		Number: n, ID: strings.ToLower(strings.ReplaceAll(name, " ", "-")), Version: "3", Issued: "2026-01-12", CheckWord: "MALT",
		Size: size, N: 2, Of: 3, Place: place, Paper: paper, Langs: langs, At: time.Date(2026, 1, 12, 5, 0, 0, 0, time.UTC)}}}
}

// demo is a sheet with five cards at three places.
func demo(lang string) Sheet {
	l, _ := words.Get(lang)
	a4, _ := stock.Get("card-a4")
	return Sheet{Shop: "Quoin & Crumb Pastry", Lang: l, Day: unit.Date{Year: 2026, Month: 3, Day: 17}, Stock: a4,
		Dots: unit.Dots{N: 600, Per: unit.Inch}, Entries: []Entry{
			entry(7, "oven wall", "Pear and hazelnut tartlet", "48 pieces", "card-a4", register.Current{Version: "4", CheckWord: "FERN"}, "en", "fr"),
			entry(9, "oven wall", "Pear and hazelnut tartlet", "24 pieces", "card-a4", register.Current{Version: "4", CheckWord: "ROWAN"}, "en", "fr"),
			entry(12, "bench by the cold room", "Sweet pastry", "2 kg", "card-a5", register.Current{Version: "3", CheckWord: "BIRCH"}, "en"),
			entry(3, "bench by the cold room", "Passion fruit and caramel bar, dark couverture", "", "card-a6", register.Current{}),
			entry(15, "pastry mixer", "Rye shortbread", "9 tins", "card-a4-landscape", register.Current{Version: "5", CheckWord: "SORREL"}, "en", "fr"),
		}}
}

func pagesOf(t testing.TB, s Sheet) []*page.Page {
	t.Helper()
	var found diag.List
	pages := Compose(s, layouttest.Faces(t), &found)
	for _, d := range found.All() {
		t.Fatal(d)
	}
	return pages
}

func Example() {
	f, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	var found diag.List
	pages := Compose(demo("en"), f, &found)
	fmt.Println(len(pages), found.Len())
	for _, it := range pages[0].Items {
		if it.Run != nil && it.Run.Face == "bold" && strings.HasPrefix(it.Run.Text, "C") {
			fmt.Println(it.Run.Text)
		}
	}
	// Output:
	// 1 0
	// Cards to take down
}

func TestGolden(t *testing.T) { layouttest.Golden(t, "demo.dump", pagesOf(t, demo("en"))[0].Dump()) }

// passes checks pages: nothing touches, nothing leaves the paper, and capitals
// are at least a two-hundredth of 0.4 m high (the rule of the FAA).
func passes(t layouttest.TB, s Sheet, pages []*page.Page) {
	t.Helper()
	layouttest.Passes(t, preflight.Sheet{What: "the sheet", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
	layouttest.Capitals(t, 2*unit.MM, layouttest.Marks(pages))
}

func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr", "de"} {
		for _, id := range []string{"card-a4", "card-letter", "card-a3", "card-a4-landscape"} {
			s := demo(lang)
			s.Stock, _ = stock.Get(id)
			pages := pagesOf(t, s)
			if len(pages) != 1 {
				t.Errorf("%s on %s: %d pages", lang, id, len(pages))
			}
			passes(t, s, pages)
		}
	}
}

// Whatever the names and however many, every copy is on the sheet with its
// words, a box to tick and a box for "not found".
func TestNothingIsDropped(t *testing.T) {
	f := layouttest.Faces(t)
	rapid.Check(t, func(rt *rapid.T) {
		word := rapid.StringMatching(`[A-Za-zäßéœÅ0-9 -]{0,30}`)
		s := demo(rapid.SampledFrom([]string{"en", "fr", "de"}).Draw(rt, "language"))
		s.Entries = nil
		for i := range rapid.IntRange(1, 60).Draw(rt, "copies") {
			e := entry(int64(i+1), "P"+word.Draw(rt, "place"), "N"+word.Draw(rt, "name"), word.Draw(rt, "size"), "card-a4",
				register.Current{Version: fmt.Sprint(i + 4), CheckWord: fmt.Sprintf("NEW%d", i)}, "en")
			e.Copy.CheckWord = fmt.Sprintf("OLD%d", i)
			s.Entries = append(s.Entries, e)
		}
		var found diag.List
		pages := Compose(s, f, &found)
		if found.Len() > 0 {
			rt.Fatalf("%v", found.All())
		}
		passes(t, s, pages)
		said := layouttest.Read(layouttest.Marks(pages))
		for _, e := range s.Entries {
			for _, w := range []string{e.Name, e.Copy.Place, e.Copy.CheckWord, e.Now.CheckWord} {
				if !strings.Contains(said, layouttest.Bare(w)) {
					rt.Fatalf("%q is missing in %s", w, said)
				}
			}
		}
		boxes := 0
		for _, pg := range pages {
			for _, it := range pg.Items {
				if it.Shape != nil && it.Shape.Kind == page.Outlined {
					boxes++
				}
			}
		}
		if boxes != 2*len(s.Entries) {
			rt.Fatalf("%d boxes for %d copies", boxes, len(s.Entries))
		}
	})
}

// The order is that of the walk: by place, then card, then number.
func TestOrder(t *testing.T) {
	s := demo("en")
	want := layouttest.Read(layouttest.Marks(pagesOf(t, s)))
	slices.Reverse(s.Entries)
	if got := layouttest.Read(layouttest.Marks(pagesOf(t, s))); got != want {
		t.Errorf("the order of the entries matters:\n%s\n%s", got, want)
	}
	at := -1
	for _, w := range []string{"Passionfruit", "Sweetpastry", "48pieces", "24pieces", "Ryeshortbread"} {
		i := strings.Index(want, w)
		if i <= at {
			t.Errorf("%s stands at %d, behind %d, in %s", w, i, at, want)
		}
		at = i
	}
}

func TestRefused(t *testing.T) {
	f := layouttest.Faces(t)
	var found diag.List
	s := demo("en")
	s.Entries = nil
	if pages := Compose(s, f, &found); pages != nil || found.Len() != 0 {
		t.Errorf("nothing to take down: %d pages, %v", len(pages), found.All())
	}
	for name, c := range map[string]struct {
		change func(*Sheet)
		rule   string
	}{
		"a language without the words": {func(s *Sheet) { s.Lang, _ = words.Get("et") }, "words"},
		"a letter that no face has":    {func(s *Sheet) { s.Entries[0].Copy.Place = "烤箱" }, "glyph"},
		"paper for a tub":              {func(s *Sheet) { s.Stock, _ = stock.Get("roll-40x30") }, "too-wide"},
	} {
		var found diag.List
		s := demo("en")
		c.change(&s)
		pages := Compose(s, f, &found)
		if len(pages) != 0 || found.Errors() != 1 || found.All()[0].Rule != c.rule || found.All()[0].Hint == "" {
			t.Errorf("%s: %d pages, %v", name, len(pages), found.All())
		}
	}
}

// Two runs give the same file.
func TestDrawnTwice(t *testing.T) {
	if !bytes.Equal(layouttest.PDF(t, pagesOf(t, demo("de"))...), layouttest.PDF(t, pagesOf(t, demo("de"))...)) {
		t.Error("the same sheet gives two files")
	}
}
