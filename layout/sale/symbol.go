package sale

import (
	"errors"
	"fmt"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/page"
)

// front is the empty frame that keeps the place of a symbol at the front of the
// pack: at the right of the upper edge, so that it lies in the right half of a
// label that is lower than wide, and in the upper half of any other (C.R.C., c.
// 870, B.01.353). Its size is what the shop looked up; nobody here has read it.
func (c *label) front() page.Rect {
	if c.Facts.Nutrition == nil || !c.Facts.Nutrition.Symbol.Due() || c.Pack.Front == nil {
		return page.Rect{}
	}
	room := c.paper.Room()
	w, h := c.Pack.Front.Width.V, c.Pack.Front.Height.V
	return page.Rect{X: room.Right() - w, Y: room.Y, W: w, H: h}
}

// room is what the frame leaves of the paper, with some white below it.
func (c *label) room() page.Rect {
	room := c.paper.Room()
	if f := c.front(); f.H > 0 {
		return room.Below(f.H + unit.MM)
	}
	return room
}

// frame draws it.
func (c *label) frame(s *compose.Setter) {
	f := c.front()
	if f.H == 0 {
		return
	}
	from := len(s.Items)
	s.Frame(f, 150*unit.UM)
	for i := range s.Items[from:] {
		s.Items[from+i].Role, s.Items[from+i].Src = role.Symbol, c.Pack.Front.Pos
	}
}

// placed is why the symbol has no place on the label; nil where it has one, or
// needs none.
func (c *label) placed() error {
	if c.Facts.Nutrition == nil || !c.Facts.Nutrition.Symbol.Due() {
		return nil
	}
	f, room := c.front(), c.paper.Room()
	half := page.Rect{X: room.X, Y: room.Y, W: room.W, H: room.H / 2}
	if room.H < room.W {
		half = page.Rect{X: room.X + room.W/2, Y: room.Y, W: room.W - room.W/2, H: room.H}
	}
	switch {
	case f.W <= 0 || f.H <= 0:
		return errors.New("nobody has said how large it is")
	case !half.Contains(f):
		return fmt.Errorf("%s × %s do not go into the half of the label where it must stand", f.W, f.H)
	}
	return nil
}
