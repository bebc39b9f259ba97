package sale

import (
	"fmt"
	"strings"

	"chablon/labels/gs1"
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
	in := &flow.Pen{Faces: c.faces, Dots: c.Dots}
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
		if !how.over {
			room.W = room.W * 13 / 20 // the facts stand beside it
		}
		w, h, err := c.table(in.pen, room, t.size)
		if err != nil {
			return 0, err
		}
		high = max(high, h)
		rest.X, rest.W = rest.X+w+t.size, rest.W-w-t.size
	}
	h, err := c.facts(in, *facts)
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

// facts sets net quantity, date, storage, batch and operator: the first two
// lines beside the net quantity where there is room, else all below each other.
func (c *composer) facts(t *try, room page.Rect) (unit.Length, error) {
	if room.W < 6*t.size {
		return 0, &flow.Overflow{Need: 6 * t.size, Have: room.W, Src: c.Pack.Pos}
	}
	d := &column{composer: c, try: t, room: room, top: room.Y}
	net := flow.Style{Size: c.netSize(t.size)}
	small := flow.Style{Size: t.size, Leading: leading(t.size)}
	wide := c.faces.Bold.Width(c.netPara().Spans[0].Text, net.Size) + t.size
	if 2*wide < room.W && !c.several() {
		side := &column{composer: c, try: t, room: room, top: room.Y}
		side.room.X, side.room.W = room.X+wide, room.W-wide
		side.put(para(c.Told[0].Date), flow.Style{Size: t.size, Leading: small.Leading})
		side.take(c.batch(t, side.room))
		d.put(c.netPara(), net)
		d.to(side)
		d.put(para(c.Told[0].Keep), small)
	} else {
		d.put(c.netPara(), net)
		if c.several() {
			d.put(para(c.pieces()), small) // date and storage stand with their language
		} else {
			d.put(para(c.Told[0].Date), flow.Style{Size: t.size * 5 / 4})
			d.put(para(c.Told[0].Keep), small)
		}
		d.take(c.batch(t, d.room))
	}
	d.put(para(c.Told[0].Operator), small)
	return d.room.Y - d.top, d.err
}

// column is a place that is filled from its top; after an error nothing more
// is put into it.
type column struct {
	*composer
	*try
	room page.Rect
	top  unit.Length
	err  error
}

func (d *column) put(q text.Para, st flow.Style) {
	if d.err == nil {
		d.take(d.words(d.pen, d.room, q, st))
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

// netPara is the net quantity. In one language its pieces follow it, on a
// second line if need be.
func (c *composer) netPara() text.Para {
	n := c.Told[0].Net
	mass, rest, ok := strings.Cut(n.Text, pieces)
	if ok && !c.several() {
		mass += " (" + strings.ReplaceAll(rest, " ", "\u00a0")
	}
	return flow.Strong(page.Net, n.Src, mass)
}

// pieces is what stands between a net quantity and its pieces.
const pieces = "\u00a0("

// pieces says in all languages how many pieces there are.
func (c *composer) pieces() words.Said {
	var all []string
	for _, t := range c.Told {
		if _, n, ok := strings.Cut(t.Net.Text, pieces); ok {
			all = append(all, strings.TrimSuffix(n, ")"))
		}
	}
	return words.Said{Role: string(page.Note), Text: strings.Join(all, " / "), Src: c.Pack.Pieces.Pos}
}

// batch sets the batch code and keeps room for the running number behind it.
func (c *composer) batch(t *try, room page.Rect) (unit.Length, error) {
	p, size, f := t.pen, t.size, c.faces.Bold
	lead := leading(size * 11 / 10)
	base := room.Y + (lead+f.CapHeight(size))/2
	box, err := p.Line(room.X, base, flow.Strong(page.Batch, c.Batched, c.lot()), flow.Style{Size: size * 11 / 10})
	if err != nil {
		return 0, err
	}
	end := box.Right()
	if c.Digits > 0 {
		in := p.Fresh()
		number := flow.Words(page.Serial, c.Batched, fmt.Sprintf("%0*d", c.Digits, 0))
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

// lot is the batch code with the letter that the law puts before it.
func (c *composer) lot() string {
	if letter := c.Facts.Market.Lot.Letter; !strings.HasPrefix(c.Batch, letter) {
		return letter + " " + c.Batch
	}
	return c.Batch
}
