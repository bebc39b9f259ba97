package carton

import (
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// markSide is the most that the side of the emblem has on a carton.
const markSide = 12 * unit.MM

// crowned is a label in the look of the shop: its emblem at the left of the
// sender, and its dividers in place of the plain lines. It is set at the sizes
// of the plain label, and the emblem stands in the room that the head has in any
// case: nothing but the sender is moved. Where that does not go, there is no
// emblem, and it is said.
func (c *run) crowned(plain *layout) (l *layout, gave string) {
	if c.Look == nil {
		return plain, ""
	}
	own := *c
	own.dressed = true
	l, err := own.try(plain.coding, plain.cols, plain.body, plain.of6)
	if err != nil {
		return plain, "in the plain look"
	}
	if c.Look.Has() && l.mark.W == 0 {
		return l, "without the emblem"
	}
	return l, ""
}

// sent sets the sender into r, whose head is high at least, and keeps the room
// of the emblem at its left where both go.
func (l *layout) sent(s *compose.Setter, r page.Rect, high unit.Length) unit.Length {
	style := flow.Style{Size: l.body}
	set := func(s *compose.Setter, r page.Rect) unit.Length { return s.Para(r, l.sender, style) }
	plain := s.Block(r.W, set)
	high = max(high, plain.H)
	if l.dressed {
		side := min(markSide, high)
		if box, ok := l.Look.Fits(l.paper, page.Rect{X: l.cols[0].room.X, Y: l.cols[0].room.Y, W: side, H: side}); ok {
			in, x := s.Fresh(), box.W+l.body
			if b := in.Block(r.W-x, set); in.Err() == nil && b.H <= high {
				l.mark = box
				s.Add(b.Items, r.X+x, r.Y)
				return high
			}
		}
	}
	s.Add(plain.Items, r.X, r.Y)
	return plain.H
}

// divide draws the line between two sections around y.
func (l *layout) divide(s *compose.Setter, x, y, w unit.Length) {
	if l.dressed {
		l.Look.Divide(s, x, y-thin/2, w)
		return
	}
	s.Rule(x, y-thin/2, w, thin)
}
