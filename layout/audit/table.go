package audit

import (
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// The widths of columns are those of a sheet this wide between its margins.
const drawn = 182

const (
	gutter = 3500 * unit.UM // between columns
	step   = 3 * unit.MM    // of a part that is set in
	write  = 9 * unit.MM    // room for writing by hand
	hands  = 1500 * unit.UM // around what is written
)

// table is columns between margins w apart.
func table(cols []col, w unit.Length) compose.Table {
	t := compose.Table{Gap: gutter}
	for _, c := range cols {
		out := compose.Col{Head: c.head, W: w.Mul(c.width, drawn), Align: c.align}
		if c.width == 0 {
			out.Share = 1
		}
		t.Cols = append(t.Cols, out)
	}
	return t
}

// heads sets the heads of the columns, or nothing where there are none.
func (z *setting) heads(s *compose.Setter, cols []col) flow.Block {
	return s.Block(z.w, func(s *compose.Setter, r page.Rect) unit.Length {
		return table(cols, z.w).Heads(s, r, z.small, func(head string) text.Para { return plain(head).Para })
	})
}

// row sets one row of a section under a hairline.
func (z *setting) row(s *compose.Setter, cols []col, r row) flow.Block {
	if r.blank != nil {
		return z.signature(s, r)
	}
	if n := len(cols) - 1; len(r.cells) == 2 && n > 1 {
		cols = []col{{}, cols[n]}
	}
	return s.Block(z.w, func(s *compose.Setter, room page.Rect) unit.Length {
		var cells []compose.Cell
		for i, c := range r.cells {
			cells = append(cells, z.cell(c, cols[i].align))
		}
		high := table(cols, z.w).Row(s, room.Below(pad), cells...)
		s.Rule(0, 0, z.w, hair)
		return high + 2*pad
	})
}

// cell is a cell, its small words on the same line as those of the others.
func (z *setting) cell(c cell, align flow.Align) compose.Cell {
	st := flow.Style{Size: z.size, Align: align, Leading: z.size * 6 / 5}
	return func(s *compose.Setter, col page.Rect) unit.Length {
		in := step * unit.Length(c.indent)
		col.X, col.W = col.X+in, col.W-in
		if c.small {
			st.Size = z.small
			col = col.Below(s.First(st.Leading, z.size) - s.First(st.Leading, z.small))
		}
		return compose.Words(c.Para, st)(s, col)
	}
}

// signature sets what is signed by hand: bold words, what they mean, and lines
// to write on.
func (z *setting) signature(s *compose.Setter, r row) flow.Block {
	return s.Block(z.w, func(s *compose.Setter, room page.Rect) unit.Length {
		return lift + s.Boxed(room.Below(lift), hands, line, func(s *compose.Setter, in page.Rect) unit.Length {
			c := s.Column(in)
			for i, cell := range r.cells {
				size := z.size
				if i == 0 {
					size = text.Hundredths(1400)
				}
				c.Put(cell.Para, flow.Style{Size: size})
			}
			c.Down(write)
			lines := compose.Table{Gap: 2 * gutter}
			var blanks []compose.Cell
			for _, words := range r.blank {
				lines.Cols = append(lines.Cols, compose.Col{Share: 1})
				blanks = append(blanks, compose.Blank(plain(words).Para, hair, pad/2, flow.Style{Size: z.small}))
			}
			c.Down(lines.Row(s, c.Room, blanks...))
			return c.Used()
		})
	})
}
