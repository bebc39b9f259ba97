package sale

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

// lowLabel is the height under which a label has no room for a column of facts.
const lowLabel = 50 * unit.MM

// setAcross sets the name of the food across the whole label, and below it the
// lists beside a column of facts and codes; on a low label the lists across, too.
func (l *layout) setAcross(s *compose.Setter) {
	in := l.inner()
	l.alone(s)
	if _, h := l.Stock.Size(); h < lowLabel {
		l.setLow(s)
		return
	}
	under := l.titled(s, in, mostName)
	col := in.W * 3 / 10
	if l.code != nil {
		col = max(col, l.code.ean.Bars.W)
	}
	s.Must(col, in.W/2, l.Pack.Paper.Pos)
	x := in.Right() - col
	foot := l.corner(s, page.Rect{X: x, Y: in.Y, W: col, H: l.paper.Room().Bottom() - in.Y})
	l.priced(s, page.Rect{X: x, Y: under + unit.MM, W: col, H: foot - under - unit.MM})
	left := page.Rect{X: in.X, Y: under + 3*quarter, W: x - in.X - 4500*unit.UM, H: l.paper.Room().Bottom() - under - 3*quarter}
	band := s.Low(left, l.grounded)
	top := l.floor(left.Bottom() - band.H)
	c := s.Column(page.Rect{X: left.X, Y: left.Y, W: left.W, H: top - left.Y - 5*quarter})
	for _, q := range l.running(l.Told[0]) {
		l.listed(c, q, l.small())
	}
	s.Add(band.Items, left.X, top)
}

// alone remembers that an arrangement has no place for a second language.
func (l *layout) alone(s *compose.Setter) {
	if l.several() {
		s.Must(1, 0, l.Pack.Pos)
	}
}

// silent remembers that an arrangement has no place for the line about the food.
func (l *layout) silent(s *compose.Setter) {
	if l.left.about {
		s.Must(1, 0, l.about.Src)
	}
}

// mostAbout is the size of the line about the food.
const mostAbout = 9

// titled sets name, line about the food and divider across r from its top, and
// returns where the divider stands.
func (l *layout) titled(s *compose.Setter, r page.Rect, points int64) unit.Length {
	size := text.Hundredths(points * l.left.name)
	name, faces := l.Told[0].Name, l.Look.Named(l.paper, size)
	bold := faces.Bold
	was := l.left.price
	l.left.price = false // it stands in the column
	n, ok := l.fit(name, r.W, size, 2)
	l.left.price = was
	if !ok {
		s.Must(1, 0, name.Src)
		return r.Y
	}
	base := l.floor(r.Y + bold.CapHeight(size) + quarter/2)
	for i, line := range n.lines {
		if i > 0 {
			base += up(size * 93 / 100)
		}
		s.LineIn(faces, r.X, base, flow.Strong(role.Name, name.Src, line), flow.Style{Size: size})
	}
	_, down := bold.Ink(n.lines[len(n.lines)-1], size)
	base = up(base + down + 2*quarter)
	if l.left.about {
		base = l.described(s, r, base)
	}
	if l.left.rules {
		l.Look.Divide(s, r.X, base, r.W)
	}
	return base
}

// described sets the line about the food across r under top, and returns where
// the divider may stand.
func (l *layout) described(s *compose.Setter, r page.Rect, top unit.Length) unit.Length {
	size := text.Hundredths(100 * mostAbout)
	faces := l.Look.Abouted(l.paper, size)
	line := faces.Regular
	s.Must(line.Width(l.about.Text, size), r.W, l.about.Src)
	above, down := line.Ink(l.about.Text, size)
	base := up(top + above)
	s.LineIn(faces, r.X, base, compose.Phrase(l.about), flow.Style{Size: size})
	return up(base + down + 2*quarter)
}

// corner sets the bars at the foot of r, flush with its right edge, and returns
// where what is over them ends.
func (l *layout) corner(s *compose.Setter, r page.Rect) unit.Length {
	if l.code == nil {
		return r.Bottom()
	}
	ean := l.code.ean
	x := l.Dots.Snap(r.X - ean.Module*unit.Length(ean.Quiet[0]))
	y := l.paper.Room().Bottom() - l.eanHeight()
	s.Bars(x, y, ean, "", 0, l.barred())
	return y - unit.MM
}

