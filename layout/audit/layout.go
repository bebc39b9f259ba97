package audit

import (
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

const (
	side   = 14 * unit.MM // margin left and right
	edge   = 12 * unit.MM // margin above and below
	hair   = 80 * unit.UM
	line   = 250 * unit.UM
	pad    = 600 * unit.UM  // above and below the words of a row
	apart  = 5 * unit.MM    // between sections
	lift   = 1200 * unit.UM // between a title and its table
	footer = 9 * unit.MM    // height of the foot
)

// setting is a sheet being set. Its sizes are fixed: it is read at a desk, at
// 0.4 m, where 1/200 of the distance is a capital of 2 mm (8 pt); places in
// files are smaller.
type setting struct {
	sheet
	w                         unit.Length // between the margins
	small, size, large, title unit.Length
	again                     []section // of each block, the section that it goes on with
}

// layout sets the sheet on as many pages as it needs.
func layout(paper *compose.Paper, c sheet) ([]*page.Page, error) {
	area := page.Rect{X: paper.Dots.Snap(side), Y: edge, W: paper.Stock.Width.V - 2*side, H: paper.Stock.Height.V - 2*edge}
	z := &setting{sheet: c, w: area.W, small: text.Hundredths(700), size: text.Hundredths(850), large: text.Hundredths(1150), title: text.Hundredths(2000)}
	s := paper.Setter()
	var blocks []flow.Block
	for _, x := range c.sections {
		blocks = append(blocks, z.section(s, x)...)
	}
	if s.Err() != nil {
		return nil, s.Err()
	}
	return compose.Pages{Paper: paper, Area: area, Head: z.header, Foot: z.foot, Again: z.continued}.Deal(blocks)
}

// section is a title, the heads of the columns, and the rows, of which the
// first stays with both.
func (z *setting) section(s *compose.Setter, x section) []flow.Block {
	out := []flow.Block{z.heading(s, x.title, x.note), z.heads(s, x.cols)}
	out[0].Above, out[0].Tied, out[1].Tied = apart, true, true
	z.again = append(z.again, section{}, section{}, section{})
	for i, r := range x.rows {
		out = append(out, z.row(s, x.cols, r))
		if i > 0 {
			z.again = append(z.again, x)
		}
	}
	return z.close(s, out)
}

// close lets blocks begin on the nearest dot of the printer, not on the next
// one below: many rows then take no more room than they need.
func (z *setting) close(s *compose.Setter, blocks []flow.Block) []flow.Block {
	for i := range blocks {
		blocks[i].Src = z.at
		blocks[i].H -= s.Dots.At(1) / 2
	}
	return blocks
}

// continued says the title and the heads of the columns again where the rows of
// a section go on to another page.
func (z *setting) continued(s *compose.Setter, at int) []flow.Block {
	x := z.again[at]
	if len(x.rows) == 0 {
		return nil
	}
	out := []flow.Block{z.heading(s, z.more(x.title), ""), z.heads(s, x.cols)}
	out[0].Tied, out[1].Tied = true, true
	return z.close(s, out)
}

func (z *setting) style() flow.Style { return flow.Style{Size: z.size} }

// header sets the head of a page: large on the first, one line on the others.
func (z *setting) header(s *compose.Setter, r page.Rect, n, _ int) unit.Length {
	state := bold(z.state).Para
	right := z.style()
	right.Align = flow.Right
	wide := s.Width(state, z.size)
	s.Line(r.Right(), r.Y+s.Faces.Bold.Ascent(z.size), state, right)
	first, white := z.sheet.title, apart
	if n > 1 {
		first, white = z.running, apart/2
	}
	c := s.Column(r)
	c.Down(s.Para(page.Rect{X: r.X, Y: r.Y, W: r.W - wide - gutter, H: r.H}, plain(first).Para, z.style()))
	if n == 1 {
		c.Put(bold(z.name).Para, flow.Style{Size: z.title})
		three := table([]col{{width: 52}, {width: 52}, {width: 0}}, z.w)
		for i := 0; i < len(z.about); i += 3 {
			var cells []compose.Cell
			for _, q := range z.about[i : i+3] {
				cells = append(cells, compose.Words(q, z.style()))
			}
			c.Down(three.Row(s, c.Room, cells...))
		}
	}
	s.Rule(r.X, c.Room.Y+pad, r.W, line)
	return c.Used() + 2*pad + white
}

// foot sets the caution and the number of the page.
func (z *setting) foot(s *compose.Setter, r page.Rect, n, of int) unit.Length {
	c := s.Column(r)
	c.Down(lift)
	s.Rule(r.X, c.Room.Y, r.W, hair)
	c.Down(pad)
	number := plain(z.page(n, of)).Para
	s.Line(r.Right(), c.Room.Y+s.Faces.Regular.Ascent(z.small), number, flow.Style{Size: z.small, Align: flow.Right})
	c.Room.W -= s.Width(number, z.small) + 2*gutter
	c.Put(plain(z.caution).Para, flow.Style{Size: z.small})
	return footer
}

// heading sets the title of a section over a line, and its note.
func (z *setting) heading(s *compose.Setter, title, note string) flow.Block {
	return s.Block(z.w, func(s *compose.Setter, r page.Rect) unit.Length {
		c := s.Column(r)
		c.Put(bold(title).Para, flow.Style{Size: z.large})
		if note == "" {
			return c.Used() + lift/2
		}
		c.Put(plain(note).Para, flow.Style{Size: z.size, Leading: z.size * 6 / 5})
		return c.Used() + lift
	})
}
