package registertest

import (
	"testing"
)

// Bench measures single numbers, blocks of 100, single numbers for goroutines
// at once, and copies.
func (s Suite) Bench(b *testing.B) {
	for _, c := range []struct {
		name string
		n    int64
	}{{"single", 1}, {"block of 100", 100}} {
		b.Run(c.name, func(b *testing.B) {
			r := s.open(b)
			for b.Loop() {
				r.take("labels", c.n, 1)
			}
			b.ReportMetric(float64(c.n)*float64(b.N)/b.Elapsed().Seconds(), "numbers/s")
		})
	}
	b.Run("at once", func(b *testing.B) {
		r := s.open(b)
		b.RunParallel(func(pb *testing.PB) {
			for pb.Next() {
				if _, err := r.Take(r.ctx, want("labels", 1, 1)); err != nil {
					b.Error(err)
					return
				}
			}
		})
	})
	b.Run("post", func(b *testing.B) {
		r := s.open(b)
		for b.Loop() {
			r.post(card("tartlet", "4", "bench"))
		}
	})
}
