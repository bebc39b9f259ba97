package withdraw

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

const (
	tick    = 6 * unit.MM // side of a box
	between = 3 * unit.MM // white between columns
)

// setting is the sheet in one size of words.
type setting struct {
	sheet
	small, large unit.Length // sizes of the face
	table        compose.Table
}

// layout sets the sheet with small words of the given size.
func layout(paper *compose.Paper, c sheet, size unit.Length) ([]*page.Page, error) {
	s, w := paper.Setter(), paper.Room().W
	z := &setting{sheet: c, small: size, large: size.Mul(4, 3)}
	z.measure(s)
	var blocks []flow.Block
	for _, r := range c.rows {
		blocks = append(blocks, s.Block(w, func(s *compose.Setter, room page.Rect) unit.Length { return z.row(s, room, r) }))
	}
	blocks[len(blocks)-1].Tied = true // who signs sees what was signed for
	blocks = append(blocks, s.Block(w, z.end))
	if s.Err() != nil {
		return nil, s.Err()
	}
	return compose.Pages{Paper: paper, Gap: unit.MM, Head: z.head}.Deal(blocks)
}

// measure finds the columns: two boxes to tick and the copy's number are as
// wide as their heads and what stands in them; the others share what is left.
func (z *setting) measure(s *compose.Setter) {
	z.table.Gap = between
	for i, share := range []int64{0, 0, 0, 22, 40, 19, 19} {
		col := compose.Col{Head: z.heads[i], Share: share}
		if share == 0 {
			col.W = max(s.Widest(true, z.small, col.Head), tick)
		}
		z.table.Cols = append(z.table.Cols, col)
	}
	for _, r := range z.rows {
		z.table.Cols[2].W = max(z.table.Cols[2].W, s.Widest(true, z.large, r[0].large))
	}
	for i := range z.table.Cols[:3] {
		z.table.Cols[i].W += unit.MM / 2
	}
}

func note(s string) text.Para   { return flow.Words(role.Note, diag.Pos{}, s) }
func strong(s string) text.Para { return flow.Strong(role.Note, diag.Pos{}, s) }

// head sets what stands at the top of each page: the title, what to do, and the
// heads of the columns.
func (z *setting) head(s *compose.Setter, room page.Rect, n, of int) unit.Length {
	title, f := z.small.Mul(9, 4), s.Faces.Bold
	base := room.Y + f.Ascent(title)
	s.Line(room.X, base, strong(z.title), flow.Style{Size: title})
	s.Ends(room.Right(), base, []text.Para{strong(z.shop), strong(z.day + " · " + z.page(n, of))}, z.small)
	c := s.Column(room.Below(base + f.Descent(title) + 2*unit.MM - room.Y))
	c.Put(note(z.do), flow.Style{Size: z.small})
	c.Skip(3 * unit.MM)
	c.Down(z.table.Heads(s, c.Room, z.small, strong))
	s.Rule(room.X, c.Room.Y+unit.MM/2, room.W, 500*unit.UM)
	return c.Room.Y + unit.MM - room.Y
}

// row sets one copy. What is longer than a line is cut where the line ends:
// names are the shop's, and the sheet must come.
func (z *setting) row(s *compose.Setter, room page.Rect, r row) unit.Length {
	cells := []compose.Cell{compose.TickCell(tick, 0), compose.TickCell(tick, 0)}
	for _, t := range r {
		cells = append(cells, compose.Under(
			compose.Words(compose.Long(role.Name, diag.Pos{}, t.large, true), flow.Style{Size: z.large}),
			compose.Words(compose.Long(role.Name, diag.Pos{}, t.under, false), flow.Style{Size: z.small})))
	}
	high := z.table.Row(s, room, cells...) + unit.MM
	s.Rule(room.X, room.Y+high, room.W, 150*unit.UM)
	return high + unit.MM/2
}

// end sets what comes after the last row: what to do then, and who did it.
func (z *setting) end(s *compose.Setter, room page.Rect) unit.Length {
	c := s.Column(room)
	c.Put(note(z.report), flow.Style{Size: z.small})
	c.Skip(9 * unit.MM) // room to write by hand: 8 mm and the rule
	lines := compose.Table{Gap: between}
	var cells []compose.Cell
	for i, words := range z.sign {
		lines.Cols = append(lines.Cols, compose.Col{Share: []int64{3, 1, 1, 3}[i]})
		cells = append(cells, compose.Blank(note(words), 200*unit.UM, unit.MM, flow.Style{Size: z.small}))
	}
	c.Down(lines.Row(s, c.Room, cells...))
	return c.Used()
}
