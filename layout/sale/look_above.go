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

// setAbove sets the shop in the middle above the food, net quantity and price at
// its sides; below a divider a column for each language, and at the foot the
// nutrition declaration beside the codes.
func (l *layout) setAbove(s *compose.Setter) {
	in := l.inner()
	l.silent(s)
	in.H = l.paper.Room().Bottom() - in.Y
	under := l.crowned(s, in)
	foot := s.Low(in, l.footed)
	top := l.floor(in.Bottom() - foot.H)
	l.languages(s, page.Rect{X: in.X, Y: under, W: in.W, H: top - under - 5*quarter})
	s.Add(foot.Items, in.X, top)
	if l.mark.Symbol != nil {
		l.mark = l.mark.Moved(l.Dots.Snap(in.X), top)
	}
	if l.code != nil {
		ean := l.code.ean
		x := in.Right() - ean.Bars.W - ean.Module*unit.Length(ean.Quiet[0])
		s.Bars(l.Dots.Snap(x), l.paper.Room().Bottom()-l.eanHeight(), ean, "", 0, l.barred())
	}
}

// languages sets each language in a column of its own, or where those would be
// too narrow to read all below each other.
func (l *layout) languages(s *compose.Setter, r page.Rect) {
	const narrow = 38 * unit.MM
	cols := l.columns(r)
	if cols[0].W < narrow {
		for _, t := range l.Told {
			r = r.Below(l.column(s, r, t) + 2*quarter)
		}
		return
	}
	for i, col := range cols {
		l.column(s, col, l.Told[i])
		if l.left.rules && i > 0 {
			l.Look.Post(s, col.X-1750*unit.UM, r.Y, r.Bottom())
		}
	}
}

// crowned sets emblem, written name and operator in the middle of r from its
// top, net quantity and batch at the left and the price at the right of them, and
// returns where the divider stands.
func (l *layout) crowned(s *compose.Setter, r page.Rect) unit.Length {
	side := min(l.left.mark, 11*unit.MM)
	middle, y := r.X+r.W/2, r.Y
	if l.left.mark > 0 {
		box, ok := l.Look.Fits(l.paper, page.Rect{X: middle - side/2, Y: y, W: side, H: side})
		if !ok {
			s.Must(1, 0, l.Look.Brand.Logo.Pos)
		}
		l.Look.Mark(s, l.paper, page.Rect{X: middle - box.W/2, Y: y, W: side, H: side})
		y += side
	}
	crown := side
	if l.left.written {
		size := text.Hundredths(1200)
		y = l.floor(y + 4250*unit.UM)
		w := s.LineIn(l.Look.Named(l.paper, size), middle, y, flow.Strong(role.Note, l.Look.Brand.Written[0].Pos, l.Look.Brand.WrittenName()), flow.Style{Size: size, Align: flow.Centre}).W
		crown = max(crown, w)
	}
	sides := page.Rect{X: r.X, Y: r.Y, W: (r.W-crown)/2 - 2*unit.MM, H: r.H}
	low := max(l.cornered(s, sides), l.paid(s, page.Rect{X: r.Right() - sides.W, Y: r.Y, W: sides.W, H: r.H}))
	c := s.Column(page.Rect{X: r.X, Y: max(y+unit.MM, low), W: r.W, H: r.H})
	st := l.small()
	st.Align = flow.Centre
	c.Put(phrase(l.Told[0].Operator), st)
	return up(c.Room.Y + 2*quarter)
}

// cornered sets net quantity and batch from the top of r and returns where they
// end.
func (l *layout) cornered(s *compose.Setter, r page.Rect) unit.Length {
	c := s.Column(r)
	l.net(c)
	l.batch(c)
	return c.Room.Y
}

