package pdf

import (
	"errors"
	"fmt"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// shape draws a box or a path. The outline of a box lies wholly inside it; a
// path is stroked along its middle and filled by the non-zero rule.
func (p *pen) shape(box page.Rect, s *page.Shape) error {
	switch s.Kind {
	case page.Filled:
		return p.filled(box, s)
	case page.Outlined:
		return p.outlined(box, s)
	case page.Hatched:
		return p.hatched(box, s)
	case page.Path:
		return p.path(s)
	}
	return fmt.Errorf("there is no shape of kind %d", s.Kind)
}

func (p *pen) filled(b page.Rect, s *page.Shape) error {
	if b.W <= 0 || b.H <= 0 {
		return fmt.Errorf("a box of %v by %v cannot be filled", b.W, b.H)
	}
	p.setFill(s.Gray)
	p.rect(b.X, b.Y, b.Right(), b.Bottom())
	p.op("f\n")
	return nil
}

func (p *pen) outlined(b page.Rect, s *page.Shape) error {
	if milli(s.Stroke) <= 0 || b.W <= s.Stroke || b.H <= s.Stroke {
		return fmt.Errorf("a box of %v by %v cannot have an outline of %v", b.W, b.H, s.Stroke)
	}
	p.setLine(s.Gray, s.Stroke)
	p.setJoin('0')
	in := b.Inset(s.Stroke / 2)
	p.rect(in.X, in.Y, in.Right(), in.Bottom())
	p.op("S\n")
	return nil
}

// hatched draws the outline and lines that rise to the right at 45 degrees,
// six strokes apart but never closer than half a millimetre.
func (p *pen) hatched(b page.Rect, s *page.Shape) error {
	if err := p.outlined(b, s); err != nil {
		return err
	}
	in, step := b.Inset(s.Stroke/2), max(6*s.Stroke, unit.MM/2)
	if (in.W+in.H)/step > 10_000 {
		return fmt.Errorf("a box of %v by %v is too large to hatch", b.W, b.H)
	}
	for c := step; c < in.W+in.H; c += step {
		low, right := min(c, in.H), min(c, in.W)
		p.at(in.X+c-low, in.Y+low)
		p.op(" m")
		p.at(in.X+right, in.Y+c-right)
		p.op(" l\n")
	}
	p.op("S\n")
	return nil
}

func (p *pen) path(s *page.Shape) error {
	stroke := milli(s.Stroke) > 0
	switch {
	case len(s.Segs) == 0 || s.Segs[0].Op != page.Move:
		return errors.New("a path has to begin with a move")
	case !s.Fill && !stroke:
		return errors.New("a path has neither a fill nor a stroke")
	}
	if s.Fill {
		p.setFill(s.Gray)
	}
	if stroke {
		p.setLine(s.Gray, s.Stroke)
		p.setJoin('1')
	}
	for _, g := range s.Segs {
		if err := p.seg(g); err != nil {
			return err
		}
	}
	p.op(paint(s.Fill, stroke))
	return nil
}

func (p *pen) seg(g page.Seg) error {
	n, op := 0, ""
	switch g.Op {
	case page.Move:
		n, op = 1, " m\n"
	case page.Line:
		n, op = 1, " l\n"
	case page.Curve:
		n, op = 3, " c\n"
	case page.Close:
		op = "h\n"
	default:
		return fmt.Errorf("a path cannot go %q", byte(g.Op))
	}
	for _, pt := range g.Pts[:n] {
		p.at(pt.X, pt.Y)
	}
	p.op(op)
	return nil
}

func paint(fill, stroke bool) string {
	switch {
	case fill && stroke:
		return "B\n"
	case fill:
		return "f\n"
	}
	return "S\n"
}
