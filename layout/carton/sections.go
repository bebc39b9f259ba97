package carton

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// head sets the sender and, in a frame at the right, which carton this is.
func head(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	f, size, pad := s.Faces.Bold, l.data, l.body*2/3
	widest := l.of[len(l.of)-1]
	for size > l.body && f.Width(widest, size)+2*pad > r.W*45/100 {
		size = max(l.body, size*9/10)
	}
	box := page.Rect{Y: r.Y, W: f.Width(widest, size) + 2*pad, H: f.CapHeight(size) + 2*pad}
	box.X = r.Right() - box.W
	s.Frame(box, 500*unit.UM)
	l.spot = spot{box.X + box.W/2, box.Y + pad + f.CapHeight(size), size}
	from := r
	from.W = box.X - l.body - from.X
	return max(box.H, l.sent(s, from, box.H))
}

// large is how large print is set: its lines close together.
func large(size unit.Length) flow.Style {
	return flow.Style{Size: size, Leading: size * 21 / 20}
}

// each sets paragraphs one under the other.
func each(s *compose.Setter, r page.Rect, st flow.Style, said ...text.Para) unit.Length {
	c := s.Column(r)
	for _, q := range said {
		c.Put(q, st)
	}
	return c.Used()
}

// name sets the name of the food in every language.
func name(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	size := l.data
	if len(l.names) > 1 {
		size = max(l.body*6/5, l.data*4/5)
	}
	return each(s, r, large(size), l.names...)
}

// date sets the date with its words in every language.
func date(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	size := l.data
	if len(l.dates) > 1 {
		size = max(l.body, l.data*3/4)
	}
	c := s.Column(r)
	c.Put(l.dated, flow.Style{Size: l.body})
	for _, q := range l.dates {
		c.Put(q, large(size))
	}
	return c.Used()
}

// contents sets what is in the carton, and the batch: side by side where both
// fit, else one under the other.
func contents(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	figures, sizes := []figure{l.net, l.batch}, []unit.Length{max(l.data, l.netSize()), l.data}
	table := compose.Table{Gap: l.body}
	sum := -table.Gap
	var cells []compose.Cell
	for i, f := range figures {
		w := max(s.Widest(false, l.body, f.title.Spans[0].Text), s.Widest(true, sizes[i], f.value.Spans[0].Text)) + 20*unit.UM
		sum += w + table.Gap
		table.Cols = append(table.Cols, compose.Col{W: w})
		cells = append(cells, compose.Under(compose.Words(f.title, flow.Style{Size: l.body}), compose.Words(f.value, large(sizes[i]))))
	}
	if sum > r.W {
		return compose.Under(cells...)(s, r)
	}
	table.Gap += (r.W - sum) / unit.Length(2*len(figures))
	return table.Row(s, r, cells...)
}

// netSize makes the figures of the net quantity as high as the law asks.
func (l *layout) netSize() unit.Length {
	m, ok := l.Facts.Market.Net.DigitHeight(l.Pack().Net, 0)
	if !ok {
		return 0
	}
	return l.paper.Faces.Bold.SizeForCap(m.Least)
}

// keep sets the class of temperature large, and how to keep the carton in
// words, beside it or below it, whichever takes less height.
func keep(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	class := s.Block(r.W, l.coldClass)
	said := func(in *compose.Setter, w unit.Length) flow.Block {
		return in.Block(w, func(s *compose.Setter, r page.Rect) unit.Length {
			return each(s, r, flow.Style{Size: l.body}, l.content.keep...)
		})
	}
	w := s.Faces.Bold.Width(l.class.Spans[0].Text, l.data) + 20*unit.UM + l.sign() + l.body
	narrow, wide := s.Fresh(), s.Fresh()
	beside, below := said(narrow, r.W-w), said(wide, r.W)
	s.Add(class.Items, r.X, r.Y)
	if narrow.Err() == nil && max(class.H, beside.H) <= class.H+below.H {
		s.Add(beside.Items, r.X+w, r.Y+max(0, class.H-beside.H)/2)
		return max(class.H, beside.H)
	}
	s.Fail(wide.Err())
	s.Add(below.Items, r.X, r.Y+class.H)
	return class.H + below.H
}

