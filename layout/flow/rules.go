package flow

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Thick is t in whole dots, at least one.
func (p *Pen) Thick(t unit.Length) unit.Length {
	if p.Dots.N == 0 {
		return t
	}
	return max(p.Dots.Snap(t), p.Dots.At(1))
}

// snap puts the edges of r on whole dots.
func (p *Pen) snap(r page.Rect) page.Rect {
	x, y := p.Dots.Snap(r.X), p.Dots.Snap(r.Y)
	return page.Rect{X: x, Y: y, W: p.Dots.Snap(r.Right()) - x, H: p.Dots.Snap(r.Bottom()) - y}
}

func (p *Pen) shape(r page.Rect, role role.Role, s page.Shape) {
	p.Items = append(p.Items, page.Item{Box: r, Role: role, Shape: &s})
}

// Rule draws a level line of the given thickness, its top at y.
func (p *Pen) Rule(x, y, w, thick unit.Length) {
	r := p.snap(page.Rect{X: x, Y: y, W: w})
	r.H = p.Thick(thick)
	p.shape(r, role.Furniture, page.Shape{Kind: page.Filled})
}

// Upright draws an upright line of the given thickness, its left edge at x.
func (p *Pen) Upright(x, y, h, thick unit.Length) {
	r := p.snap(page.Rect{X: x, Y: y, H: h})
	r.W = p.Thick(thick)
	p.shape(r, role.Furniture, page.Shape{Kind: page.Filled})
}

// Frame draws the outline of r; the line lies inside r.
func (p *Pen) Frame(r page.Rect, thick unit.Length) {
	p.outline(p.snap(r), page.Outlined, p.Thick(thick))
}

// Tint fills r with a grey, 0 being black. Words upon it want at least 217,
// a tint of 15 %.
func (p *Pen) Tint(r page.Rect, gray uint8) {
	p.shape(p.snap(r), role.Furniture, page.Shape{Kind: page.Filled, Gray: gray})
}

// Hatch fills r with slanted lines and outlines it.
func (p *Pen) Hatch(r page.Rect, thick unit.Length) {
	p.outline(p.snap(r), page.Hatched, p.Thick(thick))
}

// outline draws the edge of r. Where r has no room between its edges it is
// all edge, and filled, at least as wide and high as its edge.
func (p *Pen) outline(r page.Rect, kind page.ShapeKind, thick unit.Length) {
	if min(r.W, r.H) > 2*thick {
		p.shape(r, role.Furniture, page.Shape{Kind: kind, Stroke: thick})
		return
	}
	r.W, r.H = max(r.W, thick), max(r.H, thick)
	p.shape(r, role.Furniture, page.Shape{Kind: page.Filled})
}

// TickBox draws an empty square to tick by hand.
func (p *Pen) TickBox(x, y, side unit.Length) {
	p.Frame(page.Rect{X: x, Y: y, W: side, H: side}, max(side/14, 250*unit.UM))
}

// Boxed draws a frame around what set puts into it. The frame begins at the
// corner of r, is as wide as r, and as high as its contents and twice pad; it
// returns that height.
func (p *Pen) Boxed(r page.Rect, pad, thick unit.Length, set func(*Pen, page.Rect) (unit.Length, error)) (unit.Length, error) {
	in, edge := p.Fresh(), p.Thick(thick)+pad
	used, err := set(in, r.Inset(edge))
	if err != nil {
		return 0, err
	}
	used += 2 * edge
	if used > r.H {
		return 0, &Overflow{Need: used, Have: r.H}
	}
	r.H = used
	p.Frame(r, thick)
	p.Items = append(p.Items, in.Items...)
	return used, nil
}
