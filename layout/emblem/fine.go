package emblem

import (
	"fmt"
	"image"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// What survives the printer: strokes of two dots and gaps of three (a dot
// spreads into the white beside it). What is shorter than a corner is no stroke
// and no gap.
const (
	leastStroke, leastGap   = 2, 3
	cornerStroke, cornerGap = 3, 5
)

// Check finds what of the emblem the printer cannot draw in a box of
// [Emblem.Within]: too few pixels, strokes and gaps finer than its dots. src is
// the place that asks for it, such as the key logo: of the shop's look.
func (e *Emblem) Check(box page.Rect, way Way, src diag.Pos, found *diag.List) {
	if e.Gray != nil && dpi(e.W, box.W) < LeastDPI {
		found.Errorf(src, "emblem", fmt.Sprintf("save it with %d × %d pixels at least, or as SVG", need(box.W), need(box.H)),
			"the emblem %s has %d pixels an inch at %.1f mm, and %d are needed", e.Pos.File, dpi(e.W, box.W), box.W.MM(), LeastDPI)
	}
	if way.Dots.N == 0 || e.tones(box, way) || e.Gray != nil && !way.Thermal && !e.twoTone() {
		return
	}
	b := e.dotted(box, way)
	e.tooFine(b, way, src, found, "a stroke", b.lost(true, leastStroke, cornerStroke))
	e.tooFine(b, way, src, found, "a gap", b.lost(false, leastGap, cornerGap))
}

func (e *Emblem) tooFine(b *bits, way Way, src diag.Pos, found *diag.List, what string, at []image.Rectangle) {
	if len(at) == 0 {
		return
	}
	c := at[0].Min.Add(at[0].Max).Div(2)
	found.Errorf(src, "emblem-fine", "draw it wider, or give logo-small",
		"the emblem %s, %.1f mm wide: %s at %.1f mm from its left and %.1f mm from its top is finer than %s draws",
		e.Pos.File, way.Dots.At(int64(b.w)).MM(), what, way.Dots.At(int64(c.X)).MM(), way.Dots.At(int64(c.Y)).MM(), way.Dots)
}

func dpi(pixels int64, l unit.Length) int64 {
	return unit.MulDiv(pixels, int64(unit.Inch), int64(max(l, 1)))
}

func need(l unit.Length) int64 {
	return (int64(l)*LeastDPI + int64(unit.Inch) - 1) / int64(unit.Inch)
}

// lost are the places that no square of k × k dots of that colour covers: they
// are finer than k dots. Tips of corners are not told: those up to corner dots
// long that hang on something wider.
func (b *bits) lost(black bool, k, corner int) []image.Rectangle {
	thin := b.thin(black, k)
	var out []image.Rectangle
	for i := range thin.on {
		if thin.on[i] {
			box, hangs := thin.island(b, black, i)
			if !hangs || max(box.Dx(), box.Dy()) > corner {
				out = append(out, box)
			}
		}
	}
	return out
}

// thin are the dots of one colour that lie in no square of k × k of it. Around
// the emblem all is white.
func (b *bits) thin(black bool, k int) *bits {
	out := &bits{w: b.w, h: b.h, on: make([]bool, len(b.on))}
	for i, on := range b.on {
		out.on[i] = on == black
	}
	for y := 1 - k; y < b.h; y++ {
		for x := 1 - k; x < b.w; x++ {
			if b.square(x, y, k, black) {
				out.clear(x, y, k)
			}
		}
	}
	return out
}

func (b *bits) square(x, y, k int, black bool) bool {
	for j := range k {
		for i := range k {
			if b.at(x+i, y+j) != black {
				return false
			}
		}
	}
	return true
}

func (b *bits) clear(x, y, k int) {
	for j := max(0, y); j < min(b.h, y+k); j++ {
		for i := max(0, x); i < min(b.w, x+k); i++ {
			b.on[j*b.w+i] = false
		}
	}
}

// island takes the dots around i that hang together out of b. It gives the box
// around them, and whether they hang on more of their colour in whole.
func (b *bits) island(whole *bits, black bool, i int) (box image.Rectangle, hangs bool) {
	todo := []image.Point{{X: i % b.w, Y: i / b.w}}
	b.on[i] = false
	mine := map[image.Point]bool{todo[0]: true}
	for len(todo) > 0 {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		box = box.Union(image.Rectangle{Min: p, Max: p.Add(image.Pt(1, 1))})
		for _, d := range around() {
			q := p.Add(d)
			switch {
			case b.at(q.X, q.Y):
				b.on[q.Y*b.w+q.X] = false
				mine[q] = true
				todo = append(todo, q)
			case !mine[q] && whole.at(q.X, q.Y) == black:
				hangs = true
			}
		}
	}
	return box, hangs
}

// around are the four neighbours of a dot.
func around() []image.Point { return []image.Point{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} }
