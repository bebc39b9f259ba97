package sale

import (
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// set tries one arrangement at the size of t.
func (c *composer) set(t *try, how way) error {
	low, err := c.below(t, how)
	if err != nil {
		return err
	}
	room := page.Rect{X: c.area.X, Y: c.area.Y, W: c.area.W, H: c.area.H - low - gap(t.size)}
	lower := t.pen.Items
	t.pen.Items = nil
	if err := c.above(t.pen, how, room, t.size); err != nil {
		return err
	}
	t.pen.Items = append(t.pen.Items, lower...) // in the order of reading
	return nil
}

// gap is the white between blocks.
func gap(size unit.Length) unit.Length { return size / 2 }

// above sets the languages one below the other, from the top of room.
func (c *composer) above(p *flow.Pen, how way, room page.Rect, size unit.Length) error {
	for i, t := range c.Told {
		if i > 0 {
			used := min(gap(size), room.H)
			room.Y, room.H = room.Y+used, room.H-used
		}
		used, err := c.name(p, room, size, t)
		if err != nil {
			return err
		}
		room.Y, room.H = room.Y+used, room.H-used
		if used, err = c.lists(p, room, size, t, how); err != nil {
			return err
		}
		room.Y, room.H = room.Y+used, room.H-used
	}
	if !how.wide {
		return nil
	}
	used := min(gap(size), room.H)
	room.Y, room.H = room.Y+used, room.H-used
	_, err := p.Para(room, para(c.Told[0].Operator), c.small(size))
	return err
}

// name sets the name of the food, larger than all else, behind the code of its
// language where there are several.
func (c *composer) name(p *flow.Pen, room page.Rect, size unit.Length, t *words.Label) (unit.Length, error) {
	large := size * 3 / 2
	if c.several() {
		large = size * 6 / 5
		used, err := c.flag(p, room, size, t.Lang)
		if err != nil {
			return 0, err
		}
		room.X, room.W = room.X+used, room.W-used
	}
	return p.Para(room, flow.Strong(role.Name, t.Name.Src, t.Name.Text), flow.Style{Size: large})
}

// flag sets a language code in a small frame and returns the width it took.
func (c *composer) flag(p *flow.Pen, room page.Rect, size unit.Length, lang string) (unit.Length, error) {
	f := c.faces.Bold
	code := strings.ToUpper(lang)
	w, h := f.Width(code, size)+size*2/3, f.CapHeight(size)+size/2
	lead := f.Leading(size * 6 / 5)
	frame := page.Rect{X: room.X, Y: room.Y + (lead-h)/2, W: w, H: h}
	if frame.Bottom() > room.Bottom() {
		return 0, &flow.Overflow{Need: h, Have: room.H}
	}
	p.Frame(frame, 150*unit.UM)
	_, err := p.Line(frame.X+w/2, frame.Y+size/4+f.CapHeight(size), flow.Strong(role.Note, c.Pack.Pos, code), flow.Style{Size: size, Align: flow.Centre})
	return w + size/2, err
}

// lists sets the ingredient lists, the precautionary line, the statements that
// the law asks for, and the nutrition declaration where it is no table.
func (c *composer) lists(p *flow.Pen, room page.Rect, size unit.Length, t *words.Label, how way) (unit.Length, error) {
	var sum unit.Length
	var said []text.Para
	for _, s := range t.Lists {
		said = append(said, para(s))
	}
	said = append(said, row(append([]words.Said{t.May}, t.Statements...)))
	if t.Table != nil && !how.table {
		said = append(said, para(linear(t.Table)))
	}
	if c.several() {
		said = append(said, para(t.Date), para(t.Keep))
	}
	for _, q := range said {
		used, err := p.Para(page.Rect{X: room.X, Y: room.Y + sum, W: room.W, H: room.H - sum}, q, flow.Style{Size: size, Leading: leading(size)})
		if err != nil {
			return 0, err
		}
		sum += used
	}
	return sum, nil
}

// leading is the distance of baselines of small print.
func leading(size unit.Length) unit.Length { return size * 115 / 100 }

// several reports whether the label speaks several languages: then date and
// storage stand with the words of each.
func (c *composer) several() bool { return len(c.Told) > 1 }

// para turns a particular into a paragraph, its emphasis in bold.
func para(s words.Said) text.Para {
	p := text.Para{Role: s.Role, Src: s.Src}
	at := 0
	for _, r := range s.Strong {
		p.Spans = append(p.Spans, text.Span{Text: s.Text[at:r[0]]}, text.Span{Text: s.Text[r[0]:r[1]], Bold: true})
		at = r[1]
	}
	p.Spans = append(p.Spans, text.Span{Text: s.Text[at:], Bold: s.Role == role.Date})
	return p
}

// row strings short sentences together in one paragraph, which has the role of
// the first of them; each keeps its place.
func row(said []words.Said) text.Para {
	var out text.Para
	for _, s := range said {
		if s.Text == "" {
			continue
		}
		q := para(s)
		for i := range q.Spans {
			q.Spans[i].Src = s.Src
		}
		if len(out.Spans) == 0 {
			out.Role, out.Src = q.Role, q.Src
		} else {
			out.Spans = append(out.Spans, text.Span{Text: " "})
		}
		out.Spans = append(out.Spans, q.Spans...)
	}
	return out
}
