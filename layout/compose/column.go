package compose

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Column is a place that is filled from its top. Room is what is left of it.
type Column struct {
	*Setter
	Room page.Rect
	top  unit.Length
}

// Column begins to fill r.
func (s *Setter) Column(r page.Rect) *Column { return &Column{Setter: s, Room: r, top: r.Y} }

// Put sets a paragraph below what is there; without words it takes no room.
func (c *Column) Put(q text.Para, st flow.Style) {
	if len(q.Spans) > 0 {
		c.Down(c.Para(c.Room, q, st))
	}
}

// PutIn is [Column.Put] in other faces than those of the paper.
func (c *Column) PutIn(f *text.Faces, q text.Para, st flow.Style) {
	if len(q.Spans) > 0 {
		c.Down(c.ParaIn(f, c.Room, q, st))
	}
}

// Skip leaves white, where there is room for it.
func (c *Column) Skip(h unit.Length) {
	c.Must(h, c.Room.H, diag.Pos{})
	c.Down(h)
}

// Used is the height that is filled.
func (c *Column) Used() unit.Length { return c.Room.Y - c.top }

// Down takes h from the top of the room, for what was set there.
func (c *Column) Down(h unit.Length) { c.Room = c.Room.Below(h) }