// sign is the width of the sign of cold and the white behind it.
func (l *layout) sign() unit.Length {
	if !l.cold {
		return 0
	}
	return l.data * 6 / 5
}

// coldClass sets the class behind the sign of cold.
func (l *layout) coldClass(s *compose.Setter, r page.Rect) unit.Length {
	if l.cold {
		side := l.data * 9 / 10
		s.Icon(flow.Cold, page.Rect{X: r.X, Y: r.Y + (large(l.data).Leading-side)/2, W: side, H: side}, role.Furniture)
	}
	r.X, r.W = r.X+l.sign(), r.W-l.sign()
	return s.Para(r, l.class, large(l.data))
}

// allergens sets in every language which allergens are in the packs, and
// which cannot be kept out.
func allergens(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	return each(s, r, flow.Style{Size: l.body}, l.content.allergens...)
}

// weights sets what the carton weighs.
func weights(l *layout, s *compose.Setter, r page.Rect) unit.Length {
	return s.Para(r, l.content.weights, flow.Style{Size: l.body})
}

// foot sets the numbers of GS1 at the lower end of r, each behind its title, and
// keeps the place of the matrix at their right. It returns the height used.
func (l *layout) foot(s *compose.Setter, r page.Rect) unit.Length {
	w, h := l.matrix.Room()
	left := r
	if left.W -= w; w > 0 {
		left.W -= l.body // more white than a matrix must have: words close to it keep cameras from finding it
	}
	lead := max(large(l.key).Leading, large(l.body).Leading)
	rows := l.rows(s, left.W)
	gap := l.body * 2 / 3
	used := max(lead*unit.Length(len(rows)), h) + gap
	s.Must(used, r.H, l.carton.Paper.Pos)
	left.Y = r.Bottom() - used + gap
	l.divide(s, r.X, left.Y-gap/2, r.W)
	l.at = corner{r.Right() - w, left.Y}
	title := unit.Length(0)
	for _, k := range l.keys {
		if len(rows) == len(l.keys) { // one under the other
			title = max(title, s.Width(k.title, l.body))
		}
	}
	for i, row := range rows {
		l.row(s, left.Below(lead*unit.Length(i)), row, lead, title)
	}
	return used
}

// rows deals the numbers of GS1 out to as few lines of width w as hold them.
func (l *layout) rows(s *compose.Setter, w unit.Length) (out [][]figure) {
	room := unit.Length(0)
	for _, k := range l.keys {
		need := s.Width(k.title, l.body) + l.body/2 + s.Width(k.value, l.key) + 2*l.body
		if room -= need; room < 0 || len(out) == 0 {
			out = append(out, nil)
			room = w + 2*l.body - need
		}
		out[len(out)-1] = append(out[len(out)-1], k)
	}
	return out
}

// row sets one line of numbers, their titles at least so wide. Of the SSCC only
// the place is kept, for it is the carton's own.
func (l *layout) row(s *compose.Setter, r page.Rect, row []figure, lead, title unit.Length) {
	x, base := r.X, r.Y+(lead+s.Faces.Bold.CapHeight(l.key))/2
	for _, k := range row {
		s.Line(x, base, k.title, flow.Style{Size: l.body})
		x += max(title, s.Width(k.title, l.body)) + l.body/2
		if l.sscc.size == 0 && len(l.SSCCs) > 0 {
			l.sscc = spot{x, base, l.key}
		} else {
			s.Line(x, base, k.value, flow.Style{Size: l.key})
		}
		x += s.Width(k.value, l.key)
		s.Must(x-r.X, r.W, k.value.Src)
		x += 2 * l.body
	}
}
