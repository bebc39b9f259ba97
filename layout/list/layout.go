package list

import (
	"chablon/labels/diag"
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
	List
	size, large unit.Length
	width       unit.Length    // between the margins
	table       compose.Table  // a box to tick, and the columns of the list
	figs, thin  []flow.Figures // of the strong and of the plain amounts of a column
	parts       unit.Length    // width of the weights in cells
}

// layout sets a list with words of the given size, behind the pages of another
// list.
func (l List) layout(paper *compose.Paper, size unit.Length, behind, of int) ([]*page.Page, error) {
	s := paper.Setter()
	z := &setting{List: l, size: size, large: size.Mul(6, 5), width: paper.Room().W}
	z.measure(s)
	blocks := z.blocks(s)
	if s.Err() != nil {
		return nil, s.Err()
	}
	return compose.Pages{Paper: paper, Gap: gap, Head: z.header, Again: z.repeat, Behind: behind, Of: of}.Deal(blocks)
}

// blocks are the rows of a list, and at the end who signs and its foot, which do
// not stand alone on a page.
func (z *setting) blocks(s *compose.Setter) []flow.Block {
	var out []flow.Block
	for _, r := range z.Rows {
		out = append(out, z.block(s, r))
	}
	end := []func(*compose.Setter, page.Rect) unit.Length{}
	if len(z.Sign) > 0 {
		end = append(end, z.sign)
	}
	if z.Foot != "" {
		end = append(end, func(s *compose.Setter, room page.Rect) unit.Length {
			return s.Para(room, flow.Words(role.Note, z.at, z.Foot), flow.Style{Size: z.size})
		})
	}
	for _, set := range end {
		out[len(out)-1].Tied = true
		out = append(out, s.Block(z.width, set))
	}
	return out
}

func (z *setting) block(s *compose.Setter, r Row) flow.Block {
	b := s.Block(z.width, func(s *compose.Setter, room page.Rect) unit.Length { return z.row(s, room, r) })
	b.Tied, b.Src = r.Head != "" || r.Tied, r.Src
	return b
}

// repeat is the heading that holds for the row at the top of a further page;
// none where that is a heading itself, or the foot.
func (z *setting) repeat(s *compose.Setter, at int) []flow.Block {
	if at >= len(z.Rows) || z.Rows[at].Head != "" {
		return nil
	}
	for i := at - 1; i >= 0; i-- {
		if head := z.Rows[i].Head; head != "" {
			return []flow.Block{z.block(s, Row{Head: z.again(head)})}
		}
	}
	return nil
}

// header sets what stands at the top of each page: title, day and page, what to
// do, and the heads of the columns.
func (z *setting) header(s *compose.Setter, room page.Rect, n, of int) unit.Length {
	c := s.Column(room)
	c.Down(z.title(s, room, z.Shop+"\n"+z.page(n, of)) + unit.MM)
	c.Put(flow.Words(role.Note, z.at, z.Lead), flow.Style{Size: z.size})
	c.Down(2 * unit.MM)
	c.Down(z.table.Heads(s, c.Room, z.size, z.strong) + unit.MM/2)
	s.Rule(room.X, c.Room.Y, room.W, 500*unit.UM)
	return c.Used() + 500*unit.UM
}

// title sets the title with the name of the shop and the page beside it, or,
// where the title is long, below it.
func (z *setting) title(s *compose.Setter, room page.Rect, about string) unit.Length {
	size, f := z.size.Mul(2, 1), s.Faces.Bold
	title, shop := flow.Strong(role.Note, z.at, z.Title), compose.Long(role.Note, z.at, about, true)
	right := flow.Style{Size: z.size, Align: flow.Right}
	w := s.Width(title, size) + 2*between
	if room.W-w < room.W/5 {
		low := s.Para(room, title, flow.Style{Size: size})
		return low + s.Para(room.Below(low), shop, right)
	}
	base := room.Y + f.Ascent(size)
	s.Line(room.X, base, title, flow.Style{Size: size})
	low := s.Para(page.Rect{X: room.X + w, Y: room.Y, W: room.W - w, H: room.H}, shop, right)
	return max(base+f.Descent(size)-room.Y, low)
}

// sign sets lines to write on, and under each what is to be written.
func (z *setting) sign(s *compose.Setter, room page.Rect) unit.Length {
	return z.lines(s, room, z.Sign)
}

// lines sets lines to write on beside each other.
func (z *setting) lines(s *compose.Setter, room page.Rect, under []string) unit.Length {
	lines := compose.Table{Gap: between}
	var cells []compose.Cell
	for _, words := range under {
		lines.Cols = append(lines.Cols, compose.Col{Share: 1})
		cells = append(cells, compose.Blank(flow.Words(role.Note, diag.Pos{}, words), 200*unit.UM, unit.MM, flow.Style{Size: z.size}))
	}
	return high + unit.MM + lines.Row(s, room.Below(high+unit.MM), cells...)
}
