package sale

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/symbol"
)

// number is what the bars carry, or "".
func (c *label) number() string {
	if c.Number != "" {
		return c.Number
	}
	return c.Pack.GTIN.V
}

// barred is where that number comes from.
func (c *label) barred() diag.Pos {
	if c.Number != "" && c.Pack.Item.Set() {
		return c.Pack.Item.Pos
	}
	return c.Pack.GTIN.Pos
}

// bars makes the bar code of the pack: EAN-13, EAN-8 or UPC-A, by the length of
// its number.
func (c *label) bars() (*codes, error) {
	x, h, err := symbol.Choose(symbol.OfGTIN(c.number()), gs1.Retail, c.Dots)
	if err != nil {
		return nil, err
	}
	y, err := symbol.Pack(c.number(), symbol.Module{X: x, Height: h, Dots: c.Dots})
	if err != nil {
		return nil, err
	}
	s := c.paper.Setter()
	box := s.Bars(0, 0, y, "", 0, c.barred())
	return &codes{ean: y, w: box.Right() + y.Dot, h: box.Bottom() + y.Dot}, s.Err()
}

// facts sets net quantity, date, storage, batch and operator: date and batch
// beside the net quantity where there is room, else all below each other. It
// returns their height.
func (l *layout) facts(s *compose.Setter, room page.Rect) unit.Length {
	s.Must(6*l.size, room.W, l.Pack.Pos)
	c := s.Column(room)
	if net := l.widest() + l.size; 2*net < room.W && !l.several() && !l.stacked() {
		l.abreast(c, net)
	} else {
		l.down(c)
	}
	if !l.wide {
		c.Put(phrase(l.Told[0].Operator), l.fact(l.size))
	}
	return c.Used()
}

// stacked reports whether the facts stand below each other in any case: in the
// shop's look, where the price has the place beside the net quantity.
func (l *layout) stacked() bool {
	_, h := l.Stock.Size()
	return l.left.name > 0 && h >= lowLabel
}

// abreast sets the net quantity, and next to it, from w on, date and batch.
func (l *layout) abreast(c *compose.Column, w unit.Length) {
	side := c.Column(right(c.Room, w))
	side.Put(phrase(l.Told[0].Date), l.fact(l.size))
	l.batch(side)
	left := c.Column(page.Rect{X: c.Room.X, Y: c.Room.Y, W: w, H: c.Room.H})
	l.net(left)
	c.Down(max(left.Used(), side.Used()))
	c.Put(phrase(l.Told[0].Keep), l.fact(l.size))
}

// down sets them below each other. Where there are several languages, date and
// storage stand with their language.
func (l *layout) down(c *compose.Column) {
	l.net(c)
	l.air(c)
	if !l.several() {
		c.Put(phrase(l.Told[0].Date), l.fact(l.dotted(l.size*5/4)))
		c.Put(phrase(l.Told[0].Keep), l.fact(l.size))
		l.air(c)
	}
	l.batch(c)
}

// air leaves white in an airy arrangement.
func (l *layout) air(c *compose.Column) {
	if l.airy {
		c.Down(min(l.gap(), max(0, c.Room.H)))
	}
}

// net sets the net quantity, and how many pieces that is on a line below.
func (l *layout) net(c *compose.Column) {
	c.Put(flow.Strong(role.Net, l.Told[0].Net.Src, l.Told[0].Net.Amount.Text), l.fact(l.netSize()))
	c.Put(phrase(l.pieces()), l.fact(l.size))
	if pay := l.pay(); pay.Text != "" {
		c.Put(flow.Strong(pay.Role, pay.Src, pay.Text), l.fact(l.netSize()))
		c.Put(phrase(l.perKilo()), l.fact(l.size))
	}
}

// netSize makes the figures of the net quantity as high as the law asks, and
// a little larger than the list in any case; the sign ℮ is at least 3 mm high.
func (l *layout) netSize() unit.Length {
	f := l.paper.Faces.Bold
	least := f.CapHeight(l.size * 5 / 4)
	if m, ok := l.Facts.Market.Net.DigitHeight(netOf(l.Facts), l.Pack.Face.V); ok {
		least = max(least, m.Least)
	}
	if l.Pack.Average.V {
		least = max(least, l.Facts.Market.Net.Sign.Least)
	}
	return f.SizeForCap(least)
}

// batch sets the batch code and keeps room for the running number behind it.
func (l *layout) batch(c *compose.Column) {
	large := l.dotted(l.size * 11 / 10)
	lead, room := l.fact(large).Leading, c.Room
	base := l.fact(l.size).Base(room.Y + (lead+c.Faces.Bold.CapHeight(l.size))/2)
	lead += base - room.Y - (lead+c.Faces.Bold.CapHeight(l.size))/2
	end := c.Line(room.X, base, flow.Strong(role.Batch, l.Batched, l.lot()), flow.Style{Size: large}).Right()
	if l.Digits > 0 {
		in := c.Fresh()
		end = in.Line(end+l.size/2, base, flow.Words(role.Serial, l.Batched, l.zeros()), flow.Style{Size: l.size}).Right()
		if in.Err() == nil {
			l.serial = in.Items[0]
		}
		c.Fail(in.Err())
	}
	c.Must(end-room.X, room.W, l.Batched)
	c.Must(lead, room.H, l.Batched)
	c.Down(lead)
}

// zeros is the running number 0.
func (l *layout) zeros() string { return fmt.Sprintf("%0*d", l.Digits, 0) }

// widest is the width of the net quantity, and of the price below it.
func (l *layout) widest() unit.Length {
	f, size := l.paper.Faces, l.netSize()
	w := max(f.Bold.Width(l.Told[0].Net.Amount.Text, size), f.Bold.Width(l.pay().Text, size))
	return max(w, f.Regular.Width(l.perKilo().Text, l.size))
}

// marks is the width of the net quantity or of batch and running number,
// whichever is wider.
func (l *layout) marks() unit.Length {
	f := l.paper.Faces
	batch := f.Bold.Width(l.lot(), l.dotted(l.size*11/10)) + l.size/2 + f.Regular.Width(l.zeros(), l.size)
	return max(l.widest(), batch) + slack
}
