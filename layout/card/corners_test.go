package card

import (
	"math"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/stock"
)

// TestCorners: the four marks bend round their corners at 5 mm, and no point
// of them lies where words may stand.
func TestCorners(t *testing.T) {
	for _, id := range stock.IDs() {
		s, _ := stock.Get(id)
		if s.Kind.V != "card" {
			continue
		}
		w, h := s.Size()
		words := page.Rect{W: w, H: h}.Inset(s.Safe.V)
		marks := corners(w, h, s.Safe.V)
		if len(marks) != 4 {
			t.Fatalf("%d marks", len(marks))
		}
		for i, m := range marks {
			centre := page.Pt{X: m.Box.X + m.Box.W*[]unit.Length{1, 0, 0, 1}[i], Y: m.Box.Y + m.Box.H*[]unit.Length{1, 1, 0, 0}[i]}
			for k := range 21 {
				x, y := curve(m.Shape.Segs, float64(k)/20)
				if r := math.Hypot(x-centre.X.MM(), y-centre.Y.MM()); math.Abs(r-corner.MM()) > 0.01 {
					t.Errorf("%s, mark %d: %.3f mm from its centre", id, i, r)
				}
				inX := x > words.X.MM() && x < words.Right().MM()
				inY := y > words.Y.MM() && y < words.Bottom().MM()
				if inX && inY {
					t.Errorf("%s, mark %d: a point at %.2f, %.2f stands where words may", id, i, x, y)
				}
			}
		}
	}
}

// curve is the point of the quarter at t between 0 and 1 (de Casteljau).
func curve(segs []page.Seg, t float64) (x, y float64) {
	p := []page.Pt{segs[0].Pts[0], segs[1].Pts[0], segs[1].Pts[1], segs[1].Pts[2]}
	for i, f := range []float64{(1 - t) * (1 - t) * (1 - t), 3 * t * (1 - t) * (1 - t), 3 * t * t * (1 - t), t * t * t} {
		x += f * p[i].X.MM()
		y += f * p[i].Y.MM()
	}
	return x, y
}
