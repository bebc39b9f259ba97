package print

import (
	"bytes"
	"strings"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/card"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// printed is the PDF of a card.
func printed(t *testing.T, p *Press, r CardRequest) []byte {
	t.Helper()
	papers, err := p.Card(r)
	if err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	var out bytes.Buffer
	if err := papers[0].Write(&out, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// TestCardCode: another decoder reads the code off the printed card at the
// office printer's resolution and at coarser ones, and it says which card that
// is.
func TestCardCode(t *testing.T) {
	p := demoPress(t)
	for _, r := range []CardRequest{{ID: "pear-hazelnut-tartlet", Pieces: 48}, {ID: "marshmallow", Paper: "card-a5"}, {ID: "craquelin", Paper: "card-letter"}} {
		c, err := p.lookUpCard(r)
		if err != nil {
			t.Fatal(err)
		}
		data := printed(t, p, r)
		on, box := codeOn(t, cardPages(t, p, r))
		for _, dpi := range []int{150, 203, 300, 600} {
			var found []string
			for _, code := range pdftest.Decode(t, pdftest.Crop(pdftest.Raster(t, data, on, dpi), dpi, box)) {
				if code.Format == "QR_CODE" {
					found = append(found, code.Text)
				}
			}
			if len(found) != 1 || !strings.HasPrefix(found[0], r.ID+" v") || !strings.HasSuffix(found[0], " "+card.CheckWord(c)) {
				t.Errorf("%s at %d dpi: %q", r.ID, dpi, found)
			}
		}
	}
}

// codeOn finds the one code of a card: its page, and its box with 3 mm around.
func codeOn(t *testing.T, pages []*page.Page) (on int, box page.Rect) {
	t.Helper()
	n := 0
	for i, pg := range pages {
		for _, it := range pg.All() {
			if it.Symbol != nil {
				n, on, box = n+1, i, it.Symbol.Bars.Inset(-3*unit.MM)
			}
		}
	}
	if n != 1 {
		t.Fatalf("%d codes", n)
	}
	return on, box
}

// TestCardOptions: what a print adds stands on the paper and leaves the check
// word alone, so that the list of current cards needs not know of it.
func TestCardOptions(t *testing.T) {
	p := demoPress(t)
	plain := CardRequest{ID: "pear-hazelnut-tartlet", Pieces: 48, Languages: []string{"en"}}
	more := plain
	more.Sizes, more.Ready, more.Baker = []unit.Count{24, 96}, 9*unit.Hour, true
	a, b := readCard(t, p, plain), readCard(t, p, more)
	for _, s := range []string{"batch sizes", "start no later than", "03:13", "100 % ="} {
		if !strings.Contains(b, s) || strings.Contains(a, s) {
			t.Errorf("%q: asked for %v, not asked for %v", s, strings.Contains(b, s), strings.Contains(a, s))
		}
	}
	c, _ := p.lookUpCard(plain)
	d, _ := p.lookUpCard(more)
	if w := card.CheckWord(c); w == "" || w != card.CheckWord(d) || !strings.Contains(b, w) {
		t.Errorf("check words %q and %q", w, card.CheckWord(d))
	}
	if !strings.Contains(a, "pear-hazelnut-tartlet / box-of-2") {
		t.Error("the card does not say which label goes on")
	}
}

// readCard is what another reader reads off the card.
func readCard(t *testing.T, p *Press, r CardRequest) string {
	t.Helper()
	var all []string
	for _, pg := range pdftest.Pages(t, printed(t, p, r)) {
		for _, l := range pg.Lines {
			all = append(all, l.Text)
		}
	}
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(strings.Join(all, "\n"))
}

// TestCardPages counts pages: that many are enough for the largest card on A4
// in one and in two languages, at the sizes of letters that 0.7 m asks for.
func TestCardPages(t *testing.T) {
	p := demoPress(t)
	for _, c := range []struct {
		langs string
		most  int
	}{{"en", 4}, {"en,fr", 5}} {
		got := len(cardPages(t, p, CardRequest{ID: "pear-hazelnut-tartlet", Pieces: 48, Languages: strings.Split(c.langs, ",")}))
		if got > c.most {
			t.Errorf("%s: %d pages, want %d at most", c.langs, got, c.most)
		}
	}
}

// TestNoSizes: batch sizes that cannot be shown are refused with a reason.
func TestNoSizes(t *testing.T) {
	for _, r := range []CardRequest{
		{ID: "craquelin", Sizes: []unit.Count{24}},
		{ID: "pistachio-choux", Sizes: []unit.Count{1, 2, 3, 4}},
		{ID: "pistachio-choux", Sizes: []unit.Count{0}},
	} {
		p := demoPress(t)
		if papers, err := p.Card(r); err == nil || len(papers) > 0 {
			t.Errorf("%+v was printed", r)
		}
	}
}
