package list

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
	z.table = compose.Table{Gap: between}
	if z.Tick {
		z.table.Cols = append(z.table.Cols, compose.Col{W: tick})
	}
	z.figs, z.thin = make([]flow.Figures, len(z.Cols)), make([]flow.Figures, len(z.Cols))
	var weights []string
	for i, c := range z.Cols {
		head := s.Widest(true, z.size, c.Head)
		out := compose.Col{Head: c.Head, Share: c.Share}
		switch c.Kind {
		case Figure:
			z.figs[i] = s.Figures(z.decimal, z.large, true, z.column(i, Cell.strongest)...)
			z.thin[i] = s.Figures(z.decimal, z.size, false, z.column(i, Cell.plain)...)
			out.W, out.Align = max(z.figs[i].W(), z.thin[i].W(), head), flow.Right
		case Right, Fit:
			out.W = max(head, s.Widest(true, z.large, z.column(i, Cell.strongest)...)+unit.UM)
			if c.Kind == Right {
				out.Align = flow.Right
			}
		case Write:
			out.W = max(write, head) + unit.MM/2
		}
		weights = append(weights, z.column(i, Cell.masses)...)
		z.table.Cols = append(z.table.Cols, out)
	}
	z.parts = s.Widest(true, z.size, weights...) + unit.UM
}

func (c Cell) strongest() []string { return []string{c.Strong} }
func (c Cell) plain() []string     { return []string{c.Under} }

func (c Cell) masses() []string {
	var out []string
	for _, p := range c.Parts {
		out = append(out, p.Mass)
	}
	return out
}

// column gathers words of a column.
func (z *setting) column(i int, of func(Cell) []string) []string {
	var out []string
	for _, r := range z.Rows {
		if i < len(r.Cells) {
			out = append(out, of(r.Cells[i])...)
		}
	}
	return out
}

func (z *setting) strong(words string) text.Para { return flow.Strong(role.Note, z.at, words) }

// row sets a heading, words across, or cells, with a thin rule below.
func (z *setting) row(s *compose.Setter, room page.Rect, r Row) unit.Length {
	low := unit.Length(0)
	switch {
	case r.Head != "":
		low = unit.MM + s.Para(room.Below(unit.MM), compose.Long(role.Note, r.Src, r.Head, true), flow.Style{Size: z.large})
	case r.Say != "":
		low = z.across(s, room, r) + unit.MM/2
	default:
		var cells []compose.Cell
		if z.Tick {
			cells = append(cells, compose.TickCell(tick, unit.MM/2))
		}
		for i, c := range r.Cells {
			cells = append(cells, z.cell(i, c, r))
		}
		low = z.table.Row(s, room, cells...) + unit.MM/2
	}
	s.Rule(room.X, room.Y+low, room.W, hair)
	return low + hair
}

// across sets words over all columns, below them the boxes to write in, behind a
// box to tick where the rows have one.
func (z *setting) across(s *compose.Setter, room page.Rect, r Row) unit.Length {
	c := s.Column(room)
	if z.Tick {
		s.TickBox(room.X, room.Y+unit.MM/2, tick)
		c.Room.X, c.Room.W = c.Room.X+tick+between, c.Room.W-tick-between
	}
	c.Put(compose.Long(role.Step, r.Src, r.Say, true), flow.Style{Size: z.size})
	if len(r.Fields) > 0 {
		c.Down(unit.MM / 2)
		c.Down(z.fields(s, c.Room, r))
	}
	if len(r.Lines) > 0 {
		c.Down(z.lines(s, c.Room, r.Lines))
	}
	return max(c.Used(), tick+unit.MM/2)
}

// fields sets words in front of boxes to write in, as many beside each other as
// there is room for; the last takes what the line leaves, for a reason or a name.
func (z *setting) fields(s *compose.Setter, room page.Rect, r Row) unit.Length {
	x, y := room.X, room.Y
	for i, words := range r.Fields {
		q := flow.Words(role.Note, r.Src, words)
		need := s.Width(q, z.size) + unit.MM + write
		if x > room.X && x+need > room.Right() {
			x, y = room.X, y+high+unit.MM/2
		}
		s.Must(need, room.W, r.Src)
		most := write
		if i == len(r.Fields)-1 {
			need, most = room.Right()-x, room.W
		}
		x = z.box(s, page.Rect{X: x, Y: y, W: need, H: high}, q, most).Right() + between
	}
	return y + high - room.Y
}

