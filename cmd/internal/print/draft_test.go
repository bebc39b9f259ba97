package print

import (
	"image"
	"slices"
	"strings"
	"testing"

	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// marks counts the marks of a draft on an artwork, and checks that each lies
// in the safe area and behind everything else.
func marks(t *testing.T, art *page.Art, safe page.Rect) int {
	t.Helper()
	n := 0
	for i, it := range art.Items {
		if it.Role != role.Draft {
			continue
		}
		if n++; i != n-1 {
			t.Error("a mark lies before words")
		}
		if !safe.Contains(it.Box) {
			t.Errorf("a mark at %+v leaves %+v", it.Box, safe)
		}
	}
	return n
}

// Every label and carton that is not approved bears the mark; those that are
// approved bear none, whether a draft was asked for or not.
func TestDraftMarked(t *testing.T) {
	for _, approved := range []bool{false, true} {
		for _, id := range demoPress(t).Shop.ProductIDs {
			p := demoPress(t)
			if !approved {
				p.Shop.Approvals = shop.Approvals{}
			}
			for _, k := range p.kinds {
				if !k.sold() || !slices.Contains(k.IDs(p), id) { // what is sold by weight has no box end
					continue
				}
				q := p.Shop.Products[id]
				j := sound(t, p, k.Name, id, Request{Draft: true, Weight: usualWeight(k, q, k.packs(q)[0])})
				art := j.set.art(1)
				if n := marks(t, art, j.safe(art.Area())); (n > 0) == approved || j.Draft == approved {
					t.Errorf("%s of %s, approved %v: %d marks", k.Name, id, approved, n)
				}
			}
		}
	}
}

// Another reader finds the words of the mark and all words of the label, and
// grey where an approved label is white. Black is still black.
func TestDraftReads(t *testing.T) {
	draw := func(approved bool) (*image.Gray, string) {
		p := demoPress(t)
		if !approved {
			p.Shop.Approvals = shop.Approvals{}
		}
		papers := asked(t, p, "label", "pear-hazelnut-tartlet", Request{Draft: true}).Papers
		if strings.HasPrefix(papers[0].Name, "draft-") == approved || strings.HasPrefix(papers[0].About, "DRAFT") == approved {
			t.Errorf("%s: %s", papers[0].Name, papers[0].About)
		}
		data := bytesOf(t, papers[0])
		var words []string
		for _, pg := range pdftest.Pages(t, data) {
			words = append(words, pg.Text)
		}
		return pdftest.Raster(t, data, 0, 203), strings.Join(words, " ")
	}
	grey := func(m *image.Gray) (black, mark int) {
		for _, v := range m.Pix {
			switch {
			case v < 0x20:
				black++
			case v == draftGray:
				mark++
			}
		}
		return black, mark
	}
	draft, said := draw(false)
	sold, _ := draw(true)
	black, mark := grey(draft)
	blackSold, markSold := grey(sold)
	if mark < len(draft.Pix)/50 || markSold > len(sold.Pix)/1000 {
		t.Errorf("%d of %d dots are grey on a draft, %d on a label for sale", mark, len(draft.Pix), markSold)
	}
	if black < blackSold*95/100 {
		t.Errorf("%d dots are black on a draft, %d on a label for sale", black, blackSold)
	}
	for _, w := range []string{"DRAFT – not for sale", "Pear and hazelnut tartlet", "Ingredients:"} {
		if !strings.Contains(strings.ReplaceAll(said, "\n", " "), w) {
			t.Errorf("%q cannot be read in %q", w, said)
		}
	}
}

// A language without words for a draft takes those of the kitchen's cards.
func TestDraftWord(t *testing.T) {
	p := demoPress(t)
	for codes, want := range map[string]string{"de": "ENTWURF", "fr": "BROUILLON", "fi": "DRAFT", "fi,de": "ENTWURF", "": "DRAFT"} {
		var langs []*words.Lang
		for _, c := range strings.Split(codes, ",") {
			if l, ok := words.Get(c); ok {
				langs = append(langs, l)
			}
		}
		if got := (&Job{Press: p, Langs: langs}).markWord("sheet.draft", "DRAFT"); !strings.HasPrefix(got, want) {
			t.Errorf("%q: %q", codes, got)
		}
	}
}
