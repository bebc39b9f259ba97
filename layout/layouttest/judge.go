package layouttest

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf"
	"chablon/layout/preflight"
)

// Passes fails for whatever preflight finds on the pages, cautions too. Without
// a safe area, a page may be printed on to its edges.
func Passes(t TB, s preflight.Sheet, pages ...*page.Page) {
	t.Helper()
	if len(pages) == 0 {
		t.Errorf("%s has no pages", s.What)
	}
	for i, pg := range pages {
		var found diag.List
		each := s
		if each.Safe == (page.Rect{}) {
			each.Safe = pg.Area()
		}
		preflight.Label(each, pg.All(), &found)
		preflight.Placed(each, pg, &found)
		for _, d := range found.All() {
			t.Errorf("page %d: %v", i+1, d)
		}
	}
}

// Capitals fails for letters whose capitals are lower than least.
func Capitals(t TB, least unit.Length, items []page.Item) {
	t.Helper()
	for _, it := range items {
		if it.Run != nil && it.Run.CapHeight < least {
			t.Errorf("%q is %s high, under %s", it.Run.Text, it.Run.CapHeight, least)
		}
	}
}

// Only reports whether something was found, and nothing but these rules.
func Only(found *diag.List, rules ...string) bool {
	for _, d := range found.All() {
		if !slices.Contains(rules, d.Rule) {
			return false
		}
	}
	return found.Len() > 0
}

// Refused fails unless there is one error: that something does not fit, and
// what can be done.
func Refused(t TB, found *diag.List) {
	t.Helper()
	if found.Errors() != 1 || found.All()[0].Rule != "does-not-fit" || found.All()[0].Hint == "" {
		t.Errorf("refused for another reason: %v", found.All())
	}
}

// Marks are the marks of all pages in their order.
func Marks(pages []*page.Page) []page.Item {
	var out []page.Item
	for _, pg := range pages {
		out = append(out, pg.All()...)
	}
	return out
}

// Bare is s without white space, as words stand on a page that may be broken
// anywhere.
func Bare(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, "\u200b", "")), "")
}

// Read is all words of the marks in their order, without white space.
func Read(items []page.Item) string {
	var b strings.Builder
	for _, it := range items {
		if it.Run != nil {
			b.WriteString(it.Run.Text)
		}
	}
	return Bare(b.String())
}

// Has fails for each of what that does not stand in all, which is bare.
func Has(t TB, all string, what ...string) {
	t.Helper()
	for _, s := range what {
		if !strings.Contains(all, Bare(s)) {
			t.Errorf("%q is not on the paper", s)
		}
	}
}

// PDF draws pages into one document.
func PDF(t TB, pages ...*page.Page) []byte {
	t.Helper()
	var arts []*page.Art
	for _, pg := range pages {
		for _, p := range pg.Placed {
			if !slices.Contains(arts, p.Art) {
				arts = append(arts, p.Art)
			}
		}
	}
	var b bytes.Buffer
	err := pdf.Write(&b, pdf.Doc{Title: "paper", Lang: "en", Arts: arts, Pages: slices.Values(pages)})
	if err != nil {
		t.Fatalf("%v", err)
	}
	return b.Bytes()
}

// Clean composes pages and fails on anything that was found on the way.
func Clean(t TB, compose func(found *diag.List) []*page.Page) []*page.Page {
	t.Helper()
	var found diag.List
	pages := compose(&found)
	if found.Len() > 0 {
		t.Fatalf("%v", found.All())
	}
	return pages
}

// Aloud is a test that an example is: what fails is printed, and differs from
// what the example says, or ends it.
type Aloud struct{}

// Helper does nothing.
func (Aloud) Helper() {}

// Errorf prints.
func (Aloud) Errorf(f string, a ...any) { fmt.Printf(f+"\n", a...) }

// Fatalf ends the example.
func (Aloud) Fatalf(f string, a ...any) { panic(fmt.Sprintf(f, a...)) }
