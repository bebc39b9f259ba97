package pdf_test

import (
	"fmt"
	"io"
	"testing"

	"chablon/layout/pdf"
	"chablon/layout/pdf/pdftest"
)

var runs = []int{1, 1_000, pdf.MaxPages}

// BenchmarkWrite draws serialised labels: one artwork, and on each page its
// own number and batch.
func BenchmarkWrite(b *testing.B) {
	for _, n := range runs {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := labels(n)
			for b.Loop() {
				if err := pdf.Write(io.Discard, d); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "labels/s")
		})
	}
}

// BenchmarkFloor makes the same marks with bare calls of the library; see
// pdftest.Floor.
func BenchmarkFloor(b *testing.B) {
	for _, n := range runs {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			d := labels(n)
			for b.Loop() {
				pdftest.Floor(b, d.Arts[0], d.Pages, n)
			}
			b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "labels/s")
		})
	}
}
