package ticket

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// back sets the staff's panel at the largest size that fits, never below what
// the market asks of a label.
func (c *composer) back(pen *flow.Pen, room page.Rect) error {
	var best []page.Item
	var top unit.Length
	var last error
	flow.Largest(c.least(), c.grown(mostStaff), 10, func(size unit.Length) bool {
		in := pen.Fresh()
		if last = c.staffSide(in, room, size); last != nil {
			return false
		}
		if best == nil || size > top {
			best, top = in.Items, size
		}
		return true
	})
	if best == nil {
		return last
	}
	pen.Items = append(pen.Items, best...)
	return nil
}

// least is the smallest size that the market allows for a list.
func (c *composer) least() unit.Length {
	return c.faces.Regular.SizeForX(c.Facts.Market.XHeightOf(role.List, 0).Least)
}

// staffSide sets heading, lists and rules from the top, and the version and the
// check word at the foot.
func (c *composer) staffSide(pen *flow.Pen, room page.Rect, size unit.Length) error {
	small := flow.Style{Size: size, Leading: size * 6 / 5}
	d := newColumn(pen, room)
	d.put(c.head, small)
	d.bold(c.speeches[0].name, flow.Style{Size: size * 5 / 4})
	foot, high, err := c.foot(pen, room, size)
	if err != nil {
		return err
	}
	d.room.H -= high + gap/2
	for i, s := range c.speeches {
		if i > 0 {
			d.skip(gap / 2)
		}
		for _, l := range s.lists {
			d.put(l, small)
		}
		d.put(s.may, small)
	}
	d.skip(gap / 2)
	for _, s := range c.staff {
		d.put(s, small)
	}
	pen.Items = append(pen.Items, foot...)
	return d.err
}

// foot sets the version with its words at the bottom left, and the check word
// large at the right. It returns its marks and height.
func (c *composer) foot(pen *flow.Pen, room page.Rect, size unit.Length) ([]page.Item, unit.Length, error) {
	in := pen.Fresh()
	large := max(points(11), text.Whole(size*5/4))
	wide, err := in.Width(flow.Strong(role.Note, c.word.Src, c.word.Text), large)
	if err != nil {
		return nil, 0, err
	}
	d := newColumn(in, page.Rect{Y: gap / 2, W: room.W - wide - gap, H: room.H})
	d.bold(c.version, flow.Style{Size: size})
	d.put(c.valid(), flow.Style{Size: size})
	if d.err != nil {
		return nil, 0, d.err
	}
	h := d.room.Y
	if c.word.Text != "" {
		base := (gap/2 + h + c.faces.Bold.CapHeight(large)) / 2
		if _, err := in.Line(room.W, base, flow.Strong(role.Note, c.word.Src, c.word.Text), flow.Style{Size: large, Align: flow.Right}); err != nil {
			return nil, 0, err
		}
	}
	in.Rule(0, 0, room.W, hair)
	out := pen.Fresh()
	out.Add(in.Items, room.X, pen.Dots.Snap(room.Bottom()-h))
	return out.Items, h, nil
}

// valid says how long the ticket may stand.
func (c *composer) valid() words.Said {
	s, err := c.Langs[0].Word("ticket.valid")
	if err != nil {
		return words.Said{} // every language with tickets has it; a test says so
	}
	return words.Said{Role: role.Note, Text: s, Src: c.Facts.Product.Version.Pos}
}
