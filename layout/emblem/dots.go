package emblem

import (
	"fmt"
	"image"
	"image/draw"

	"golang.org/x/image/vector"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// bits are the dots of a printer that an emblem covers, true for black.
type bits struct {
	w, h int
	on   []bool
	how  string // "" or "tones", for the digest
}

func (b *bits) at(x, y int) bool {
	return x >= 0 && y >= 0 && x < b.w && y < b.h && b.on[y*b.w+x]
}

// dotted is the emblem at the printer's own dots: each is as black as the part
// of the emblem that lies under it, and then black or white. Errors are never
// carried on to the next dot, which would differ from label to label and eat
// strokes.
func (e *Emblem) dotted(box page.Rect, way Way) *bits {
	b := &bits{w: count(way.Dots, box.W), h: count(way.Dots, box.H)}
	level := func(x, y int) int { return 128 }
	if e.tones(box, way) {
		b.how, level = "tones", ordered
	}
	gray := e.covered(b.w, b.h)
	b.on = make([]bool, len(gray))
	for i, g := range gray {
		b.on[i] = int(g) < level(i%b.w, i/b.w)
	}
	return b
}

// count is how many dots lie on l, which is a whole number of them.
func count(d unit.Dots, l unit.Length) int {
	return int(max(1, unit.MulDiv(int64(l), d.N, int64(d.Per))))
}

// tones reports whether greys become patterns of dots: where they are asked
// for, the dots are fine enough, and the emblem is large enough.
func (e *Emblem) tones(box page.Rect, way Way) bool {
	return way.Tones && e.Gray != nil && fine(way.Dots) && min(box.W, box.H) >= leastTones
}

// leastTones is the least side of an emblem of which greys are kept.
const leastTones = 12 * unit.MM

// fine reports whether a printer has 12 dots on a millimetre; printers of 300
// dots an inch are sold as such.
func fine(d unit.Dots) bool { return d.N > 0 && d.At(12) <= 1020*unit.UM }

// ordered is the grey below which the dot at x, y is black: the matrix of
// Bayer (1973), four by four.
func ordered(x, y int) int {
	m := [4][4]int{{0, 8, 2, 10}, {12, 4, 14, 6}, {3, 11, 1, 9}, {15, 7, 13, 5}}
	return (m[y%4][x%4]*2 + 1) * 8
}

// covered is the emblem on w × h cells, each the mean grey of what lies in it.
func (e *Emblem) covered(w, h int) []byte {
	if e.Gray == nil {
		return filled(e.placed(page.Rect{W: unit.Length(w) << 20, H: unit.Length(h) << 20}), w, h)
	}
	return e.boxed(w, h)
}

// filled is a path, in 1/2^20 of a cell, on w × h cells: 0 for black.
func filled(steps []page.Seg, w, h int) []byte {
	f := func(l unit.Length) float32 { return float32(float64(l) / (1 << 20)) }
	r := vector.NewRasterizer(w, h)
	for _, s := range steps {
		p := s.Pts
		switch s.Op {
		case page.Move:
			r.ClosePath()
			r.MoveTo(f(p[0].X), f(p[0].Y))
		case page.Line:
			r.LineTo(f(p[0].X), f(p[0].Y))
		case page.Curve:
			r.CubeTo(f(p[0].X), f(p[0].Y), f(p[1].X), f(p[1].Y), f(p[2].X), f(p[2].Y))
		case page.Close:
			r.ClosePath()
		}
	}
	r.ClosePath()
	black := image.NewAlpha(image.Rect(0, 0, w, h))
	r.DrawOp = draw.Src
	r.Draw(black, black.Bounds(), image.Opaque, image.Point{})
	for i, a := range black.Pix {
		black.Pix[i] = 255 - a
	}
	return black.Pix
}

// boxed is a picture on w × h cells: each the mean of the pixels in it, by how
// much of them lies in it.
func (e *Emblem) boxed(w, h int) []byte {
	out := make([]byte, 0, w*h)
	for y := range h {
		for x := range w {
			out = append(out, e.mean(x, y, w, h))
		}
	}
	return out
}

func (e *Emblem) mean(x, y, w, h int) byte {
	sum := int64(0)
	for py, wy := range shares(int64(y), e.H, int64(h)) {
		for px, wx := range shares(int64(x), e.W, int64(w)) {
			sum += int64(e.Gray[py*e.W+px]) * wx * wy
		}
	}
	return byte(sum / (e.W * e.H))
}

// shares yields the pixels, of n, that lie in cell i of m, each with how much
// of it does in 1/m; together they are n.
func shares(i, n, m int64) func(yield func(p, share int64) bool) {
	from, to := i*n, (i+1)*n
	return func(yield func(p, share int64) bool) {
		for p := from / m; p*m < to; p++ {
			if !yield(p, min(to, (p+1)*m)-max(from, p*m)) {
				return
			}
		}
	}
}

// picture is the dots as a picture of a page, a pixel for each.
func (b *bits) picture(e *Emblem) *page.Picture {
	p := &page.Picture{W: b.w, H: b.h, Gray: make([]byte, len(b.on)), Digest: fmt.Sprintf("%s-%dx%d%s", e.Digest, b.w, b.h, b.how), Alt: e.alt()}
	for i, black := range b.on {
		if !black {
			p.Gray[i] = 255
		}
	}
	return p
}
