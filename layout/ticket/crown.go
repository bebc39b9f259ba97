package ticket

import (
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/text"
)

// crown is how much of the shop's look a ticket has.
type crown struct {
	fonts bool
	mark  bool // emblem and written name over the name of the food
}

// crowns lists how much to try, the most first.
func (t Ticket) crowns() []crown {
	if t.Look == nil {
		return []crown{{}}
	}
	all := []crown{{fonts: true}, {}}
	if t.Stock.Fold.Set() && t.Look.Has() {
		all = append([]crown{{fonts: true, mark: true}}, all...)
	}
	return all
}

// markSide is the side of the emblem on a ticket that stands.
const markSide = 10 * unit.MM

// crowned sets emblem, written name and divider at the top of a column.
func (l layout) crowned(c *compose.Column) {
	if !l.mark {
		return
	}
	r := c.Room
	box := l.Look.Mark(c.Setter, l.paper, page.Rect{X: r.X, Y: r.Y, W: markSide, H: markSide})
	c.Must(1, box.W, l.Look.Brand.Logo.Pos)
	x := box.Right() + gap
	if !l.Look.Written(c.Setter, l.paper, page.Rect{X: x, Y: r.Y, W: r.Right() - x, H: box.H}, true) {
		c.Must(1, 0, l.Look.Brand.Logo.Pos)
	}
	c.Skip(box.H + gap)
	l.Look.Divide(c.Setter, c.Room.X, c.Room.Y, c.Room.W)
	c.Skip(gap)
}

// named is what the name of the food is set in.
func (l layout) named(size unit.Length) *text.Faces {
	if !l.fonts {
		return l.paper.Faces
	}
	return l.Look.Named(l.paper, size)
}

// abouted is what the line about the food is set in.
func (l layout) abouted(size unit.Length) *text.Faces {
	if !l.fonts {
		return l.paper.Faces
	}
	return l.Look.Abouted(l.paper, size)
}
