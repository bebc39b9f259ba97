package withdraw

import (
	"strconv"
	"unicode"
	"unicode/utf8"

	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// A row has two boxes to tick, the copy's number, and four columns of words.
const (
	tick    = 6 * unit.MM // side of a box
	between = 3 * unit.MM // white between columns
)

// heads are the keys of the columns' heads, in their order.
func heads() [7]string {
	return [7]string{"withdraw.down", "withdraw.missing", "withdraw.number", "withdraw.place", "withdraw.card", "withdraw.hangs", "withdraw.current"}
}

// columns gives the boxes of the columns. The first three are as wide as their
// heads and what stands in them; the others share what is left.
func (c *composer) columns(r page.Rect) (out [7]page.Rect) {
	keys, rest := heads(), r.W-6*between
	for i := range out[:3] {
		out[i].W = max(c.faces.Bold.Width(c.word(keys[i]), c.small), tick) + unit.MM/2
	}
	out[2].W = max(out[2].W, c.widest+unit.MM/2)
	rest -= out[0].W + out[1].W + out[2].W
	for i, percent := range []int64{22, 40, 19, 19} {
		out[3+i].W = rest.Mul(percent, 100)
	}
	for i, x := 0, r.X; i < len(out); i++ {
		out[i].X, out[i].Y, out[i].H = x, r.Y, r.H
		x += out[i].W + between
	}
	return out
}

// head sets what stands at the top of each page and returns its height.
func (c *composer) head(p *flow.Pen, room page.Rect, n, of int) (unit.Length, error) {
	title := c.small.Mul(9, 4)
	leaf := c.fill("card.page", map[string]string{"n": strconv.Itoa(n), "m": strconv.Itoa(of)})
	f := c.faces.Bold
	base := room.Y + f.Ascent(title)
	if _, err := p.Line(room.X, base, strong(page.Note, capital(c.word("withdraw.title"))), flow.Style{Size: title}); err != nil {
		return 0, err
	}
	for i, s := range []string{c.Shop, c.Lang.Date(c.Day, words.Long) + " · " + leaf} {
		up := unit.Length(1-i) * c.faces.Regular.Leading(c.small)
		if _, err := p.Line(room.Right(), base-up, strong(page.Note, s), flow.Style{Size: c.small, Align: flow.Right}); err != nil {
			return 0, err
		}
	}
	y := base + f.Descent(title) + 2*unit.MM
	below := page.Rect{X: room.X, Y: y, W: room.W, H: room.Bottom() - y}
	used, err := c.lead(p, below)
	return y + used - room.Y, err
}

// lead says what to do, and heads the columns.
func (c *composer) lead(p *flow.Pen, room page.Rect) (unit.Length, error) {
	used, err := p.Para(room, plain(c.word("withdraw.do")), flow.Style{Size: c.small})
	if err != nil {
		return 0, err
	}
	room.Y += used + 3*unit.MM
	high := unit.Length(0)
	cols := c.columns(room)
	for i, key := range heads() {
		h, err := p.Para(cols[i], strong(page.Note, c.word(key)), flow.Style{Size: c.small})
		if err != nil {
			return 0, err
		}
		high = max(high, h)
	}
	p.Rule(room.X, room.Y+high+unit.MM/2, room.W, 500*unit.UM)
	return used + 3*unit.MM + high + unit.MM, nil
}

// row sets one copy.
func (c *composer) row(p *flow.Pen, room page.Rect, e Entry) (unit.Length, error) {
	cols := c.columns(room)
	for _, col := range cols[:2] {
		p.TickBox(col.X, room.Y, tick)
	}
	high := tick
	for i, s := range []said{{large: number(e)}, {large: e.Copy.Place}, {e.Name, c.about(e.Copy)},
		{e.Copy.CheckWord, c.version(e.Copy.Version)}, c.now(e)} {
		h, err := c.cell(p, cols[i+2], s)
		if err != nil {
			return 0, err
		}
		high = max(high, h)
	}
	p.Rule(room.X, room.Y+high+unit.MM, room.W, 150*unit.UM)
	return high + 1500*unit.UM, nil
}

// number is the copy's number in the register.
func number(e Entry) string { return strconv.FormatInt(e.Copy.Number, 10) }

// now is what the card in force bears.
func (c *composer) now(e Entry) said {
	if e.Gone {
		return said{large: c.word("withdraw.gone")}
	}
	return said{e.Now.CheckWord, c.version(e.Now.Version)}
}

// said is large words, and small ones under them.
type said struct{ large, under string }

// cell sets large words, and small ones under them. What is longer than a line
// is cut where the line ends: names are the shop's, and the sheet must come.
func (c *composer) cell(p *flow.Pen, col page.Rect, s said) (unit.Length, error) {
	var sum unit.Length
	for _, part := range []struct {
		words string
		bold  bool
		size  unit.Length
	}{{s.large, true, c.large}, {s.under, false, c.small}} {
		if part.words == "" {
			continue
		}
		q := text.Para{Role: page.Name, Anywhere: true, Spans: []text.Span{{Text: part.words, Bold: part.bold}}}
		used, err := p.Para(page.Rect{X: col.X, Y: col.Y + sum, W: col.W, H: col.H - sum}, q, flow.Style{Size: part.size})
		if err != nil {
			return 0, err
		}
		sum += used
	}
	return sum, nil
}

// end sets what comes after the last row: what to do then, and who did it.
func (c *composer) end(p *flow.Pen, room page.Rect) (unit.Length, error) {
	used, err := p.Para(room, plain(c.word("withdraw.report")), flow.Style{Size: c.small})
	if err != nil {
		return 0, err
	}
	y := room.Y + used + 9*unit.MM // room to write by hand: 8 mm and the rule
	w := (room.W - 3*between) / 8
	x := room.X
	for _, f := range []struct {
		key   string
		parts unit.Length
	}{{"withdraw.by", 3}, {"sheet.day", 1}, {"sheet.time", 1}, {"sheet.signature", 3}} {
		wide := f.parts * w
		p.Rule(x, y, wide, 200*unit.UM)
		at := page.Rect{X: x, Y: y + unit.MM, W: wide, H: room.Bottom() - y}
		if _, err := p.Para(at, plain(c.word(f.key)), flow.Style{Size: c.small}); err != nil {
			return 0, err
		}
		x += wide + between
	}
	return y + unit.MM + c.faces.Regular.Leading(c.small) - room.Y, nil
}

func plain(s string) text.Para { return flow.Words(page.Note, diag.Pos{}, s) }

func strong(role page.Role, s string) text.Para { return flow.Strong(role, diag.Pos{}, s) }

// capital is s with a capital first letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
