package print

import (
	"strings"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// printed is the PDF of a card.
func printed(t *testing.T, p *Press, id string, r Request) []byte {
	t.Helper()
	b := asked(t, p, "card", id, r)
	if b.Found.Errors() > 0 {
		t.Fatal(b.Found.All())
	}
	return bytesOf(t, b.Papers[0])
}

// TestCardCode: another decoder reads the code off the printed card at the
// office printer's resolution and at coarser ones, and it says which card that
// is.
func TestCardCode(t *testing.T) {
	p := demoPress(t)
	for id, r := range map[string]Request{"pear-hazelnut-tartlet": {Own: &CardOptions{Pieces: 48}}, "marshmallow": {Paper: "card-a5"}, "craquelin": {Paper: "card-letter"}} {
		data := printed(t, p, id, r)
		on, box := codeOn(t, cardPages(t, p, id, r))
		for _, dpi := range []int{150, 203, 300, 600} {
			var found []string
			for _, code := range pdftest.Decode(t, pdftest.Crop(pdftest.Raster(t, data, on, dpi), dpi, box)) {
				if code.Format == "QR_CODE" {
					found = append(found, code.Text)
				}
			}
			if len(found) != 1 || !strings.HasPrefix(found[0], id+" v") || !strings.HasSuffix(found[0], " "+checkWord(sound(t, p, "card", id, r))) {
				t.Errorf("%s at %d dpi: %q", id, dpi, found)
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
	plain := Request{Languages: []string{"en"}, Own: &CardOptions{Pieces: 48}}
	more := Request{Languages: []string{"en"}, Own: &CardOptions{Pieces: 48, Sizes: []unit.Count{24, 96}, Ready: unit.Clock(9 * unit.Hour), Baker: true}}
	a, b := readCard(t, p, "pear-hazelnut-tartlet", plain), readCard(t, p, "pear-hazelnut-tartlet", more)
	for _, s := range []string{"batch sizes", "start no later than", "03:13", "100 % ="} {
		if !strings.Contains(b, s) || strings.Contains(a, s) {
			t.Errorf("%q: asked for %v, not asked for %v", s, strings.Contains(b, s), strings.Contains(a, s))
		}
	}
	c, d := checkWord(sound(t, p, "card", "pear-hazelnut-tartlet", plain)), checkWord(sound(t, p, "card", "pear-hazelnut-tartlet", more))
	if c == "" || c != d || !strings.Contains(b, c) {
		t.Errorf("check words %q and %q", c, d)
	}
	if !strings.Contains(a, "label: box-of-2") {
		t.Error("the card does not say which label goes on")
	}
}

// readCard is what another reader reads off the card.
func readCard(t *testing.T, p *Press, id string, r Request) string {
	t.Helper()
	var all []string
	for _, pg := range pdftest.Pages(t, printed(t, p, id, r)) {
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
		got := len(cardPages(t, p, "pear-hazelnut-tartlet", Request{Languages: strings.Split(c.langs, ","), Own: &CardOptions{Pieces: 48}}))
		if got > c.most {
			t.Errorf("%s: %d pages, want %d at most", c.langs, got, c.most)
		}
	}
}

// TestNoSizes: batch sizes that cannot be shown are refused with a reason.
func TestNoSizes(t *testing.T) {
	for _, c := range []struct {
		id    string
		sizes []unit.Count
	}{{"craquelin", []unit.Count{24}}, {"pistachio-choux", []unit.Count{1, 2, 3, 4}}, {"pistachio-choux", []unit.Count{0}}} {
		p := demoPress(t)
		if b, err := p.Print(p.KindOf("card"), Request{IDs: []string{c.id}, Own: &CardOptions{Sizes: c.sizes}}); err == nil || len(b.Papers) > 0 {
			t.Errorf("%+v was printed", c)
		}
	}
}
