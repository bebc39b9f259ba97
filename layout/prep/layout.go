package prep

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

const (
	tick    = 5 * unit.MM // side of a box
	between = 3 * unit.MM // white between columns
	gap     = unit.MM     // between rows
	hair    = 150 * unit.UM
)

// setting is one list in one size of words.
type setting struct {
	list
	size, large unit.Length
	width       unit.Length    // between the margins
	table       compose.Table  // a box to tick, and the columns of the list
	figs, thin  []flow.Figures // of the strong and of the plain amounts of a column
	parts       flow.Figures   // of the weights in a cell of parts
}

// layout sets a list with words of the given size, behind the pages of another
// list.
func (l list) layout(paper *compose.Paper, size unit.Length, behind, of int) ([]*page.Page, error) {
	s := paper.Setter()
	z := &setting{list: l, size: size, large: size.Mul(6, 5), width: paper.Room().W}
	z.measure(s)
	blocks := z.blocks(s)
	if s.Err() != nil {
		return nil, s.Err()
	}
	return compose.Pages{Paper: paper, Gap: gap, Head: z.header, Again: z.again, Behind: behind, Of: of}.Deal(blocks)
}

// blocks are the rows of a list, and at the end its foot, which does not stand
// alone on a page.
func (z *setting) blocks(s *compose.Setter) []flow.Block {
	var out []flow.Block
	for _, r := range z.rows {
		out = append(out, z.block(s, r))
	}
	out[len(out)-1].Tied = true
	return append(out, s.Block(z.width, func(s *compose.Setter, room page.Rect) unit.Length {
		return s.Para(room, flow.Words(role.Note, z.at, z.foot), flow.Style{Size: z.size})
	}))
}

func (z *setting) block(s *compose.Setter, r row) flow.Block {
	b := s.Block(z.width, func(s *compose.Setter, room page.Rect) unit.Length { return z.row(s, room, r) })
	b.Tied, b.Src = r.head != "", r.src
	return b
}

// again is the heading that holds for the row at the top of a further page;
// none where that is a heading itself, or the foot.
func (z *setting) again(s *compose.Setter, at int) []flow.Block {
	if at >= len(z.rows) || z.rows[at].head != "" {
		return nil
	}
	for i := at - 1; i >= 0; i-- {
		if head := z.rows[i].head; head != "" {
			return []flow.Block{z.block(s, row{head: z.list.again(head)})}
		}
	}
	return nil
}

// header sets what stands at the top of each page: title, day and page, what to
// do, and the heads of the columns.
func (z *setting) header(s *compose.Setter, room page.Rect, n, of int) unit.Length {
	title, f := z.size.Mul(2, 1), s.Faces.Bold
	base := room.Y + f.Ascent(title)
	x := s.Line(room.X, base, flow.Strong(role.Note, z.at, z.title), flow.Style{Size: title}).Right() + 2*between
	shop := compose.Long(role.Note, z.at, z.shop+"\n"+z.page(n, of), true) // whatever the name, it stays beside the title
	low := s.Para(page.Rect{X: x, Y: room.Y, W: room.Right() - x, H: room.H}, shop, flow.Style{Size: z.size, Align: flow.Right})
	c := s.Column(room)
	c.Down(max(base+f.Descent(title)-room.Y, low) + unit.MM)
	c.Put(flow.Words(role.Note, z.at, z.lead), flow.Style{Size: z.size})
	c.Down(2 * unit.MM)
	c.Down(z.table.Heads(s, c.Room, z.size, z.strong) + unit.MM/2)
	s.Rule(room.X, c.Room.Y, room.W, 500*unit.UM)
	return c.Used() + 500*unit.UM
}