// box sets words in front of a box to write in, no wider than most, and returns
// what both cover.
func (z *setting) box(s *compose.Setter, r page.Rect, q text.Para, most unit.Length) page.Rect {
	x := r.X
	if len(q.Spans) > 0 && q.Spans[0].Text != "" {
		base := r.Y + (high+s.Faces.Regular.CapHeight(z.size))/2
		x = s.Line(x, base, q, flow.Style{Size: z.size}).Right() + unit.MM
	}
	w := min(most, r.Right()-x)
	s.Frame(page.Rect{X: x, Y: r.Y + unit.MM/2, W: w, H: high - unit.MM/2}, hair)
	return page.Rect{X: r.X, Y: r.Y, W: x + w - r.X, H: high}
}

// cell is what stands in column i.
func (z *setting) cell(i int, c Cell, r Row) compose.Cell {
	strong, under := z.long(c.Strong, true, c.Role, r), z.long(c.Under, false, role.Note, r)
	st, small := flow.Style{Size: z.large}, flow.Style{Size: z.size}
	switch kind := z.Cols[i].Kind; {
	case c.Write:
		return z.write(under, z.Cols[i])
	case kind == Figure && c.Strong != "":
		small.Align = flow.Right
		return compose.Under(z.figure(strong, st, z.figs[i]), compose.Words(under, small))
	case kind == Figure && c.Under != "":
		return z.figure(z.long(c.Under, false, c.Role, r), small, z.thin[i])
	case kind == Right:
		st.Align = flow.Right
	}
	return compose.Under(compose.Words(strong, st), compose.Words(under, small), z.split(c.Parts, r))
}

// long is words of a row; names are the shop's, and are cut where a line ends
// rather than refused.
func (z *setting) long(words string, bold bool, role role.Role, r Row) text.Para {
	return compose.Long(role, r.Src, words, bold)
}

// figure is an amount, its decimal mark under the one above.
func (z *setting) figure(q text.Para, st flow.Style, figs flow.Figures) compose.Cell {
	return func(s *compose.Setter, col page.Rect) unit.Length {
		f := s.Faces.Regular
		s.Figure(col.Right(), col.Y+f.Ascent(z.large), q, st, figs)
		return f.Leading(z.large)
	}
}

// split is weights, each with a box to tick and what it is of or for.
func (z *setting) split(parts []Part, r Row) compose.Cell {
	return func(s *compose.Setter, col page.Rect) unit.Length {
		c, f := s.Column(col), s.Faces.Regular
		for _, p := range parts {
			base := c.Room.Y + f.Ascent(z.size)
			right := s.Tick(col.X, base, z.size) + unit.MM + z.parts
			s.Line(right, base, z.long(p.Mass, true, role.Amount, r), flow.Style{Size: z.size, Align: flow.Right})
			left := right + 2*unit.MM
			used := s.Para(page.Rect{X: left, Y: c.Room.Y, W: col.Right() - left, H: col.H}, z.long(p.What, false, role.Step, r), flow.Style{Size: z.size})
			c.Down(max(used, f.Leading(z.size)) + unit.MM/2)
		}
		return c.Used()
	}
}

// write is a box to write in, with its word in front where there is one, or over
// it where the column is too narrow for both. In a column that has a share the
// box takes what there is: names and codes are written there.
func (z *setting) write(word text.Para, c Col) compose.Cell {
	most := write
	if c.Kind == Words {
		most = 3 * write
	}
	return func(s *compose.Setter, col page.Rect) unit.Length {
		said := len(word.Spans) > 0 && word.Spans[0].Text != ""
		if said && s.Widest(false, z.size, word.Spans[0].Text)+unit.MM+write > col.W {
			used := s.Para(col, word, flow.Style{Size: z.size})
			z.box(s, col.Below(used), text.Para{}, most)
			return used + high
		}
		z.box(s, col, word, most)
		return high
	}
}
