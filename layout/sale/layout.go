package sale

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// layout is one arrangement at one size of words: where everything stands.
type layout struct {
	*label
	way
	size   unit.Length
	items  []page.Item
	serial page.Item // the place of the running number
	mark   page.Item // the batch mark in its place
	left   shown     // of the look
}

// try sets one arrangement at one size.
func (c *label) try(how way, size unit.Length) (*layout, error) {
	l, s := &layout{label: c, way: how, size: size}, c.paper.Setter()
	area := how.drawn.rest(c.room(), l.gap())
	band := s.Low(area, l.band)
	top := l.floor(area.Bottom() - band.H)
	l.above(s, page.Rect{X: area.X, Y: area.Y, W: area.W, H: top - area.Y - l.gap()})
	s.Add(band.Items, area.X, top) // in the order of reading
	if c.Digits > 0 && s.Err() == nil {
		l.serial = l.serial.Moved(area.X, top)
	}
	if l.code != nil { // on the dots of the sheet
		l.codes(s, area.X, area.Bottom()-l.code.h)
	}
	how.drawn.put(s, c.room())
	c.frame(s)
	l.items = s.Items
	return l, s.Err()
}

// quarter is the step that baselines stand on where there is room for it: 2 dots
// of a printer with 8 to the millimetre, 3 of one with 12.
const quarter = 250 * unit.UM

// gap is the white between blocks: half of the size, in half millimetres.
func (l *layout) gap() unit.Length {
	if l.grid != quarter {
		return l.size / 2
	}
	return max(2*quarter, (l.size/2+quarter)/(2*quarter)*(2*quarter))
}

// floor is y moved up to a whole step of the grid.
func (l *layout) floor(y unit.Length) unit.Length {
	if l.grid == 0 {
		return y
	}
	return y / l.grid * l.grid
}

// small is the style of all that is said in running words.
func (l *layout) small() flow.Style { return l.style(l.size) }

// style is that of words of a size, their baselines on the grid.
func (l *layout) style(size unit.Length) flow.Style {
	return flow.Style{Size: size, Leading: l.leading(size), Grid: l.grid}
}

// leading is the distance of baselines: a little more than the size, in steps
// of the grid.
func (l *layout) leading(size unit.Length) unit.Length { return l.floor(size*115/100 + l.grid/2) }

// dotted is the size next to the given one at which an x is a whole number of
// dots high.
func (l *layout) dotted(size unit.Length) unit.Length {
	if l.Dots.N == 0 || l.grid == 0 {
		return size
	}
	f := l.paper.Faces.Regular
	return max(l.size, f.SizeForX(l.Dots.Snap(f.XHeight(size))))
}

// above sets the languages one below the other, from the top of room.
func (l *layout) above(s *compose.Setter, room page.Rect) {
	c := s.Column(room)
	for i, t := range l.Told {
		if i > 0 {
			c.Down(min(l.gap(), c.Room.H))
		}
		l.name(c, t)
		for _, q := range l.running(t) {
			l.listed(c, q, l.sized(q.Role))
		}
	}
	if l.wide {
		c.Down(min(l.gap(), c.Room.H))
		c.Put(phrase(l.Told[0].Operator), l.small())
	}
}

// name sets the name of the food, larger than all else, behind the code of its
// language where there are several.
func (l *layout) name(c *compose.Column, t *words.Label) {
	large, room := l.dotted(l.size*3/2), c.Room
	if l.several() {
		large = l.dotted(l.size * 6 / 5)
		used := l.flag(c, t.Lang, large)
		room.X, room.W = room.X+used, room.W-used
	}
	c.Down(c.Para(room, flow.Strong(role.Name, t.Name.Src, t.Name.Text), l.style(large)))
}

// flag sets a language code in a small frame, on the line of a name of the given
// size, and returns the width it took.
func (l *layout) flag(c *compose.Column, lang string, name unit.Length) unit.Length {
	f, size, room := c.Faces.Bold, l.size, c.Room
	code := strings.ToUpper(lang)
	w, h := f.Width(code, size)+size*2/3, f.CapHeight(size)+size/2
	base := l.style(name).Base(room.Y + c.First(l.leading(name), name))
	frame := page.Rect{X: room.X, Y: base - f.CapHeight(size) - size/4, W: w, H: h}
	c.Must(frame.Bottom()-room.Y, room.H, diag.Pos{})
	c.Frame(frame, 150*unit.UM)
	c.Line(frame.X+w/2, base, flow.Strong(role.Note, l.Pack.Pos, code), flow.Style{Size: size, Align: flow.Centre})
	return w + size/2
}

// running are the ingredient lists, the precautionary line, the statements that
// the law asks for, and the nutrition declaration where it is no table. Where
// there are several languages, date and storage stand with the words of each.
func (l *layout) running(t *words.Label) []text.Para {
	var out []text.Para
	for _, s := range t.Lists {
		out = append(out, phrase(s))
	}
	short := []words.Said{t.May}
	for _, s := range t.Statements {
		if !ofOrigin(s) {
			short = append(short, s)
		}
	}
	out = append(out, row(short))
	for _, s := range t.Statements {
		if ofOrigin(s) { // each with its own role: their sizes are measured against each other
			out = append(out, phrase(s))
		}
	}
	out = append(out, phrase(t.Use))
	if t.Table != nil && !l.table && l.drawn == nil {
		out = append(out, phrase(linear(t.Table)))
	}
	if l.several() {
		out = append(out, phrase(t.Date), phrase(t.Keep))
	}
	return out
}

func ofOrigin(s words.Said) bool { return s.Role == role.Origin || s.Role == role.OriginOf }

// sized is the style of running words of a role; what the law wants larger is
// larger.
func (l *layout) sized(what role.Role) flow.Style {
	f := l.paper.Faces.Regular
	if least, ok := l.Facts.Market.Beside(what, f.XHeight(l.size), l.Pack.Face.V); ok {
		return l.style(max(l.size, f.SizeForX(least.Least)))
	}
	return l.small()
}

// band sets bar code, nutrition declaration and facts side by side, from the
// top of r, and returns their height.
func (l *layout) band(s *compose.Setter, r page.Rect) unit.Length {
	high, code := unit.Length(0), page.Rect{}
	rest := r
	if l.code != nil { // only its place is kept here
		high, code = l.code.h, page.Rect{W: l.code.w, H: l.code.h}
		rest = right(rest, code.W+l.size/2)
	}
	if l.way.table {
		w, h := l.nutrition(s, l.beside(rest))
		high, rest = max(high, h), right(rest, w+l.size)
	}
	if l.over {
		h := l.facts(s, page.Rect{X: l.size / 4, W: code.W - l.size/4, H: r.H - code.H})
		high = max(high, h+code.H+l.gap())
	} else {
		high = max(high, l.facts(s, rest))
	}
	s.Must(high, r.H, l.Pack.Pos)
	return high
}

// right is what is right of the first w of r.
func right(r page.Rect, w unit.Length) page.Rect {
	return page.Rect{X: r.X + w, Y: r.Y, W: r.W - w, H: r.H}
}

// beside is the room for a table in the band.
func (l *layout) beside(r page.Rect) page.Rect {
	switch {
	case l.wide:
		r.W -= l.marks() + l.size // the rest is net quantity and batch
	case !l.over:
		r.W = r.W * 13 / 20 // the facts stand beside it
	}
	return r
}
