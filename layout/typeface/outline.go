package typeface

import (
	"math"
	"slices"

	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// mostPoints is how many points the outline of a letter that is measured may
// have, of an outline drawn by hand a hundredth; farOut is how many ems it may
// reach from where it stands.
const (
	mostPoints = 3000
	farOut     = 4
)

// An outline is the closed lines around a letter, curves cut into short ones,
// in units of the design from the base line up.
type outline [][]point

type point struct{ x, y float64 }

// load draws one glyph at one unit a pixel, so that nothing is rounded. The
// strokes hold until the next one is drawn.
func (r *reader) load(buf *sfnt.Buffer, g sfnt.GlyphIndex) (sfnt.Segments, error) {
	segs, err := r.font.LoadGlyph(buf, g, fixed.I(int(r.Em)), nil)
	if err != nil {
		return nil, err
	}
	_, err = r.font.GlyphAdvance(buf, g, fixed.I(int(r.Em)), font.HintingNone)
	return segs, err
}

// points counts those of the outline of strokes.
func points(segs sfnt.Segments) (n int) {
	for i, s := range segs {
		if i == 0 || s.Op == sfnt.SegmentOpMoveTo || s.Op == sfnt.SegmentOpLineTo {
			n++
		} else {
			n += inCurve
		}
	}
	return n
}

// lines is the outline of strokes.
func lines(segs sfnt.Segments) outline {
	var o outline
	for _, s := range segs {
		a := [3]point{at(s.Args[0]), at(s.Args[1]), at(s.Args[2])}
		if s.Op == sfnt.SegmentOpMoveTo || len(o) == 0 {
			o = append(o, []point{a[0]})
			continue
		}
		o[len(o)-1] = append(o[len(o)-1], flat(o[len(o)-1][len(o[len(o)-1])-1], s.Op, a)...)
	}
	return o
}

func at(p fixed.Point26_6) point { return point{float64(p.X) / 64, -float64(p.Y) / 64} }

// inCurve is how many short lines a curve is cut into.
const inCurve = 12

// flat is one step of an outline as short lines.
func flat(from point, op sfnt.SegmentOp, a [3]point) []point {
	const n = inCurve
	if op == sfnt.SegmentOpLineTo {
		return a[:1]
	}
	out := make([]point, 0, n)
	for i := 1; i <= n; i++ {
		t := float64(i) / n
		if op == sfnt.SegmentOpQuadTo {
			out = append(out, mix(mix(from, a[0], t), mix(a[0], a[1], t), t))
			continue
		}
		b := mix(a[0], a[1], t)
		out = append(out, mix(mix(mix(from, a[0], t), b, t), mix(b, mix(a[1], a[2], t), t), t))
	}
	return out
}

func mix(a, b point, t float64) point { return point{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t} }

// usual reports whether an outline can be measured.
func (o outline) usual(em int64) bool {
	n, far := 0, float64(farOut*em)
	for _, line := range o {
		n += len(line)
		for _, p := range line {
			if max(p.x, -p.x, p.y, -p.y) > far {
				return false
			}
		}
	}
	return n <= mostPoints
}

// high and low are how far the outline reaches above and below the base line.
func (o outline) high() float64 {
	top := math.Inf(-1)
	for _, line := range o {
		for _, p := range line {
			top = max(top, p.y)
		}
	}
	return top
}

func (o outline) low() float64 {
	down := math.Inf(1)
	for _, line := range o {
		for _, p := range line {
			down = min(down, p.y)
		}
	}
	return down
}

// sample is a place on the outline: how wide the ink is there, straight across,
// how much of the outline it stands for, and whether a corner comes before it.
type sample struct {
	across, stands float64
	corner         bool
}

// thin is the width of the thinnest stroke: no stretch of the outline that is
// twice as long as it is wide is narrower. Corners come to a point too, but
// they are no strokes: along them the ink widens with every step.
func (o outline) thin(em float64) float64 {
	least := math.Inf(1)
	for _, line := range o {
		walk := o.walk(line, em)
		for i := range walk {
			least = min(least, stretch(walk, i))
		}
	}
	return least
}

// stretch is the greatest width along the outline from sample i on, until it
// is half as wide as the way that was gone; without end where a corner comes
// first.
func stretch(walk []sample, i int) float64 {
	const long = 2
	way, wide := 0.0, 0.0
	for k := range walk {
		s := walk[(i+k)%len(walk)]
		if k > 0 && s.corner || math.IsInf(s.across, 1) {
			break
		}
		wide = max(wide, s.across)
		if way+s.stands/2 >= long*wide {
			return wide
		}
		way += s.stands
	}
	return math.Inf(1)
}

// walk looks across the ink at short steps along one line of the outline.
func (o outline) walk(line []point, em float64) (out []sample) {
	step, last := em/200, point{}
	for i, a := range line {
		b := line[(i+1)%len(line)]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		if long == 0 {
			continue
		}
		dir := point{(b.x - a.x) / long, (b.y - a.y) / long}
		n := max(1, min(int(long/step), 1+mostPoints/len(line)))
		for k := range n {
			p := mix(a, b, (float64(k)+0.5)/float64(n))
			out = append(out, sample{o.through(p, point{-dir.y, dir.x}), long / float64(n), k == 0 && sharp(last, dir)})
		}
		last = dir
	}
	return out
}

// through is how wide the ink is at p, to both sides together: of an edge that
// lies inside of another part of the letter there is some on either side.
func (o outline) through(p, dir point) float64 {
	left, right := o.across(p, dir), o.across(p, point{-dir.x, -dir.y})
	if math.IsInf(left, 1) || math.IsInf(right, 1) {
		return min(left, right)
	}
	return left + right
}

// sharp reports whether an outline turns by more than 45 degrees.
func sharp(from, to point) bool { return from.x*to.x+from.y*to.y < math.Sqrt2/2 }

// crossing is where a ray meets the outline, and whether it turns left there.
type crossing struct {
	far  float64
	turn int
}

// across is how far ink reaches from p in a direction; without end where there
// is none on that side. Ink is what the outline winds around.
func (o outline) across(p, dir point) float64 {
	var met []crossing
	inside := 0
	for _, line := range o {
		for i, a := range line {
			if c, ok := meet(p, dir, a, line[(i+1)%len(line)]); ok {
				met, inside = append(met, c), inside+c.turn
			}
		}
	}
	slices.SortFunc(met, func(a, b crossing) int {
		if a.far < b.far {
			return -1
		}
		return 1
	})
	for _, c := range met {
		if inside == 0 {
			break
		}
		if inside -= c.turn; inside == 0 {
			return c.far
		}
	}
	return math.Inf(1)
}

// meet is where the ray from p crosses the line from a to b, beyond p itself.
func meet(p, dir, a, b point) (crossing, bool) {
	side := func(q point) float64 { return dir.x*(q.y-p.y) - dir.y*(q.x-p.x) }
	sa, sb := side(a), side(b)
	if (sa < 0) == (sb < 0) {
		return crossing{}, false
	}
	q := mix(a, b, sa/(sa-sb))
	far := dir.x*(q.x-p.x) + dir.y*(q.y-p.y)
	turn := 1
	if sa > sb {
		turn = -1
	}
	return crossing{far, turn}, far > 1e-6
}
