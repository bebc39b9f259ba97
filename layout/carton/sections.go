package carton

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// word is a head in the language of the heads.
func (c *composer) word(key string) string {
	s, err := c.titles.Word(key)
	if err != nil {
		c.found.Errorf(c.carton.Pos, "words", "complete the language file", "%v", err)
	}
	return s
}

func (c *composer) ofText(n int) (string, error) {
	return c.titles.Fill("carton.of", map[string]string{"n": fmt.Sprint(n), "m": fmt.Sprint(c.Of)})
}

// head sets the sender and, in a frame at the right, which carton this is.
func (c *composer) head(t *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	widest, err := c.ofText(c.Of)
	if err != nil {
		return 0, err
	}
	f := c.faces.Bold
	size := z.data
	pad := z.body * 2 / 3
	for size > z.body && f.Width(widest, size)+2*pad > room.W*45/100 {
		size = max(z.body, size*9/10)
	}
	box := page.Rect{Y: room.Y, W: f.Width(widest, size) + 2*pad, H: f.CapHeight(size) + 2*pad}
	box.X = room.Right() - box.W
	p.Frame(box, 500*unit.UM)
	t.spot = spot{box.X + box.W/2, box.Y + pad + f.CapHeight(size), size}
	from := room
	from.W = box.X - z.body - from.X
	o := c.Told[0].Operator
	used, err := p.Para(from, flow.Words(role.Operator, o.Src, o.Text), flow.Style{Size: z.body})
	return max(box.H, used), err
}

// figures is how large print is set: its lines close together.
func figures(size unit.Length) flow.Style {
	return flow.Style{Size: size, Leading: size * 21 / 20}
}

// name sets the name of the food in every language.
func (c *composer) name(_ *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	size := z.data
	if len(c.Told) > 1 {
		size = max(z.body*6/5, z.data*4/5)
	}
	return c.each(room, func(l *words.Label, r page.Rect) (unit.Length, error) {
		return p.Para(r, flow.Strong(role.Name, l.Name.Src, l.Name.Text), figures(size))
	})
}

// each sets something for every language, one under the other.
func (c *composer) each(room page.Rect, set func(*words.Label, page.Rect) (unit.Length, error)) (unit.Length, error) {
	var parts []func(page.Rect) (unit.Length, error)
	for _, l := range c.Told {
		parts = append(parts, func(r page.Rect) (unit.Length, error) { return set(l, r) })
	}
	return below(room, parts...)
}

// contents sets what is in the carton, and the batch.
func (c *composer) contents(_ *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	var said []string
	for _, l := range c.Langs {
		s, err := l.Fill("net.multi", map[string]string{"count": l.Plain(int64(c.Packs), 0), "mass": l.Mass(c.Facts.Pack.Net.V)})
		if err != nil {
			return 0, err
		}
		said = append(said, strings.ReplaceAll(s, " ", "\u00a0"))
	}
	net := field{c.word("carton.content"), strings.Join(distinct(said), " / "), role.Net, c.Facts.Pack.Net.Pos, max(z.data, c.netSize())}
	lot := field{gs1.Title("10"), c.lot(), role.Batch, c.Batched, z.data}
	return c.fields(p, room, z, net, lot)
}

// netSize makes the figures of the net quantity as high as the law asks.
func (c *composer) netSize() unit.Length {
	m, ok := c.Facts.Market.Net.DigitHeight(c.Pack().Net, 0)
	if !ok {
		return 0
	}
	return c.faces.Bold.SizeForCap(m.Least)
}

// lot is the batch code with the letter that the law puts before it.
func (c *composer) lot() string {
	if letter := c.Facts.Market.Lot.Letter; !strings.HasPrefix(c.Batch, letter) {
		return letter + "\u00a0" + c.Batch
	}
	return c.Batch
}

// field is a figure with its title over it.
type field struct {
	title, value string
	role         role.Role
	src          diag.Pos
	size         unit.Length
}

// fields sets figures side by side where they fit, each under its title, else
// one under the other.
func (c *composer) fields(p *flow.Pen, room page.Rect, z sizes, fs ...field) (unit.Length, error) {
	f := c.faces
	gap := z.body
	var ws []unit.Length
	sum := -gap
	for _, d := range fs {
		w := max(f.Regular.Width(strings.ToUpper(d.title), z.body), f.Bold.Width(d.value, d.size)) + 20*unit.UM
		ws, sum = append(ws, w), sum+w+gap
	}
	var parts []func(page.Rect) (unit.Length, error)
	if sum > room.W {
		for _, d := range fs {
			parts = append(parts, func(r page.Rect) (unit.Length, error) { return c.field(p, r, z, d) })
		}
		return below(room, parts...)
	}
	gap += (room.W - sum) / unit.Length(2*len(fs))
	high, x := unit.Length(0), room.X
	for i, d := range fs {
		used, err := c.field(p, page.Rect{X: x, Y: room.Y, W: ws[i], H: room.H}, z, d)
		if err != nil {
			return 0, err
		}
		high, x = max(high, used), x+ws[i]+gap
	}
	return high, nil
}

func (c *composer) field(p *flow.Pen, room page.Rect, z sizes, d field) (unit.Length, error) {
	return below(room,
		func(r page.Rect) (unit.Length, error) {
			return p.Para(r, flow.Words(role.Note, d.src, strings.ToUpper(d.title)), flow.Style{Size: z.body})
		},
		func(r page.Rect) (unit.Length, error) {
			return p.Para(r, flow.Strong(d.role, d.src, d.value), figures(d.size))
		})
}

// date sets the date with its words in every language.
func (c *composer) date(_ *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	size := z.data
	if len(c.Told) > 1 {
		size = max(z.body, z.data*3/4)
	}
	return c.each(room, func(l *words.Label, r page.Rect) (unit.Length, error) {
		return p.Para(r, flow.Strong(role.Date, l.Date.Src, l.Date.Text), figures(size))
	})
}

