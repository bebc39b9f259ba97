package print

import (
	"io"
	"slices"
	"testing"

	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// benchCards are the largest card of a formula and of a product in the demo
// shop, on A4 in two languages.
func benchCards() []CardRequest {
	return []CardRequest{{ID: "marshmallow"}, {ID: "pear-hazelnut-tartlet", Pieces: 48}}
}

// wholeCard makes one card from the open shop to the last byte.
func wholeCard(t testing.TB, p *Press, r CardRequest) {
	papers, err := p.Card(r)
	if err != nil || p.Found.Errors() > 0 {
		t.Fatal(err, p.Found.All())
	}
	if err := papers[0].Write(io.Discard, nil); err != nil {
		t.Fatal(err)
	}
}

// cardFloor draws the same marks with bare calls of the PDF library.
func cardFloor(t testing.TB, pages []*page.Page) {
	pdftest.Floor(t, &page.Art{W: pages[0].W, H: pages[0].H}, slices.Values(pages), 1)
}

func cardPages(t testing.TB, p *Press, r CardRequest) []*page.Page {
	c, err := p.lookUpCard(r)
	pages := p.composeCard(c)
	if err != nil || len(pages) == 0 {
		t.Fatal(err, p.Found.All())
	}
	return pages
}

// BenchmarkCard measures the whole path of a card, the shop being open: batch,
// order of work, allergens, words, layout, preflight, PDF.
func BenchmarkCard(b *testing.B) {
	for _, r := range benchCards() {
		b.Run(r.ID, func(b *testing.B) {
			p := demoPress(b)
			for b.Loop() {
				wholeCard(b, p, r)
			}
		})
	}
}

// BenchmarkCardFloor draws the marks of those cards with bare calls.
func BenchmarkCardFloor(b *testing.B) {
	for _, r := range benchCards() {
		b.Run(r.ID, func(b *testing.B) {
			pages := cardPages(b, demoPress(b), r)
			for b.Loop() {
				cardFloor(b, pages)
			}
		})
	}
}