// priced sets the facts into r from its top, with the price beside the net
// quantity.
func (l *layout) priced(s *compose.Setter, r page.Rect) {
	high := l.facts(s, r)
	s.Must(high, r.H, l.Pack.Pos)
	pay := l.money()
	if pay.Text == "" {
		return
	}
	size := l.netSize()
	net := l.paper.Faces.Bold.Width(l.Told[0].Net.Amount.Text, size)
	wide := l.paper.Faces.Bold.Width(pay.Text, size)
	s.Must(net+wide+unit.MM, r.W, pay.Src)
	for _, it := range s.Items {
		if it.Role == role.Net {
			s.Line(r.Right(), it.Run.Baseline, flow.Strong(pay.Role, pay.Src, pay.Text), flow.Style{Size: size, Align: flow.Right})
			if per := l.unitPrice(); per.Text != "" {
				s.Line(r.Right(), it.Run.Baseline+l.fact(l.size).Leading, compose.Phrase(per), flow.Style{Size: l.size, Align: flow.Right})
			}
			return
		}
	}
}

// grounded sets the nutrition declaration, and beside it the emblem over the
// operator, with the batch mark at its right.
func (l *layout) grounded(s *compose.Setter, r page.Rect) unit.Length {
	high, room := unit.Length(0), r
	if l.way.table {
		w, h := l.nutrition(s, page.Rect{X: r.X, Y: r.Y, W: r.W * 3 / 5, H: r.H})
		high, room = h, right(r, w+3*unit.MM)
	}
	shop := s.Low(room, func(s *compose.Setter, r page.Rect) unit.Length { return l.stood(s, r) })
	high = max(high, shop.H)
	s.Must(high, r.H, l.Pack.Pos)
	s.Add(shop.Items, room.X, l.floor(room.Y+high-shop.H))
	if l.mark.Symbol != nil {
		l.mark = l.mark.Moved(room.X, l.floor(room.Y+high-shop.H))
	}
	return high
}

// stood sets the emblem with the batch mark beside it, and the operator below.
func (l *layout) stood(s *compose.Setter, r page.Rect) unit.Length {
	c := s.Column(r)
	side := min(l.left.mark, 9500*unit.UM)
	if l.left.mark > 0 {
		box := l.Look.Mark(s, l.paper, page.Rect{X: r.X, Y: r.Y, W: side, H: side})
		s.Must(1, box.W, l.Look.Brand.Logo.Pos)
	}
	high := side
	if m := l.codeMark(); m != nil {
		w, h := symbol.Room(m)
		s.Must(side+w+unit.MM, r.W, l.Pack.Mark.Pos)
		l.put(s, r.X+side+unit.MM, r.Y)
		high = max(high, h)
	}
	if high > 0 {
		c.Skip(high + 2*quarter)
	}
	c.Put(l.parted(l.Told[0].Operator, c.Room.W), l.small())
	return c.Used()
}

// codeMark is the batch mark, nil for none.
func (l *layout) codeMark() *page.Symbol {
	if l.code == nil {
		return nil
	}
	return l.code.mark
}

// setLow sets name, lists and facts under each other, as on the plain label, with
// the emblem in the corner.
func (l *layout) setLow(s *compose.Setter) {
	room := l.paper.Room()
	l.silent(s)
	in := page.Rect{X: up(room.X), Y: up(room.Y), W: room.Right() - up(room.X) - quarter, H: room.Bottom() - up(room.Y)}
	s.Must(0, -l.codeWidth(), l.Pack.GTIN.Pos) // bars have no place here
	under := l.titled(s, in, 9)
	side := min(l.left.mark, 6250*unit.UM)
	l.wide = false // the operator stands with the facts
	band := s.Low(page.Rect{W: in.W - max(0, side+3*quarter), H: in.H}, l.facts)
	top := l.floor(in.Bottom() - band.H)
	if side > 0 {
		box := l.Look.Mark(s, l.paper, page.Rect{X: in.Right() - side, Y: in.Bottom() - side, W: side, H: side})
		s.Must(1, box.W, l.Look.Brand.Logo.Pos)
	}
	c := s.Column(page.Rect{X: in.X, Y: under + 2*quarter, W: in.W, H: top - under - 3*quarter})
	for _, q := range l.running(l.Told[0]) {
		l.listed(c, q, l.small())
	}
	s.Add(band.Items, in.X, top)
	if l.Digits > 0 && s.Err() == nil {
		l.serial = l.serial.Moved(in.X, top)
	}
}