// keep sets the class of temperature large, and how to keep the carton in
// words, beside it or below it, whichever takes less height.
func (c *composer) keep(_ *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	class, err := p.Block(room.W, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return c.class(p, r, z.data) })
	if err != nil {
		return 0, err
	}
	w := c.classWidth(z.data) + z.body
	said := func(w unit.Length) (flow.Block, error) {
		return p.Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return c.sentences(p, r, z) })
	}
	beside, errBeside := said(room.W - w)
	below, errBelow := said(room.W)
	p.Add(class.Items, room.X, room.Y)
	switch {
	case errBeside == nil && max(class.H, beside.H) <= class.H+below.H:
		p.Add(beside.Items, room.X+w, room.Y+max(0, class.H-beside.H)/2)
		return max(class.H, beside.H), nil
	case errBelow != nil:
		return 0, errBelow
	}
	p.Add(below.Items, room.X, room.Y+class.H)
	return class.H + below.H, nil
}

// classText is the class of temperature: "CHILLED ≤ 5 °C".
func (c *composer) classText() string {
	k := c.Facts.Product.Keep
	s := strings.ToUpper(c.word("carton." + k.Store.V))
	if k.Temp.Set() {
		s += "\u00a0" + c.titles.Temp(k.Temp.V, c.Facts.Market.BothScales())
	}
	return s
}

// cold reports whether the class bears the sign of cold beside its words.
func (c *composer) cold() bool {
	s := c.Facts.Product.Keep.Store.V
	return s == "chilled" || s == "frozen"
}

func (c *composer) classWidth(size unit.Length) unit.Length {
	w := c.faces.Bold.Width(c.classText(), size) + 20*unit.UM
	if c.cold() {
		w += size * 6 / 5
	}
	return w
}

func (c *composer) class(p *flow.Pen, r page.Rect, size unit.Length) (unit.Length, error) {
	if c.cold() {
		side := size * 9 / 10
		p.Icon(flow.Cold, page.Rect{X: r.X, Y: r.Y + (figures(size).Leading-side)/2, W: side, H: side}, role.Furniture)
		r.X, r.W = r.X+size*6/5, r.W-size*6/5
	}
	return p.Para(r, flow.Strong(role.Keep, c.Facts.Product.Keep.Pos, c.classText()), figures(size))
}

func (c *composer) sentences(p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	return c.each(room, func(l *words.Label, r page.Rect) (unit.Length, error) {
		return p.Para(r, flow.Words(role.Keep, l.Keep.Src, l.Keep.Text), flow.Style{Size: z.body})
	})
}

// allergens sets in every language which allergens are in the packs, and
// which cannot be kept out.
func (c *composer) allergens(_ *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	var parts []func(page.Rect) (unit.Length, error)
	for i, l := range c.Langs {
		for _, q := range []text.Para{c.contains(l), said(c.Told[i].May)} {
			parts = append(parts, func(r page.Rect) (unit.Length, error) { return p.Para(r, q, flow.Style{Size: z.body}) })
		}
	}
	return below(room, parts...)
}

// contains is the line of allergens; each is emphasised as in a list. It is
// empty when there are none.
func (c *composer) contains(l *words.Lang) text.Para {
	src := c.Facts.Product.Pos
	out := text.Para{Role: role.Allergens, Src: src}
	var names []string
	for _, id := range c.Facts.Contains {
		name, _, err := l.Allergen(id)
		if err != nil {
			c.found.Errorf(src, "words", "complete the language file", "%v", err)
		}
		names = append(names, name)
	}
	if len(names) == 0 {
		return out
	}
	list := l.Join(names)
	s, err := l.Fill("contains", map[string]string{"list": list})
	if err != nil {
		c.found.Errorf(src, "words", "complete the language file", "%v", err)
	}
	before, after, _ := strings.Cut(s, list)
	out.Spans = []text.Span{{Text: before}, {Text: list, Bold: true}, {Text: after + "."}}
	return out
}

// said turns a particular into a paragraph, its emphasis in bold.
func said(s words.Said) text.Para {
	p := text.Para{Role: s.Role, Src: s.Src}
	at := 0
	for _, r := range s.Strong {
		p.Spans = append(p.Spans, text.Span{Text: s.Text[at:r[0]]}, text.Span{Text: s.Text[r[0]:r[1]], Bold: true})
		at = r[1]
	}
	p.Spans = append(p.Spans, text.Span{Text: s.Text[at:]})
	return p
}

// numbers sets the GTIN of what the bars name, and what the carton weighs.
// Gross is the net quantity of the packs and the tare, so it is "about".
func (c *composer) numbers(_ *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error) {
	first := c.elements()[0]
	net := c.Facts.Pack.Net.V * unit.Mass(c.Packs)
	out := text.Para{Role: role.Note, Src: c.carton.GTIN.Pos}
	add := func(title, value string, src diag.Pos) {
		if len(out.Spans) > 0 {
			title = " · " + title
		}
		out.Spans = append(out.Spans, text.Span{Text: title + "\u00a0", Src: src}, text.Span{Text: value, Bold: true, Src: src})
	}
	add(gs1.Title(first.AI), first.Value, c.carton.GTIN.Pos)
	add(strings.ToUpper(c.word("carton.net")), c.titles.Mass(net), c.Facts.Pack.Net.Pos)
	if tare := c.carton.Tare; tare.V > 0 {
		add(strings.ToUpper(c.word("carton.gross")), "≈\u00a0"+c.titles.Mass(net+tare.V), tare.Pos)
	}
	return p.Para(room, out, flow.Style{Size: z.body})
}