// paid sets price and unit price at the right of r and returns where they end.
func (l *layout) paid(s *compose.Setter, r page.Rect) unit.Length {
	pay := l.money()
	if pay.Text == "" {
		return r.Y
	}
	c, st := s.Column(r), l.fact(l.netSize())
	st.Align = flow.Right
	c.Put(flow.Strong(pay.Role, pay.Src, pay.Text), st)
	if per := l.unitPrice(); per.Text != "" {
		st.Size, st.Leading = l.size, l.fact(l.size).Leading
		c.Put(compose.Phrase(per), st)
	}
	return c.Room.Y
}

// columns are the columns of the languages; that of one language is no wider
// than a line is read well.
func (l *layout) columns(r page.Rect) []page.Rect {
	const apart, widest = 3500 * unit.UM, 76 * unit.MM
	n := unit.Length(len(l.Told))
	if n == 1 {
		w := min(r.W, widest)
		return []page.Rect{{X: r.X + (r.W-w)/2, Y: r.Y, W: w, H: r.H}}
	}
	var out []page.Rect
	w := (r.W - (n-1)*apart) / n
	for i := range n {
		out = append(out, page.Rect{X: r.X + i*(w+apart), Y: r.Y, W: w, H: r.H})
	}
	return out
}

// column sets all that is said in one language under a divider, and returns its
// height.
func (l *layout) column(s *compose.Setter, r page.Rect, t *words.Label) unit.Length {
	top := r.Y
	if l.left.rules {
		l.Look.Divide(s, r.X, r.Y, r.W)
	}
	r = r.Below(unit.MM)
	c := s.Column(r)
	most, w := int64(mostName), r.W
	if l.several() {
		most = 1125
		code := l.paper.Faces.Bold.Width(strings.ToUpper(t.Lang), l.size) + l.size*2/3
		w -= code + 2*unit.MM
		l.flag(s.Column(page.Rect{X: r.Right() - code, Y: r.Y, W: code, H: r.H}), t.Lang, text.Hundredths(1125*l.left.name/100))
	} else {
		most *= 100
	}
	l.calls(c, t, w, text.Hundredths(most*l.left.name/100))
	for _, q := range l.running(t) {
		l.listed(c, q, l.small())
	}
	if !l.several() {
		c.Put(phrase(t.Date), l.small())
		c.Put(phrase(t.Keep), l.small())
	}
	return c.Room.Y - top
}

// calls sets the name of the food in w from the top of a column.
func (l *layout) calls(c *compose.Column, t *words.Label, w, size unit.Length) {
	was := l.left.price
	l.left.price = false // it stands above
	n, ok := l.fit(t.Name, w, size, 2)
	l.left.price = was
	if !ok {
		c.Must(1, 0, t.Name.Src)
		return
	}
	c.Skip(quarter)
	faces := l.Look.Named(l.paper, size)
	base := up(c.Room.Y + faces.Bold.CapHeight(size))
	for i, line := range n.lines {
		if i > 0 {
			base += up(size * 93 / 100)
		}
		c.LineIn(faces, c.Room.X, base, flow.Strong(role.Name, t.Name.Src, line), flow.Style{Size: size})
	}
	_, down := faces.Bold.Ink(n.lines[len(n.lines)-1], size)
	c.Skip(base + down + 2*quarter - c.Room.Y)
}

// footed sets the nutrition declaration at the left, and at the right keeps room
// for the bars, with the batch mark before them.
func (l *layout) footed(s *compose.Setter, r page.Rect) unit.Length {
	high, end := unit.Length(0), r.Right()
	if l.code != nil {
		ean := l.code.ean
		high, end = l.eanHeight(), r.Right()-ean.Bars.W-ean.Module*unit.Length(ean.Quiet[0])
	}
	if m := l.codeMark(); m != nil {
		w, h := symbol.Room(m)
		end = end - w
		high = max(high, h)
		l.put(s, end, high-h)
	}
	if l.way.table {
		w, h := l.nutrition(s, page.Rect{X: r.X, Y: r.Y, W: end - r.X - 2*unit.MM, H: r.H})
		s.Must(w, end-r.X-unit.MM, l.Pack.Nutrition.Pos)
		high = max(high, h)
	}
	s.Must(high, r.H, l.Pack.Pos)
	return high
}
