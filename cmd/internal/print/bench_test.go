package print

import (
	"fmt"
	"io"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// demoPress opens the demo shop on 17 March 2026.
func demoPress(t testing.TB) *Press {
	d := unit.Date{Year: 2026, Month: 3, Day: 17}
	p, err := Open("", d, d.Time())
	if err != nil {
		t.Fatal(err)
	}
	if p.Found.Errors() > 0 {
		t.Fatal(p.Found.All())
	}
	return p
}

// benchRequest is one run of serialised labels of the demo shop.
func benchRequest(n int) Request { return Request{Count: unit.Count(n)} }

const benchProduct = "pear-hazelnut-tartlet"

// BenchmarkLabels measures the whole path for serialised labels of one
// product, the shop being open: facts, words, layout, preflight, PDF.
func BenchmarkLabels(b *testing.B) {
	for _, n := range []int{1, 1_000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := demoPress(b)
			for b.Loop() {
				for _, paper := range asked(b, p, "label", benchProduct, benchRequest(n)).Papers {
					if err := paper.write(io.Discard, func() {}); err != nil {
						b.Fatal(err)
					}
				}
			}
			b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "labels/s")
		})
	}
}

// BenchmarkLabelsFloor draws the same marks with bare calls of the PDF library.
func BenchmarkLabelsFloor(b *testing.B) {
	for _, n := range []int{1, 1_000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := demoPress(b)
			l := sound(b, p, "label", benchProduct, benchRequest(n))
			art := l.set.art(1)
			for b.Loop() {
				pdftest.Floor(b, art, func(yield func(*page.Page) bool) {
					for i := range n {
						if !yield(&page.Page{W: art.W, H: art.H, Items: l.set.own(i + 1)}) {
							return
						}
					}
				}, n)
			}
			b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "labels/s")
		})
	}
}
