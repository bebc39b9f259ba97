package ticket

import (
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// highShelf is the height from which a shelf ticket has room for the line that
// says what the food is like.
const highShelf = 50 * unit.MM

// shelf sets a ticket of one panel: the name beside the price, the allergens
// below, and small at the foot the version and the check word.
func (c *composer) shelf(pen *flow.Pen, room page.Rect, z sizes) error {
	z.price = min(z.price, points(mostName))
	money, wide, err := c.money(pen, room, z)
	if err != nil {
		return err
	}
	side := room
	side.W -= wide
	left := newColumn(pen, side)
	c.title(left, z)
	_, h := c.Stock.Size()
	if h >= highShelf {
		c.abouts(left, z)
	}
	right := newColumn(pen, room)
	right.skip(money)
	d := newColumn(pen, room)
	d.skip(max(left.used(), right.used()) + gap/2)
	foot, high, err := c.mark(pen, room)
	if err != nil {
		return err
	}
	d.room.H -= high
	pen.Rule(d.room.X, d.room.Y-gap/4, d.room.W, hair)
	d.skip(gap / 4)
	c.warnings(d, z)
	pen.Items = append(pen.Items, foot...)
	if left.err != nil {
		return left.err
	}
	return d.err
}

// money sets the price at the top right with what it buys below it, and returns
// its height and width.
func (c *composer) money(pen *flow.Pen, room page.Rect, z sizes) (high, wide unit.Length, err error) {
	lines := []struct {
		words.Said
		size unit.Length
		bold bool
	}{{c.price, z.price, true}, {c.per, z.small, false}, {c.amount, z.small, false}}
	for _, l := range lines {
		if l.Text == "" {
			continue
		}
		q := flow.Words(l.Role, l.Src, l.Text)
		q.Spans[0].Bold = l.bold
		lead := tight(l.size)
		base := room.Y + high + (lead+c.faces.Bold.CapHeight(l.size))/2
		box, err := pen.Line(room.Right(), base, q, flow.Style{Size: l.size, Align: flow.Right})
		if err != nil {
			return 0, 0, err
		}
		high, wide = high+lead, max(wide, box.W+gap)
	}
	if wide > room.W*3/5 {
		return 0, 0, &flow.Overflow{Need: wide, Have: room.W * 3 / 5, Src: c.Pack.Pos}
	}
	return high, wide, nil
}

// mark sets the version and the check word at the foot.
func (c *composer) mark(pen *flow.Pen, room page.Rect) ([]page.Item, unit.Length, error) {
	s := c.version
	if c.word.Text != "" {
		s.Text += " · " + c.word.Text
	}
	in := pen.Fresh()
	size := points(6)
	lead := size * 6 / 5
	_, down := c.faces.Regular.Ink(s.Text, size)
	_, err := in.Line(room.Right(), room.Bottom()-down, para(s), flow.Style{Size: size, Align: flow.Right})
	return in.Items, lead, err
}
