package marks

import (
	"errors"
	"fmt"

	"chablon/labels/unit"
	"chablon/layout/page"
)

// shape finds out whether a box or path can be drawn, and lets it be. The
// outline of a box lies wholly inside it.
func shape(p Pen, b page.Rect, s *page.Shape) error {
	switch s.Kind {
	case page.Filled:
		if b.W <= 0 || b.H <= 0 {
			return fmt.Errorf("a box of %v by %v cannot be filled", b.W, b.H)
		}
		return p.Fill(b, s.Gray)
	case page.Outlined, page.Hatched:
		return outlined(p, b, s)
	case page.Path:
		if err := soundPath(s); err != nil {
			return err
		}
		return p.Path(s)
	}
	return fmt.Errorf("there is no shape of kind %d", s.Kind)
}

func outlined(p Pen, b page.Rect, s *page.Shape) error {
	if !Stroked(s) || b.W <= s.Stroke || b.H <= s.Stroke {
		return fmt.Errorf("a box of %v by %v cannot have an outline of %v", b.W, b.H, s.Stroke)
	}
	in := b.Inset(s.Stroke / 2)
	if s.Kind == page.Outlined {
		return p.Outline(in, s)
	}
	if (in.W+in.H)/hatchStep(s.Stroke) > 10_000 {
		return fmt.Errorf("a box of %v by %v is too large to hatch", b.W, b.H)
	}
	if err := p.Outline(in, s); err != nil {
		return err
	}
	return p.Hatch(in, s)
}

// Stroked reports whether a shape has lines that can be seen.
func Stroked(s *page.Shape) bool { return s.Stroke >= unit.UM }

// hatchStep is how far the lines of a hatch are apart, along an edge: six
// strokes, but never less than half a millimetre.
func hatchStep(stroke unit.Length) unit.Length { return max(6*stroke, unit.MM/2) }

// Hatch calls line for each line of a hatch in b: they rise to the right at 45
// degrees.
func Hatch(b page.Rect, stroke unit.Length, line func(from, to page.Pt)) {
	step := hatchStep(stroke)
	for c := step; c < b.W+b.H; c += step {
		low, right := min(c, b.H), min(c, b.W)
		line(page.Pt{X: b.X + c - low, Y: b.Y + low}, page.Pt{X: b.X + right, Y: b.Y + c - right})
	}
}

func soundPath(s *page.Shape) error {
	switch {
	case len(s.Segs) == 0 || s.Segs[0].Op != page.Move:
		return errors.New("a path has to begin with a move")
	case !s.Fill && !Stroked(s):
		return errors.New("a path has neither a fill nor a stroke")
	}
	for _, g := range s.Segs {
		if _, ok := Points(g); !ok {
			return fmt.Errorf("a path cannot go %q", byte(g.Op))
		}
	}
	return nil
}

// Points are the points that a step of a path uses; ok is false where there is
// no such step.
func Points(g page.Seg) (used []page.Pt, ok bool) {
	switch g.Op {
	case page.Move, page.Line:
		return g.Pts[:1], true
	case page.Curve:
		return g.Pts[:], true
	}
	return nil, g.Op == page.Close
}
