package layouttest_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
)

// A test and a try of a random one can both be judged.
var _ = []layouttest.TB{(*testing.T)(nil), (*rapid.T)(nil)}

// listener keeps what a judge says.
type listener []string

func (l *listener) Helper()                        {}
func (l *listener) Errorf(format string, a ...any) { *l = append(*l, fmt.Sprintf(format, a...)) }
func (l *listener) Fatalf(format string, a ...any) { l.Errorf(format, a...) }
func (l *listener) says(part string) (heard bool) {
	return strings.Contains(strings.Join(*l, "\n"), part)
}

func line(text string, x, y unit.Length) page.Item {
	return page.Item{Role: role.Note, Box: page.Rect{X: x, Y: y, W: 20 * unit.MM, H: 4 * unit.MM},
		Run: &page.Run{Text: text, Face: "regular", Size: 3 * unit.MM, XHeight: 1500 * unit.UM, CapHeight: 2 * unit.MM, Baseline: y + 3*unit.MM}}
}

func sheet(items ...page.Item) *page.Page {
	return &page.Page{W: 60 * unit.MM, H: 40 * unit.MM, Items: items}
}

// TestJudgesSeeFaults: each judge is silent about a good page and speaks up
// about one with a planted fault.
func TestJudgesSeeFaults(t *testing.T) {
	good := sheet(line("one", 5*unit.MM, 5*unit.MM), line("two", 5*unit.MM, 15*unit.MM))
	touching := sheet(line("one", 5*unit.MM, 5*unit.MM), line("two", 6*unit.MM, 6*unit.MM))
	outside := sheet(line("one", 50*unit.MM, 5*unit.MM))
	for _, c := range []struct {
		name, say string
		judge     func(layouttest.TB)
	}{
		{"a good page", "", func(t layouttest.TB) { layouttest.Passes(t, preflight.Sheet{What: "it"}, good) }},
		{"no page", "no pages", func(t layouttest.TB) { layouttest.Passes(t, preflight.Sheet{What: "it"}) }},
		{"words on each other", "page 2", func(t layouttest.TB) { layouttest.Passes(t, preflight.Sheet{What: "it"}, good, touching) }},
		{"beyond the edge", "page 1", func(t layouttest.TB) { layouttest.Passes(t, preflight.Sheet{What: "it"}, outside) }},
		{"in the margin", "page 1", func(t layouttest.TB) {
			layouttest.Passes(t, preflight.Sheet{What: "it", Safe: good.Area().Inset(10 * unit.MM)}, good)
		}},
		{"high enough", "", func(t layouttest.TB) { layouttest.Capitals(t, 2*unit.MM, good.Items) }},
		{"too low", `"one" is 2 mm high`, func(t layouttest.TB) { layouttest.Capitals(t, 3*unit.MM, good.Items) }},
		{"the same", "", func(t layouttest.TB) { layouttest.Same(t, []*page.Page{good}, []*page.Page{good}) }},
		{"another mark", "page 1, mark ", func(t layouttest.TB) { layouttest.Same(t, []*page.Page{good}, []*page.Page{touching}) }},
		{"another page", "1 pages, and 2", func(t layouttest.TB) { layouttest.Same(t, []*page.Page{good}, []*page.Page{good, good}) }},
		{"said", "", func(t layouttest.TB) { layouttest.Has(t, layouttest.Read(good.Items), "o ne", "on\u00a0etwo") }},
		{"not said", `"three" is not`, func(t layouttest.TB) { layouttest.Has(t, layouttest.Read(good.Items), "one", "three") }},
		{"not refused", "another reason", func(t layouttest.TB) { layouttest.Refused(t, &diag.List{}) }},
		{"no paper", "no paper", func(t layouttest.TB) { layouttest.Paper(t, "papyrus") }},
		{"no language", "no language", func(t layouttest.TB) { layouttest.Langs(t, "en", "xx") }},
		{"no market", "no market", func(t layouttest.TB) { layouttest.Market(t, "atlantis") }},
	} {
		var l listener
		c.judge(&l)
		if c.say == "" && len(l) > 0 || c.say != "" && !l.says(c.say) {
			t.Errorf("%s: heard %q, want %q", c.name, l, c.say)
		}
	}
}

func TestRefused(t *testing.T) {
	var found diag.List
	found.Errorf(diag.Pos{}, "does-not-fit", "take larger paper", "too much")
	layouttest.Refused(t, &found)
	if !layouttest.Only(&found, "does-not-fit") || layouttest.Only(&found, "words") || layouttest.Only(&diag.List{}, "words") {
		t.Error("the rules found are not told apart")
	}
}

// TestSheets: artworks stand in their order, one to a place, on as few sheets as
// they need.
func TestSheets(t *testing.T) {
	var arts, all []*page.Art
	for range 9 {
		arts = append(arts, &page.Art{W: 210 * unit.MM, H: 74 * unit.MM})
	}
	pages := layouttest.Sheets(layouttest.Paper(t, "a4-ticket-4"), stock.Bed{}, arts...)
	for _, pg := range pages {
		for _, a := range pg.Placed {
			all = append(all, a.Art)
		}
	}
	if len(pages) != 3 || !slices.Equal(all, arts) {
		t.Errorf("%d sheets with %d artworks", len(pages), len(all))
	}
}

func ExampleRead() {
	pages := []*page.Page{{W: 60 * unit.MM, H: 40 * unit.MM, Items: []page.Item{
		line("Pear and hazelnut", 5*unit.MM, 5*unit.MM), line("tartlet, 85\u00a0g", 5*unit.MM, 12*unit.MM)}}}
	fmt.Println(layouttest.Read(layouttest.Marks(pages)))
	// Output: Pearandhazelnuttartlet,85g
}
