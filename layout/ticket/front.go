package ticket

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// column is a place that is filled from its top; after an error nothing more
// is put into it.
type column struct {
	pen  *flow.Pen
	room page.Rect
	top  unit.Length
	err  error
}

func newColumn(pen *flow.Pen, room page.Rect) *column {
	return &column{pen: pen, room: room, top: room.Y}
}

func (d *column) put(s words.Said, st flow.Style) { d.set(para(s), st) }

// bold sets all of it in bold.
func (d *column) bold(s words.Said, st flow.Style) {
	d.set(flow.Strong(s.Role, s.Src, s.Text), st)
}

func (d *column) set(q text.Para, st flow.Style) {
	if d.err != nil || len(q.Spans) == 0 {
		return
	}
	used, err := d.pen.Para(d.room, q, st)
	d.err = err
	d.room.Y, d.room.H = d.room.Y+used, d.room.H-used
}

// skip leaves white.
func (d *column) skip(h unit.Length) {
	if h > d.room.H && d.err == nil {
		d.err = &flow.Overflow{Need: h, Have: d.room.H}
	}
	d.room.Y, d.room.H = d.room.Y+h, d.room.H-h
}

func (d *column) used() unit.Length { return d.room.Y - d.top }

// para turns words into a paragraph, their emphasis in bold; without words it
// has no spans.
func para(s words.Said) text.Para {
	p := text.Para{Role: s.Role, Src: s.Src}
	at := 0
	for _, r := range s.Strong {
		p.Spans = append(p.Spans, text.Span{Text: s.Text[at:r[0]]}, text.Span{Text: s.Text[r[0]:r[1]], Bold: true})
		at = r[1]
	}
	if at < len(s.Text) {
		p.Spans = append(p.Spans, text.Span{Text: s.Text[at:]})
	}
	return p
}

const (
	hair = 200 * unit.UM // rules and frames
	gap  = 2 * unit.MM   // between blocks
)

// tight is the leading of large words, which need less white.
func tight(size unit.Length) unit.Length { return size * 21 / 20 }

// front sets the buyer's panel: from the top the name and what it is like,
// from the bottom the price, and above that the allergens in a frame.
func (c *composer) front(pen *flow.Pen, room page.Rect, z sizes) error {
	low, band, err := c.band(pen, room, z)
	if err != nil {
		return err
	}
	room.H -= band + gap
	box, high, err := c.box(pen, room, z)
	if err != nil {
		return err
	}
	room.H -= high + gap
	d := newColumn(pen, room)
	c.title(d, z)
	c.abouts(d, z)
	pen.Items = append(append(pen.Items, box...), low...) // in the order of reading
	return d.err
}

// title sets the names, that of the first language large.
func (c *composer) title(d *column, z sizes) {
	for i, s := range c.speeches {
		if i == 0 {
			d.bold(s.name, flow.Style{Size: z.name, Leading: tight(z.name)})
		} else {
			d.put(s.name, flow.Style{Size: z.second, Leading: tight(z.second)})
		}
	}
}

func (c *composer) abouts(d *column, z sizes) {
	for i, s := range c.speeches {
		if i == 0 && s.about.Text != "" {
			d.skip(gap / 2)
		}
		d.put(s.about, flow.Style{Size: z.about})
	}
}

// box sets the allergens of all languages in a frame at the bottom of room, and
// returns its marks and height.
func (c *composer) box(pen *flow.Pen, room page.Rect, z sizes) ([]page.Item, unit.Length, error) {
	in := pen.Fresh()
	h, err := in.Boxed(page.Rect{W: room.W, H: room.H}, 3*gap/4, hair, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
		d := newColumn(p, r)
		c.warnings(d, z)
		return d.used(), d.err
	})
	if err != nil {
		return nil, 0, err
	}
	out := pen.Fresh()
	out.Add(in.Items, room.X, pen.Dots.Snap(room.Bottom()-h))
	return out.Items, h, nil
}

// warnings sets what the food contains, and below it what it may contain.
func (c *composer) warnings(d *column, z sizes) {
	for i, s := range c.speeches {
		if i > 0 {
			d.skip(gap / 2)
		}
		for _, x := range s.contains {
			d.put(x, flow.Style{Size: z.allergens, Leading: z.allergens * 23 / 20})
		}
		d.put(s.may, flow.Style{Size: z.may, Leading: z.may * 23 / 20})
	}
}

// band sets the price at the bottom right, and beside it how much it buys and
// what a kilogram costs. It returns its marks and height.
func (c *composer) band(pen *flow.Pen, room page.Rect, z sizes) ([]page.Item, unit.Length, error) {
	in := pen.Fresh()
	r := page.Rect{W: room.W, H: room.H}
	wide, err := in.Width(flow.Strong(role.Note, c.price.Src, c.price.Text), z.price)
	if err != nil {
		return nil, 0, err
	}
	d := newColumn(in, page.Rect{Y: gap, W: r.W - wide - gap, H: r.H - gap})
	d.put(c.amount, flow.Style{Size: z.small})
	d.put(c.per, flow.Style{Size: z.small})
	if d.err != nil {
		return nil, 0, d.err
	}
	_, down := c.faces.Bold.Ink(c.price.Text, z.price) // of a comma
	down = max(down, gap/4)
	h := max(d.room.Y, gap+c.faces.Bold.CapHeight(z.price)+down)
	if c.price.Text != "" {
		if _, err := in.Line(r.W, h-down, flow.Strong(role.Note, c.price.Src, c.price.Text), flow.Style{Size: z.price, Align: flow.Right}); err != nil {
			return nil, 0, err
		}
	}
	if h > room.H {
		return nil, 0, &flow.Overflow{Need: h, Have: room.H, Src: c.Pack.Pos}
	}
	in.Rule(0, 0, r.W, hair)
	out := pen.Fresh()
	out.Add(in.Items, room.X, pen.Dots.Snap(room.Bottom()-h))
	return out.Items, h, nil
}
