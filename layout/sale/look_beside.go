package sale

import (
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

// setBeside sets the shop in a column as wide as its bars, and the food in one
// beside it: who and codes, what and how much.
func (l *layout) setBeside(s *compose.Setter) {
	in := l.inner()
	l.alone(s)
	l.silent(s)
	s.Must(1, l.codeWidth(), l.Pack.GTIN.Pos) // no column without bars
	if s.Err() != nil {
		return
	}
	ean := l.code.ean
	box := symbol.Place(ean, l.Dots.Snap(up(l.paper.Room().X)), 0).Symbol.Bars
	post := up(box.Right() + ean.Module*unit.Length(ean.Quiet[2]) + unit.MM)
	food := page.Rect{X: post + 3*unit.MM, Y: in.Y, W: in.Right() - post - 3*unit.MM, H: in.H}
	s.Must(30*unit.MM, food.W, l.Pack.Paper.Pos)
	if s.Err() != nil {
		return
	}
	head := s.Fresh()
	under := max(l.headed(head, food), in.Y+l.left.mark+1750*unit.UM)
	l.shop(s, page.Rect{X: box.X, Y: in.Y, W: box.W, H: in.H}, under)
	if l.left.rules {
		l.Look.Post(s, post, in.Y, in.Bottom())
		l.Look.Divide(s, food.X, under, food.W)
	}
	s.Take(head, 0, 0)
	l.food(s, page.Rect{X: food.X, Y: under + 3*quarter, W: food.W, H: l.paper.Room().Bottom() - under - 3*quarter})
}

// codeWidth is the width of the bars, 0 without any.
func (l *layout) codeWidth() unit.Length {
	if l.code == nil {
		return 0
	}
	return l.code.ean.Bars.W
}

// headed sets the name of the food, its price at the end of the last line, and
// the unit price below that, from the top of r, and returns where the divider
// may stand.
func (l *layout) headed(s *compose.Setter, r page.Rect) unit.Length {
	name := l.Told[0].Name
	size := text.Hundredths(mostName * l.left.name)
	n, ok := l.fit(name, r.W, size, 2)
	if !ok {
		s.Must(1, 0, name.Src)
		return r.Y
	}
	faces := l.Look.Named(l.paper, size)
	bold := faces.Bold
	base, lead := l.floor(r.Y+bold.CapHeight(size)+quarter/2), up(size*93/100)
	for i, line := range n.lines {
		if i > 0 {
			base += lead
		}
		s.LineIn(faces, r.X, base, flow.Strong(role.Name, name.Src, line), flow.Style{Size: size})
	}
	if n.price.Text == "" {
		return base + 1750*unit.UM
	}
	s.LineIn(l.Look.Priced(l.paper, size), r.Right(), base, flow.Strong(n.price.Role, n.price.Src, n.price.Text), flow.Style{Size: size, Align: flow.Right})
	if per := l.unitPrice(); per.Text != "" {
		base += up(l.size)
		s.Line(r.Right(), base, compose.Phrase(per), flow.Style{Size: l.size, Align: flow.Right})
	}
	return base + 1750*unit.UM
}

// shop sets emblem and written name above the divider, and below it the operator,
// the batch mark and the bars.
func (l *layout) shop(s *compose.Setter, r page.Rect, under unit.Length) {
	if m := l.left.mark; m > 0 {
		box := l.Look.Mark(s, l.paper, page.Rect{X: r.X, Y: r.Y, W: m, H: m})
		s.Must(1, box.W, l.Look.Brand.Logo.Pos)
		if x := box.Right() + 1500*unit.UM; l.left.written && !l.Look.Written(s, l.paper, page.Rect{X: x, Y: r.Y, W: r.Right() - x, H: box.H}, l.left.under) {
			s.Must(1, 0, l.Look.Brand.Logo.Pos)
		}
	}
	if l.left.rules {
		l.Look.Divide(s, r.X, under, r.W)
	}
	bars := l.paper.Room().Bottom() - l.eanHeight()
	w, h := unit.Length(0), unit.Length(0)
	if m := l.code.mark; m != nil {
		w, h = symbol.Room(m)
		l.put(s, r.Right()-w+m.Module*unit.Length(m.Quiet[2]), under+unit.MM)
		w -= m.Module * unit.Length(m.Quiet[2]) // beyond the last bar; its white keeps the words off
	}
	c := s.Column(page.Rect{X: r.X, Y: under + 3*quarter, W: r.W - w, H: bars - under - 3*quarter})
	c.Put(l.parted(l.Told[0].Operator, c.Room.W), l.small())
	s.Must(max(under+unit.MM+h, c.Room.Y), bars, l.Pack.Paper.Pos)
	s.Bars(up(l.paper.Room().X), bars, l.code.ean, "", 0, l.barred())
}

// eanHeight is how high the bars are with what is read below them.
func (l *layout) eanHeight() unit.Length { return l.code.h - l.code.under }

// put sets the batch mark with its quiet zone at (x, y), on whole dots; one that
// carries the running number is only given its place.
func (l *layout) put(s *compose.Setter, x, y unit.Length) {
	l.mark = symbol.Place(l.code.mark, x, y)
	l.mark.Src = l.Pack.Mark.Pos
	if !l.numbered() {
		s.Items = append(s.Items, l.mark)
	}
}

// food sets the lists from the top of r, and at its foot the nutrition
// declaration beside net quantity, date, storage and batch.
func (l *layout) food(s *compose.Setter, r page.Rect) {
	band := s.Low(r, func(s *compose.Setter, r page.Rect) unit.Length {
		high := unit.Length(0)
		if l.way.table {
			w, h := l.nutrition(s, l.beside(r))
			high, r = h, right(r, w+l.size)
		}
		return max(high, l.facts(s, r))
	})
	top := l.floor(r.Bottom() - band.H)
	c := s.Column(page.Rect{X: r.X, Y: r.Y, W: r.W, H: top - r.Y - 5*quarter})
	for _, q := range l.running(l.Told[0]) {
		l.listed(c, q, l.small())
	}
	s.Add(band.Items, r.X, top)
	if l.Digits > 0 && s.Err() == nil {
		l.serial = l.serial.Moved(r.X, top)
	}
}

// parted is words whose lines end at commas alone, where each part goes into the
// width: a name, a street, a town.
func (l *layout) parted(said words.Said, w unit.Length) text.Para {
	parts := strings.Split(said.Text, ", ")
	for i, part := range parts {
		parts[i] = strings.ReplaceAll(part, " ", compose.NoBreak)
		if l.paper.Faces.Regular.Width(parts[i]+",", l.size) > w {
			return phrase(said)
		}
	}
	said.Text = strings.Join(parts, ", ")
	return phrase(said)
}
