package emblem

import (
	"math"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// bounds is the box that a path covers, curves by their turning points.
func bounds(steps []page.Seg) page.Rect {
	lowX, highX := unit.Length(math.MaxInt64), unit.Length(math.MinInt64)
	lowY, highY := lowX, highX
	var at page.Pt
	meet := func(p page.Pt) {
		lowX, highX = min(lowX, p.X), max(highX, p.X)
		lowY, highY = min(lowY, p.Y), max(highY, p.Y)
	}
	for _, s := range steps {
		switch s.Op {
		case page.Curve:
			for _, t := range append(turns(at.X, s.Pts[0].X, s.Pts[1].X, s.Pts[2].X), turns(at.Y, s.Pts[0].Y, s.Pts[1].Y, s.Pts[2].Y)...) {
				meet(page.Pt{X: bezier(t, at.X, s.Pts[0].X, s.Pts[1].X, s.Pts[2].X), Y: bezier(t, at.Y, s.Pts[0].Y, s.Pts[1].Y, s.Pts[2].Y)})
			}
			at = s.Pts[2]
		case page.Close:
			continue
		default:
			at = s.Pts[0]
		}
		meet(at)
	}
	return page.Rect{X: lowX, Y: lowY, W: highX - lowX, H: highY - lowY}
}

// turns are the parameters at which a cubic curve turns in one direction: the
// roots of its derivative between 0 and 1.
func turns(a, b, c, d unit.Length) (out []float64) {
	p, q, r := float64(d-a+3*(b-c)), 2*float64(a-2*b+c), float64(b-a)
	roots := []float64{-r / q}
	if p != 0 {
		s := math.Sqrt(q*q - 4*p*r)
		roots = []float64{(-q + s) / (2 * p), (-q - s) / (2 * p)}
	}
	for _, t := range roots {
		if t > 0 && t < 1 {
			out = append(out, t)
		}
	}
	return out
}

func bezier(t float64, a, b, c, d unit.Length) unit.Length {
	u := 1 - t
	return unit.Length(math.Round(u*u*u*float64(a) + 3*u*u*t*float64(b) + 3*u*t*t*float64(c) + t*t*t*float64(d)))
}
