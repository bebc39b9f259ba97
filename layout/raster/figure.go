package raster

import (
	"image"
	"math"

	"golang.org/x/image/vector"

	"chablon/layout/page"
)

// point is a place in dots.
type point struct{ x, y float32 }

func (p point) plus(q point) point { return point{p.x + q.x, p.y + q.y} }

// figure is what is inked at once: the steps of its outlines, and the box that
// they lie in.
type figure struct {
	steps []step
	lo    point
	hi    point
}

// step is one step along an outline: n points are used, 0 for a move to the
// first.
type step struct {
	n   int
	pts [3]point
}

func (f *figure) add(n int, pts ...point) {
	s := step{n: n}
	for i, p := range pts {
		if len(f.steps) == 0 && i == 0 {
			f.lo, f.hi = p, p
		}
		f.lo = point{min(f.lo.x, p.x), min(f.lo.y, p.y)}
		f.hi = point{max(f.hi.x, p.x), max(f.hi.y, p.y)}
		s.pts[i] = p
	}
	f.steps = append(f.steps, s)
}

func (f *figure) move(p point)       { f.add(0, p) }
func (f *figure) line(p point)       { f.add(1, p) }
func (f *figure) quad(a, p point)    { f.add(2, a, p) }
func (f *figure) cube(a, b, p point) { f.add(3, a, b, p) }

// path adds a path.
func (f *figure) path(segs []page.Seg, at func(page.Pt) point) {
	var start point
	for _, s := range segs {
		switch s.Op {
		case page.Move:
			start = at(s.Pts[0])
			f.move(start)
		case page.Line:
			f.line(at(s.Pts[0]))
		case page.Curve:
			f.cube(at(s.Pts[0]), at(s.Pts[1]), at(s.Pts[2]))
		case page.Close:
			f.line(start)
		}
	}
}

// stroke adds a line of a width along points: a box for each piece, and a round
// at each place where two pieces meet. All turn the same way, so that where they
// lie on each other it is not white.
func (f *figure) stroke(pts []point, width float32, closed bool) {
	for i := range pts[1:] {
		f.piece(pts[i], pts[i+1], width/2)
		if i > 0 || closed {
			f.round(pts[i], width/2)
		}
	}
}

func (f *figure) piece(a, b point, r float32) {
	dx, dy := b.x-a.x, b.y-a.y
	n := float32(math.Hypot(float64(dx), float64(dy)))
	if n == 0 {
		return
	}
	side := point{-dy / n * r, dx / n * r}
	back := point{-side.x, -side.y}
	f.move(a.plus(side))
	f.line(a.plus(back))
	f.line(b.plus(back))
	f.line(b.plus(side))
	f.line(a.plus(side))
}

// round adds a circle: four curves, each within 0.03 % of the arc.
func (f *figure) round(c point, r float32) {
	const k = 0.5523
	at := func(x, y float32) point { return point{c.x + x*r, c.y + y*r} }
	f.move(at(1, 0))
	f.cube(at(1, k), at(k, 1), at(0, 1))
	f.cube(at(-k, 1), at(-1, k), at(-1, 0))
	f.cube(at(-1, -k), at(-k, -1), at(0, -1))
	f.cube(at(k, -1), at(1, -k), at(1, 0))
}

// polyline is a path, or one of its parts, in straight pieces.
type polyline struct {
	pts    []point
	closed bool
}

// lines makes straight pieces of a path, each at most about two dots long.
func lines(segs []page.Seg, at func(page.Pt) point) (out []polyline) {
	for _, s := range segs {
		if s.Op == page.Move {
			out = append(out, polyline{pts: []point{at(s.Pts[0])}})
			continue
		}
		l := &out[len(out)-1]
		switch s.Op {
		case page.Line:
			l.pts = append(l.pts, at(s.Pts[0]))
		case page.Curve:
			l.curve(at(s.Pts[0]), at(s.Pts[1]), at(s.Pts[2]))
		case page.Close:
			l.pts, l.closed = append(l.pts, l.pts[0]), true
			out = append(out, polyline{pts: []point{l.pts[0]}}) // what goes on begins there
		}
	}
	return out
}

func (l *polyline) curve(a, b, c point) {
	from := l.pts[len(l.pts)-1]
	far := dist(from, a) + dist(a, b) + dist(b, c)
	n := int(min(max(far/2, 8), 1000))
	for i := 1; i <= n; i++ {
		t := float32(i) / float32(n)
		u := 1 - t
		mix := func(p, q, r, s float32) float32 { return u*u*u*p + 3*u*u*t*q + 3*u*t*t*r + t*t*t*s }
		l.pts = append(l.pts, point{mix(from.x, a.x, b.x, c.x), mix(from.y, a.y, b.y, c.y)})
	}
}

func dist(a, b point) float32 { return float32(math.Hypot(float64(a.x-b.x), float64(a.y-b.y))) }

// ink covers a figure with a grey.
func (d *burner) ink(f *figure, gray uint8) {
	box := image.Rect(int(math.Floor(float64(f.lo.x))), int(math.Floor(float64(f.lo.y))), int(math.Ceil(float64(f.hi.x)))+1, int(math.Ceil(float64(f.hi.y)))+1).Intersect(d.img.Rect)
	if len(f.steps) == 0 || box.Empty() {
		return
	}
	cover := f.cover(box)
	for y := box.Min.Y; y < box.Max.Y; y++ {
		row := cover.Pix[(y-box.Min.Y)*cover.Stride:]
		for x := box.Min.X; x < box.Max.X; x++ {
			d.blend(x, y, gray, row[x-box.Min.X])
		}
	}
}

// blend inks one dot, of which so much is covered.
func (d *burner) blend(x, y int, gray, cover uint8) {
	to := &d.img.Pix[y*d.img.Stride+x]
	switch {
	case !d.Greys && cover >= 128:
		*to = d.tone(x, y, gray)
	case d.Greys && cover > 0:
		c := int(cover)
		*to = uint8((int(*to)*(255-c) + int(gray)*c + 127) / 255)
	}
}

// cover is how much of each dot in a box a figure covers.
func (f *figure) cover(box image.Rectangle) *image.Alpha {
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	off := point{-float32(box.Min.X), -float32(box.Min.Y)}
	for _, s := range f.steps {
		a, b, c := s.pts[0].plus(off), s.pts[1].plus(off), s.pts[2].plus(off)
		switch s.n {
		case 0:
			r.MoveTo(a.x, a.y)
		case 1:
			r.LineTo(a.x, a.y)
		case 2:
			r.QuadTo(a.x, a.y, b.x, b.y)
		case 3:
			r.CubeTo(a.x, a.y, b.x, b.y, c.x, c.y)
		}
	}
	out := image.NewAlpha(image.Rect(0, 0, box.Dx(), box.Dy()))
	r.Draw(out, out.Rect, image.Opaque, image.Point{})
	return out
}
