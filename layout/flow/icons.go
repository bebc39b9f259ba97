package flow

import (
	"strconv"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Icon is a small drawing. It never stands without its word: an icon alone
// says nothing for certain.
type Icon int

// The icons.
const (
	Warning Icon = iota // a triangle with an exclamation mark
	Limit               // a diamond with a bar across: this must be reached
	Probe               // a probe thermometer
	Oven
	Pan
	Cold // a snow crystal
	Whisk
	Clock
	Scale
	Arrow // to the right
	Tick
)

// stroke of a line, on the grid of 240 units that icons are drawn on.
const (
	grid   = 240
	stroke = 16
)

// drawing is an icon on the grid, x to the right and y down: lines and filled
// parts as M x y, L x y, C x1 y1 x2 y2 x y, Z, and O x y radius for a circle.
type drawing struct{ name, lines, filled string }

// drawings are our own, in the order of the constants.
func drawings() []drawing {
	return []drawing{
		{"warning", "M 120 24 L 226 210 L 14 210 Z",
			"M 108 86 L 132 86 L 127 148 L 113 148 Z O 120 175 12"},
		{"limit", "M 120 14 L 226 120 L 120 226 L 14 120 Z",
			"M 66 104 L 174 104 L 174 136 L 66 136 Z"},
		{"probe", "O 162 78 58 M 162 78 L 188 52 M 121 119 L 62 178",
			"M 70 158 L 82 170 L 14 230 L 10 226 Z O 162 78 11"},
		{"oven", "M 26 26 L 214 26 L 214 214 L 26 214 Z M 26 80 L 214 80 M 62 112 L 178 112 L 178 184 L 62 184 Z",
			"O 62 53 12 O 100 53 12 O 178 53 12"},
		{"pan", "M 24 104 L 156 104 L 156 176 C 156 198 146 208 124 208 L 56 208 C 34 208 24 198 24 176 Z M 156 124 L 230 112 " +
			"M 62 78 C 46 60 78 48 62 28 M 114 78 C 98 60 130 48 114 28", ""},
		{"cold", "M 120 18 L 120 222 M 32 69 L 208 171 M 32 171 L 208 69 " +
			"M 92 32 L 120 60 L 148 32 M 92 208 L 120 180 L 148 208 M 182 52 L 172 90 L 210 100 " +
			"M 58 52 L 68 90 L 30 100 M 182 188 L 172 150 L 210 140 M 58 188 L 68 150 L 30 140", ""},
		{"whisk", "M 112 96 C 30 150 50 226 120 226 C 190 226 210 150 128 96 M 118 96 C 84 150 90 226 120 226 C 150 226 156 150 122 96",
			"M 104 14 L 136 14 L 132 98 L 108 98 Z"},
		{"clock", "O 120 120 100 M 120 58 L 120 124 L 164 150", ""},
		{"scale", "M 24 92 L 216 92 M 120 92 L 120 118 M 62 118 L 178 118 L 206 210 L 34 210 Z O 120 166 22 M 120 166 L 132 154", ""},
		{"arrow", "M 22 120 L 214 120 M 144 56 L 214 120 L 144 184", ""},
		{"tick", "M 34 130 L 96 190 L 208 54", ""},
	}
}

// Icons lists all icons.
func Icons() []Icon {
	all := make([]Icon, len(drawings()))
	for i := range all {
		all[i] = Icon(i)
	}
	return all
}

// String is the icon's name, for a person who tests or reads a dump.
func (k Icon) String() string {
	if k < 0 || int(k) >= len(drawings()) {
		return "icon " + strconv.Itoa(int(k))
	}
	return drawings()[k].name
}

// Icon draws k as large as r allows, in its middle. At 5 mm its lines are a
// third of a millimetre thick. An unknown icon draws nothing.
func (p *Pen) Icon(k Icon, r page.Rect, role role.Role) {
	if k < 0 || int(k) >= len(drawings()) {
		return
	}
	side := min(r.W, r.H)
	box := page.Rect{X: r.X + (r.W-side)/2, Y: r.Y + (r.H-side)/2, W: side, H: side}
	d := drawings()[k]
	if d.lines != "" {
		p.shape(box, role, page.Shape{Kind: page.Path, Stroke: side.Mul(stroke, grid), Segs: segs(d.lines, box)})
	}
	if d.filled != "" {
		p.shape(box, role, page.Shape{Kind: page.Path, Fill: true, Segs: segs(d.filled, box)})
	}
}

// Ring draws a circle that fills the width of r, with a line of the given
// thickness.
func (p *Pen) Ring(r page.Rect, stroke unit.Length, role role.Role) {
	p.shape(r, role, page.Shape{Kind: page.Path, Stroke: stroke, Segs: circle(grid/2, grid/2, grid/2, r)})
}

// segs reads a drawing into box.
func segs(d string, box page.Rect) []page.Seg {
	var out []page.Seg
	words := strings.Fields(d)
	for len(words) > 0 {
		op, rest := words[0], words[1:]
		nums := make([]int64, 0, 6)
		for len(rest) > 0 {
			n, err := strconv.ParseInt(rest[0], 10, 32)
			if err != nil {
				break
			}
			nums, rest = append(nums, n), rest[1:]
		}
		out = append(out, steps(op[0], nums, box)...)
		words = rest
	}
	return out
}

// steps makes the segments of one letter and its numbers.
func steps(op byte, n []int64, box page.Rect) []page.Seg {
	if op == 'O' && len(n) == 3 {
		return circle(n[0], n[1], n[2], box)
	}
	s := page.Seg{Op: page.SegOp(op)}
	for i := 0; i+1 < len(n) && i < 6; i += 2 {
		s.Pts[i/2] = on(box, n[i], n[i+1])
	}
	return []page.Seg{s}
}

// on is the point (x, y) of the grid, in box.
func on(box page.Rect, x, y int64) page.Pt {
	return page.Pt{X: box.X + box.W.Mul(x, grid), Y: box.Y + box.H.Mul(y, grid)}
}

// circle is four quarter curves; 0.5523 is the usual length of their handles.
func circle(x, y, r int64, box page.Rect) []page.Seg {
	h := unit.MulDiv(r, 5523, 10_000)
	curve := func(x1, y1, x2, y2, x3, y3 int64) page.Seg {
		return page.Seg{Op: page.Curve, Pts: [3]page.Pt{on(box, x1, y1), on(box, x2, y2), on(box, x3, y3)}}
	}
	return []page.Seg{
		{Op: page.Move, Pts: [3]page.Pt{on(box, x+r, y)}},
		curve(x+r, y+h, x+h, y+r, x, y+r),
		curve(x-h, y+r, x-r, y+h, x-r, y),
		curve(x-r, y-h, x-h, y-r, x, y-r),
		curve(x+h, y-r, x+r, y-h, x+r, y),
		{Op: page.Close},
	}
}
