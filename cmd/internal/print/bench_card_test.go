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
func benchCards() map[string]Request {
	return map[string]Request{"marshmallow": {}, "pear-hazelnut-tartlet": {Own: &CardOptions{Pieces: 48}}}
}

// wholeCard makes one card from the open shop to the last byte.
func wholeCard(t testing.TB, p *Press, id string, r Request) {
	if err := asked(t, p, "card", id, r).Papers[0].write(io.Discard, func() {}); err != nil {
		t.Fatal(err)
	}
}

// cardFloor draws the same marks with bare calls of the PDF library.
func cardFloor(t testing.TB, pages []*page.Page) {
	pdftest.Floor(t, &page.Art{W: pages[0].W, H: pages[0].H}, slices.Values(pages), 1)
}

func cardPages(t testing.TB, p *Press, id string, r Request) []*page.Page {
	return sound(t, p, "card", id, r).set.Pages
}

// BenchmarkCard measures the whole path of a card, the shop being open: batch,
// order of work, allergens, words, layout, preflight, PDF.
func BenchmarkCard(b *testing.B) {
	for id, r := range benchCards() {
		b.Run(id, func(b *testing.B) {
			p := demoPress(b)
			for b.Loop() {
				wholeCard(b, p, id, r)
			}
		})
	}
}

// BenchmarkCardFloor draws the marks of those cards with bare calls.
func BenchmarkCardFloor(b *testing.B) {
	for id, r := range benchCards() {
		b.Run(id, func(b *testing.B) {
			pages := cardPages(b, demoPress(b), id, r)
			for b.Loop() {
				cardFloor(b, pages)
			}
		})
	}
}
