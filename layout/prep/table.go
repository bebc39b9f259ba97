package prep

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

const (
	write = 20 * unit.MM // of a box to write in, for a hand (common practice, no source)
	high  = 8 * unit.MM
)

// measure finds how wide the columns are.
func (z *setting) measure(s *compose.Setter) {
	z.table = compose.Table{Gap: between, Cols: []compose.Col{{W: tick}}}
	z.figs, z.thin = make([]flow.Figures, len(z.cols)), make([]flow.Figures, len(z.cols))
	for i, c := range z.cols {
		head := s.Widest(true, z.size, c.head)
		out := compose.Col{Head: c.head, Share: c.share}
		switch c.kind {
		case isFigure:
			z.figs[i] = s.Figures(z.decimal, z.large, true, z.column(i, cell.strongest)...)
			z.thin[i] = s.Figures(z.decimal, z.size, false, z.column(i, cell.plain)...)
			out.W, out.Align = max(z.figs[i].W(), z.thin[i].W(), head), flow.Right
		case isRight, isFit:
			out.W = max(head, s.Widest(true, z.large, z.column(i, cell.strongest)...)+unit.UM)
			if c.kind == isRight {
				out.Align = flow.Right
			}
		case isWrite:
			out.W = max(write, head) + unit.MM/2
		case isParts:
			z.parts = s.Figures(z.decimal, z.size, true, z.column(i, cell.masses)...)
		}
		z.table.Cols = append(z.table.Cols, out)
	}
}

func (c cell) strongest() []string { return []string{c.strong} }
func (c cell) plain() []string     { return []string{c.under} }

func (c cell) masses() []string {
	var out []string
	for _, p := range c.parts {
		out = append(out, p.mass)
	}
	return out
}

// column gathers words of a column.
func (z *setting) column(i int, of func(cell) []string) []string {
	var out []string
	for _, r := range z.rows {
		if i < len(r.cells) {
			out = append(out, of(r.cells[i])...)
		}
	}
	return out
}

func (z *setting) strong(words string) text.Para { return flow.Strong(role.Note, z.at, words) }

// row sets a heading, or a box to tick and cells, with a thin rule below.
func (z *setting) row(s *compose.Setter, room page.Rect, r row) unit.Length {
	if r.head != "" {
		used := unit.MM + s.Para(room.Below(unit.MM), z.strong(r.head), flow.Style{Size: z.large})
		s.Rule(room.X, room.Y+used, room.W, hair)
		return used + hair
	}
	cells := []compose.Cell{compose.TickCell(tick, unit.MM/2)}
	for i, c := range r.cells {
		cells = append(cells, z.cell(i, c, r))
	}
	low := z.table.Row(s, room, cells...) + unit.MM/2
	s.Rule(room.X, room.Y+low, room.W, hair)
	return low + hair
}

// cell is what stands in column i.
func (z *setting) cell(i int, c cell, r row) compose.Cell {
	strong, under := z.long(c.strong, true, c.role, r), z.long(c.under, false, role.Note, r)
	st, small := flow.Style{Size: z.large}, flow.Style{Size: z.size}
	switch kind := z.cols[i].kind; {
	case c.write:
		return z.write(under, c.under != "")
	case len(c.parts) > 0:
		return z.split(c.parts, r)
	case kind == isFigure && c.strong != "":
		small.Align = flow.Right
		return compose.Under(z.figure(strong, st, z.figs[i]), compose.Words(under, small))
	case kind == isFigure && c.under != "":
		return z.figure(z.long(c.under, false, c.role, r), small, z.thin[i])
	case kind == isRight:
		st.Align = flow.Right
	}
	return compose.Under(compose.Words(strong, st), compose.Words(under, small))
}

// long is words of a row; names are the shop's, and are cut where a line ends
// rather than refused.
func (z *setting) long(words string, bold bool, role role.Role, r row) text.Para {
	return compose.Long(role, r.src, words, bold)
}

// figure is an amount, its decimal mark under the one above.
func (z *setting) figure(q text.Para, st flow.Style, figs flow.Figures) compose.Cell {
	return func(s *compose.Setter, col page.Rect) unit.Length {
		f := s.Faces.Regular
		s.Figure(col.Right(), col.Y+f.Ascent(z.large), q, st, figs)
		return f.Leading(z.large)
	}
}

// split is weights, each with a box to tick and what it is for.
func (z *setting) split(parts []part, r row) compose.Cell {
	return func(s *compose.Setter, col page.Rect) unit.Length {
		c, f := s.Column(col), s.Faces.Regular
		for _, p := range parts {
			base := c.Room.Y + f.Ascent(z.size)
			right := s.Tick(col.X, base, z.size) + unit.MM + z.parts.W()
			s.Figure(right, base, z.long(p.mass, true, role.Amount, r), flow.Style{Size: z.size}, z.parts)
			left := right + 2*unit.MM
			used := s.Para(page.Rect{X: left, Y: c.Room.Y, W: col.Right() - left, H: col.H}, z.long(p.what, false, role.Step, r), flow.Style{Size: z.size})
			c.Down(max(used, f.Leading(z.size)) + unit.MM/2)
		}
		return c.Used()
	}
}

// write is a box to write in, with its word in front where there is one.
func (z *setting) write(word text.Para, said bool) compose.Cell {
	return func(s *compose.Setter, col page.Rect) unit.Length {
		x := col.X
		if said {
			base := col.Y + (high+s.Faces.Regular.CapHeight(z.size))/2
			x = s.Line(x, base, word, flow.Style{Size: z.size}).Right() + unit.MM
		}
		s.Frame(page.Rect{X: x, Y: col.Y + unit.MM/2, W: min(write, col.Right()-x), H: high - unit.MM/2}, hair)
		return high
	}
}
