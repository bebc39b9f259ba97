package sale

import (
	"fmt"
	"strings"

	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

// code is the bar code of the label, made once.
type code struct {
	symbol *page.Symbol
	w, h   unit.Length // with quiet zones and digits
}

// bars makes the bar code of the pack, if it has one.
func (c *composer) bars() error {
	if !c.Pack.GTIN.Set() {
		return nil
	}
	x, h, err := symbol.Choose(gs1.EAN13, gs1.Retail, c.Dots)
	if err != nil {
		return err
	}
	s, err := symbol.EAN13(c.Pack.GTIN.V, symbol.Module{X: x, Height: h, Dots: c.Dots})
	if err != nil {
		return err
	}
	in := c.pen.Fresh()
	box, err := in.Bars(0, 0, s, "", 0, c.Pack.GTIN.Pos)
	c.code = &code{s, box.Right() + s.Dot, box.Bottom() + s.Dot}
	return err
}

// below sets the lower band against the bottom of the label: bar code,
// nutrition declaration, facts. It returns the height of the band.
func (c *composer) below(t *try, how way) (unit.Length, error) {
	in := &try{pen: t.pen.Fresh(), size: t.size}
	rest := page.Rect{W: c.area.W, H: c.area.H}
	var high unit.Length
	if c.code != nil {
		// Only its place is kept here: it stands on the dots of the sheet.
		high = c.code.h
		rest.X, rest.W = c.code.w+t.size/2, rest.W-c.code.w-t.size/2
	}
	facts := &rest
	if how.over {
		facts = &page.Rect{X: t.size / 4, W: c.code.w - t.size/4, H: c.area.H - c.code.h}
	}
	if how.table {
		room := rest
		switch {
		case how.wide:
			room.W -= c.marks(t.size) + t.size // the rest is net quantity and batch
		case !how.over:
			room.W = room.W * 13 / 20 // the facts stand beside it
		}
		w, h, err := c.table(in.pen, room, t.size)
		if err != nil {
			return 0, err
		}
		high = max(high, h)
		rest.X, rest.W = rest.X+w+t.size, rest.W-w-t.size
	}
	h, err := c.facts(in, *facts, how)
	if err != nil {
		return 0, err
	}
	if how.over {
		h += c.code.h + gap(t.size)
	}
	high = max(high, h)
	if high > c.area.H {
		return 0, &flow.Overflow{Need: high, Have: c.area.H, Src: c.Pack.Pos}
	}
	return high, c.settle(t, in, c.area.Bottom()-high)
}

// settle moves the marks of the band to their height and sets the bar code.
func (c *composer) settle(t, in *try, top unit.Length) (err error) {
	t.pen.Add(in.pen.Items, c.area.X, top)
	if c.Digits > 0 {
		t.serial = in.serial.Moved(c.area.X, top)
	}
	if c.code != nil {
		_, err = t.pen.Bars(c.area.X, c.area.Bottom()-c.code.h, c.code.symbol, "", 0, c.Pack.GTIN.Pos)
	}
	return err
}

// facts sets net quantity, date, storage, batch and operator: date and batch
// beside the net quantity where there is room, else all below each other.
func (c *composer) facts(t *try, room page.Rect, how way) (unit.Length, error) {
	if room.W < 6*t.size {
		return 0, &flow.Overflow{Need: 6 * t.size, Have: room.W, Src: c.Pack.Pos}
	}
	d := &column{composer: c, try: t, room: room, top: room.Y}
	if how.airy {
		d.air = gap(t.size)
	}
	net := c.faces.Bold.Width(c.mass(c.Told[0]), c.netSize(t.size)) + t.size
	if 2*net < room.W && !c.several() {
		c.beside(d, net)
	} else {
		c.down(d)
	}
	if !how.wide {
		d.put(para(c.Told[0].Operator), c.small(t.size))
	}
	return d.room.Y - d.top, d.err
}

// beside sets the net quantity, and next to it, from w on, date and batch.
func (c *composer) beside(d *column, w unit.Length) {
	small := c.small(d.size)
	side := &column{composer: c, try: d.try, room: d.room, top: d.room.Y}
	side.room.X, side.room.W = side.room.X+w, side.room.W-w
	side.put(para(c.Told[0].Date), small)
	side.take(c.batch(d.try, side.room))
	left := &column{composer: c, try: d.try, room: d.room, top: d.room.Y}
	left.room.W = w
	c.net(left)
	d.to(left)
	d.to(side)
	d.put(para(c.Told[0].Keep), small)
}

// down sets them below each other. Where there are several languages, date and
// storage stand with their language.
func (c *composer) down(d *column) {
	c.net(d)
	d.gap()
	if !c.several() {
		d.put(para(c.Told[0].Date), flow.Style{Size: d.size * 5 / 4})
		d.put(para(c.Told[0].Keep), c.small(d.size))
		d.gap()
	}
	d.take(c.batch(d.try, d.room))
}

// net sets the net quantity, and how many pieces that is on a line below.
func (c *composer) net(d *column) {
	d.put(flow.Strong(role.Net, c.Told[0].Net.Src, c.mass(c.Told[0])), flow.Style{Size: c.netSize(d.size)})
	d.put(para(c.pieces()), c.small(d.size))
}

// small is the style of all that is said in running words.
func (c *composer) small(size unit.Length) flow.Style {
	return flow.Style{Size: size, Leading: leading(size)}
}

// column is a place that is filled from its top; after an error nothing more
// is put into it.
type column struct {
	*composer
	*try
	room page.Rect
	top  unit.Length
	air  unit.Length // white that a gap takes
	err  error
}

func (d *column) gap() { d.take(min(d.air, max(0, d.room.H)), nil) }

func (d *column) put(q text.Para, st flow.Style) {
	if d.err == nil {
		d.take(d.try.pen.Para(d.room, q, st))
	}
}

func (d *column) take(used unit.Length, err error) {
	if d.err == nil {
		d.err = err
	}
	d.room.Y, d.room.H = d.room.Y+used, d.room.H-used
}

// to goes on below the lower end of both columns.
func (d *column) to(o *column) {
	if d.err == nil {
		d.err = o.err
	}
	d.take(max(0, o.room.Y-d.room.Y), nil)
}

// netSize makes the figures of the net quantity as high as the law asks, and
// a little larger than the list in any case; the sign ℮ is at least 3 mm high.
func (c *composer) netSize(size unit.Length) unit.Length {
	f := c.faces.Bold
	least := f.CapHeight(size * 5 / 4)
	if m, ok := c.Facts.Market.Net.DigitHeight(netOf(c.Facts), c.Pack.Face.V); ok {
		least = max(least, m.Least)
	}
	if c.Pack.Average.V {
		least = max(least, c.Facts.Market.Net.Sign.Least)
	}
	return f.SizeForCap(least)
}

// counted reports whether the net quantity ends with a number of pieces.
func (c *composer) counted() bool { return c.Pack.Pieces.V > 1 && !c.Pack.Each.Set() }

// pieces is what stands between a net quantity and its pieces.
const pieces = "\u00a0("

// mass is the net quantity of one language without its pieces.
func (c *composer) mass(t *words.Label) string {
	if i := strings.LastIndex(t.Net.Text, pieces); i >= 0 && c.counted() {
		return t.Net.Text[:i]
	}
	return t.Net.Text
}

// pieces says in all languages how many pieces there are, or nothing.
func (c *composer) pieces() words.Said {
	var all []string
	for _, t := range c.Told {
		if n := strings.TrimPrefix(t.Net.Text, c.mass(t)); n != "" {
			all = append(all, strings.TrimSuffix(strings.TrimPrefix(n, pieces), ")"))
		}
	}
	return words.Said{Role: role.Note, Text: strings.Join(all, " / "), Src: c.Pack.Pieces.Pos}
}

// batch sets the batch code and keeps room for the running number behind it.
func (c *composer) batch(t *try, room page.Rect) (unit.Length, error) {
	p, size, f := t.pen, t.size, c.faces.Bold
	lead := leading(size * 11 / 10)
	base := room.Y + (lead+f.CapHeight(size))/2
	box, err := p.Line(room.X, base, flow.Strong(role.Batch, c.Batched, c.lot()), flow.Style{Size: size * 11 / 10})
	if err != nil {
		return 0, err
	}
	end := box.Right()
	if c.Digits > 0 {
		in := p.Fresh()
		number := flow.Words(role.Serial, c.Batched, fmt.Sprintf("%0*d", c.Digits, 0))
		serial, err := in.Line(end+size/2, base, number, flow.Style{Size: size})
		if err != nil {
			return 0, err
		}
		t.serial, end = in.Items[0], serial.Right()
	}
	if end > room.Right() || lead > room.H {
		return 0, &flow.Overflow{Need: end - room.X, Have: room.W, Src: c.Batched}
	}
	return lead, nil
}

// marks is the width of the net quantity or of batch and running number,
// whichever is wider.
func (c *composer) marks(size unit.Length) unit.Length {
	batch := c.faces.Bold.Width(c.lot(), size*11/10) + size/2 + c.faces.Regular.Width(fmt.Sprintf("%0*d", c.Digits, 0), size)
	return max(c.faces.Bold.Width(c.mass(c.Told[0]), c.netSize(size)), batch) + 20*unit.UM
}

// lot is the batch code with the letter that the law puts before it.
func (c *composer) lot() string {
	if letter := c.Facts.Market.Lot.Letter; !strings.HasPrefix(c.Batch, letter) {
		return letter + " " + c.Batch
	}
	return c.Batch
}
