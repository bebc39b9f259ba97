package card

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Corner marks say where the corners of a laminated card are rounded, so that
// none is sharp: quarters of a circle of 5 mm (trade practice, no source) in
// the margin, a little outside the area of the words.
const (
	corner      = 5 * unit.MM
	cornerOut   = 1500 * unit.UM // from the area of the words
	cornerThick = 200 * unit.UM
	cornerGray  = 128
)

// corners are the four marks of a card.
func corners(w, h, safe unit.Length) []page.Item {
	edge := safe - cornerOut
	var out []page.Item
	for _, at := range []struct{ x, y, dx, dy unit.Length }{
		{edge, edge, 1, 1}, {w - edge, edge, -1, 1}, {w - edge, h - edge, -1, -1}, {edge, h - edge, 1, -1},
	} {
		out = append(out, rounded(at.x, at.y, at.dx*corner, at.dy*corner))
	}
	return out
}

// rounded is the quarter of a circle that rounds the corner at (x, y) of a box
// that goes on by dx and dy. The control points of the curve lie 0.5523 of the
// radius from its ends (the usual approximation of a circle).
func rounded(x, y, dx, dy unit.Length) page.Item {
	far := func(d unit.Length) unit.Length { return d - d.Mul(5523, 10000) }
	box := page.Rect{X: min(x, x+dx), Y: min(y, y+dy), W: corner, H: corner}
	return page.Item{Box: box, Role: role.Trim, Shape: &page.Shape{Kind: page.Path, Stroke: cornerThick, Gray: cornerGray, Segs: []page.Seg{
		{Op: page.Move, Pts: [3]page.Pt{{X: x, Y: y + dy}}},
		{Op: page.Curve, Pts: [3]page.Pt{{X: x, Y: y + far(dy)}, {X: x + far(dx), Y: y}, {X: x + dx, Y: y}}},
	}}}
}
