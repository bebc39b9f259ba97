package prep

import (
	"strconv"

	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// shape says how the columns of a list share the width behind the box to tick:
// the first one and every one with a share in percent by it; the others are as
// wide as what stands in them.
type shape struct {
	share []int64
	kind  []kind
}

type kind int

const (
	isWords kind = iota
	isFigure
	isRight // words at the right
	isFit   // words as wide as they are
	isParts
	isWrite
)

func makeShape() shape {
	return shape{[]int64{46, 0, 0, 0, 54}, []kind{isWords, isRight, isFigure, isFigure, isParts}}
}

func buyShape() shape {
	return shape{[]int64{100, 0, 0, 0, 0, 0}, []kind{isWords, isFigure, isFigure, isFit, isWrite, isWrite}}
}

const (
	tick    = 5 * unit.MM // side of a box
	between = 3 * unit.MM // white between columns
	write   = 20 * unit.MM
	high    = 8 * unit.MM // of a box to write in, for a hand (common practice, no source)
	hair    = 150 * unit.UM
)

// setter sets one list in one size.
type setter struct {
	*composer
	list
	size, large unit.Length
	x, w        []unit.Length // of the columns
	figs        []flow.Figures
	partFig     flow.Figures // of the weights in a cell of parts
	err         error
}

func (c *composer) setter(l list, size, width unit.Length) *setter {
	s := &setter{composer: c, list: l, size: size, large: size.Mul(6, 5)}
	s.measure(width)
	return s
}

func (s *setter) pen() *flow.Pen { return &flow.Pen{Faces: s.faces, Dots: s.Dots} }

// mark is the decimal mark of the language.
func (s *setter) mark() string {
	text := []rune(s.Lang.Plain(15, 1))
	return string(text[1 : len(text)-1])
}

// measure finds how wide the columns are.
func (s *setter) measure(width unit.Length) {
	n := len(s.shape.kind)
	s.w, s.x, s.figs = make([]unit.Length, n), make([]unit.Length, n), make([]flow.Figures, n)
	rest := width - tick
	for i, k := range s.shape.kind {
		rest -= between
		switch k {
		case isFigure:
			s.figs[i] = s.pen().Figures(s.mark(), s.large, true, s.column(i, func(c cell) []string { return []string{c.strong} })...)
			thin := s.pen().Figures(s.mark(), s.size, false, s.column(i, func(c cell) []string { return []string{c.under} })...)
			s.w[i] = max(s.figs[i].W(), thin.W(), s.faces.Bold.Width(s.list.heads[i], s.size))
		case isRight, isFit:
			s.w[i] = s.faces.Bold.Width(s.list.heads[i], s.size)
			for _, words := range s.column(i, func(c cell) []string { return []string{c.strong} }) {
				s.w[i] = max(s.w[i], s.faces.Bold.Width(words, s.large)+unit.UM)
			}
		case isWrite:
			s.w[i] = max(write, s.faces.Bold.Width(s.list.heads[i], s.size)) + unit.MM/2
		case isParts:
			s.partFig = s.pen().Figures(s.mark(), s.size, true, s.column(i, func(c cell) []string {
				var out []string
				for _, p := range c.parts {
					out = append(out, p.mass)
				}
				return out
			})...)
		}
		rest -= s.w[i]
	}
	x := tick
	for i, share := range s.shape.share {
		if share > 0 {
			s.w[i] = rest.Mul(share, 100)
		}
		x += between
		s.x[i] = x
		x += s.w[i]
	}
}

// column gathers words of a column.
func (s *setter) column(i int, of func(cell) []string) []string {
	var out []string
	for _, r := range s.rows {
		if i < len(r.cells) {
			out = append(out, of(r.cells[i])...)
		}
	}
	return out
}

// block is what one row, or the head of a page, sets.
func (s *setter) block(w unit.Length, set func(*hand, page.Rect) unit.Length) flow.Block {
	b, err := s.pen().Block(w, func(p *flow.Pen, r page.Rect) (unit.Length, error) {
		h := &hand{Pen: p}
		used := set(h, r)
		return used, h.err
	})
	if s.err == nil {
		s.err = err
	}
	return b
}

// top sets what stands at the top of each page: title, day and page, what to
// do, and the heads of the columns.
func (s *setter) top(h *hand, room page.Rect, n, of int) unit.Length {
	title := s.size.Mul(2, 1)
	leaf, err := s.Lang.Fill("card.page", map[string]string{"n": strconv.Itoa(n), "m": strconv.Itoa(of)})
	h.failed(err)
	base := room.Y + h.Faces.Bold.Ascent(title)
	at := s.Shop.Profile.Pos
	x := h.line(room.X, base, flow.Strong(page.Note, at, capital(s.title)+" · "+s.Lang.Date(s.Date, words.Long)), flow.Style{Size: title}) + 2*between
	shop := flow.Strong(page.Note, at, s.Shop.Profile.Name.V+"\n"+leaf)
	shop.Anywhere = true // whatever the name, it stays beside the title
	low := h.para(page.Rect{X: x, Y: room.Y, W: room.Right() - x, H: room.H}, shop, flow.Style{Size: s.size, Align: flow.Right})
	y := max(base+h.Faces.Bold.Descent(title), room.Y+low) + unit.MM
	y += h.para(page.Rect{X: room.X, Y: y, W: room.W, H: room.Bottom() - y}, flow.Words(page.Note, at, s.lead), flow.Style{Size: s.size}) + 2*unit.MM
	low = 0
	for i, words := range s.list.heads {
		st := flow.Style{Size: s.size}
		if k := s.shape.kind[i]; k == isFigure || k == isRight {
			st.Align = flow.Right
		}
		low = max(low, h.para(page.Rect{X: room.X + s.x[i], Y: y, W: s.w[i], H: room.Bottom() - y}, flow.Strong(page.Note, at, words), st))
	}
	y += low + unit.MM/2
	h.Rule(room.X, y, room.W, 500*unit.UM)
	return y + 500*unit.UM - room.Y
}

// row sets a heading, or a box to tick and cells, with a thin rule below.
func (s *setter) row(h *hand, room page.Rect, r row) unit.Length {
	if r.head != "" {
		used := h.para(page.Rect{X: room.X, Y: room.Y + unit.MM, W: room.W, H: room.H}, flow.Strong(page.Note, s.Shop.Profile.Pos, r.head), flow.Style{Size: s.large})
		h.Rule(room.X, room.Y+unit.MM+used, room.W, hair)
		return used + unit.MM + hair
	}
	h.TickBox(room.X, room.Y+unit.MM/2, tick)
	low := tick + unit.MM/2
	for i, c := range r.cells {
		col := page.Rect{X: room.X + s.x[i], Y: room.Y, W: s.w[i], H: room.H}
		low = max(low, s.cell(h, col, i, c, r))
	}
	h.Rule(room.X, room.Y+low+unit.MM/2, room.W, hair)
	return low + unit.MM/2 + hair
}

// cell sets one cell and returns its height.
func (s *setter) cell(h *hand, col page.Rect, i int, c cell, r row) unit.Length {
	switch {
	case c.write:
		return s.write(h, col, c, r)
	case len(c.parts) > 0:
		return s.parts(h, col, c, r)
	case s.shape.kind[i] == isFigure:
		return s.figure(h, col, i, c, r)
	}
	st := flow.Style{Size: s.large}
	if s.shape.kind[i] == isRight {
		st.Align = flow.Right
	}
	used := h.para(col, s.para(c.strong, true, c.role, r), st)
	if c.under != "" {
		used += h.para(down(col, used), s.para(c.under, false, page.Note, r), flow.Style{Size: s.size})
	}
	return used
}

// para is words of a row; names are the shop's, and are cut where a line ends
// rather than refused.
func (s *setter) para(words string, bold bool, role page.Role, r row) text.Para {
	return text.Para{Role: role, Src: r.src, Anywhere: true, Spans: []text.Span{{Text: words, Bold: bold}}}
}

// figure sets an amount, its decimal mark under the one above.
func (s *setter) figure(h *hand, col page.Rect, i int, c cell, r row) unit.Length {
	base := col.Y + h.Faces.Regular.Ascent(s.large)
	low := h.Faces.Regular.Leading(s.large)
	if c.strong != "" {
		h.figure(col.Right(), base, s.para(c.strong, true, c.role, r), flow.Style{Size: s.large}, s.figs[i])
		if c.under != "" {
			low += h.para(down(col, low), s.para(c.under, false, page.Note, r), flow.Style{Size: s.size, Align: flow.Right})
		}
		return low
	}
	if c.under != "" {
		thin := s.pen().Figures(s.mark(), s.size, false, s.column(i, func(c cell) []string { return []string{c.under} })...)
		h.figure(col.Right(), base, s.para(c.under, false, c.role, r), flow.Style{Size: s.size}, thin)
	}
	return low
}

// parts sets weights, each with a box to tick and what it is for.
func (s *setter) parts(h *hand, col page.Rect, c cell, r row) unit.Length {
	y := col.Y
	f := h.Faces.Regular
	side := f.CapHeight(s.size) * 5 / 4
	left := side + unit.MM + s.partFig.W() + 2*unit.MM
	for _, p := range c.parts {
		base := y + f.Ascent(s.size)
		h.TickBox(col.X, base-(side+f.CapHeight(s.size))/2, side)
		h.figure(col.X+side+unit.MM+s.partFig.W(), base, s.para(p.mass, true, page.Amount, r), flow.Style{Size: s.size}, s.partFig)
		used := h.para(page.Rect{X: col.X + left, Y: y, W: col.W - left, H: col.H}, s.para(p.what, false, page.Step, r), flow.Style{Size: s.size})
		y += max(used, f.Leading(s.size)) + unit.MM/2
	}
	return y - col.Y
}

// write sets a box to write in, with its word in front where there is one.
func (s *setter) write(h *hand, col page.Rect, c cell, r row) unit.Length {
	x := col.X
	if c.under != "" {
		base := col.Y + (high+h.Faces.Regular.CapHeight(s.size))/2
		x = h.line(x, base, s.para(c.under, false, page.Note, r), flow.Style{Size: s.size}) + unit.MM
	}
	h.Frame(page.Rect{X: x, Y: col.Y + unit.MM/2, W: min(write, col.Right()-x), H: high - unit.MM/2}, hair)
	return high
}
