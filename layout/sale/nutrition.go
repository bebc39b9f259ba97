package sale

import (
	"slices"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// slack keeps words that just go into their column on one line, whatever the
// rounding of their width.
const slack = 20 * unit.UM

// ruled is the nutrition declaration as a table: lines above and below it, its
// rows, and the widths that they ask for.
type ruled struct {
	above, below []string
	heads        bool // the first row is of heads
	rows         []words.Row
	names        unit.Length   // width of the column of names
	figures      []unit.Length // widths of the columns of figures
}

// ruled is as wide as its words need. The names of all languages stand in one
// row; the figures are the same for all and follow the first. A single column
// of figures has its head in the heading.
func (l *layout) ruled(room unit.Length) ruled {
	f := l.paper.Faces.Regular
	t := ruled{above: []string{l.heading(" ")}, rows: l.rowsOf(), figures: make([]unit.Length, len(l.Told[0].Table.Heads))}
	if t.heads = len(t.figures) > 1; t.heads {
		t.above, t.below = l.around()
		t.rows = append([]words.Row{{Cells: l.heads()}}, t.rows...)
	}
	for n, r := range t.rows {
		if l.spans(r) {
			continue
		}
		t.names = max(t.names, l.indent(r)+f.Width(r.Name, l.size))
		for i, v := range r.Cells {
			if t.heads && n == 0 {
				v = "" // heads may break, but no word of theirs
				for _, word := range strings.Fields(strings.ReplaceAll(r.Cells[i], "\u00a0", "_")) {
					t.figures[i] = max(t.figures[i], f.Width(word, l.size)*21/20)
				}
			}
			t.figures[i] = max(t.figures[i], f.Width(v, l.size))
		}
	}
	if t.heads {
		l.widen(t.figures, t.rows[0].Cells, room-t.names-slack-t.right(l.gap()))
	}
	right := t.right(l.gap())
	t.names = max(t.names, l.paper.Faces.Bold.Width(t.above[0], l.size)-right+slack) + slack
	t.names = min(t.names, room-right)
	return t
}

// right is the width of the figures, each with the gap before it.
func (t ruled) right(gap unit.Length) unit.Length {
	sum := unit.Length(0)
	for _, w := range t.figures {
		sum += gap + w + slack
	}
	return sum
}

// widen lets the heads of columns run on fewer lines, as far as there is room.
func (l *layout) widen(wide []unit.Length, heads []string, spare unit.Length) {
	for i, head := range heads {
		more := min(l.paper.Faces.Regular.Width(head, l.size)*11/20-wide[i], spare)
		if more > 0 {
			wide[i], spare = wide[i]+more, spare-more
		}
	}
}

// indent is how far the name of a row is moved in.
func (l *layout) indent(r words.Row) unit.Length {
	if r.Sub {
		return l.size / 2
	}
	return 0
}

// nutrition sets the declaration as a table and returns its width and height.
func (l *layout) nutrition(s *compose.Setter, room page.Rect) (w, h unit.Length) {
	t := l.ruled(room.W)
	room.W = t.names + t.right(l.gap())
	c := s.Column(room)
	if l.grid == quarter && l.several() { // a smaller size rather than a heading that breaks within a language
		for _, part := range strings.Split(t.above[0], " / ") {
			c.Must(c.Faces.Bold.Width(part, l.size), room.W, l.Pack.Nutrition.Pos)
		}
	}
	for i, line := range t.above {
		c.Put(l.tongues(c.Setter, c.Room, line, i == 0), l.tabled())
	}
	c.Down(l.size / 8) // the rule keeps off the letters that reach below their line
	l.figures(c, t)
	for _, line := range t.below {
		c.Put(l.cell(line, false), l.tabled())
	}
	return room.W, c.Used()
}

// figures sets the rows under a rule.
func (l *layout) figures(c *compose.Column, t ruled) {
	const thick = 150 * unit.UM
	table := compose.Table{Gap: l.gap(), Cols: []compose.Col{{W: t.names}}}
	for _, w := range t.figures {
		table.Cols = append(table.Cols, compose.Col{W: w + slack})
	}
	c.Rule(c.Room.X, c.Room.Y, c.Room.W, thick)
	c.Down(c.Thick(thick))
	for _, r := range t.rows {
		table := table
		if l.spans(r) {
			w := c.Faces.Regular.Width(r.Cells[0], l.size) + slack
			table.Cols = []compose.Col{{W: c.Room.W - w - table.Gap}, {W: w}}
		}
		cells := []compose.Cell{func(s *compose.Setter, col page.Rect) unit.Length {
			col = right(col, l.indent(r))
			return s.Para(col, l.tongues(s, col, r.Name, false), l.tabled())
		}}
		for _, v := range r.Cells {
			st := l.tabled()
			st.Align = flow.Right
			cells = append(cells, compose.Words(l.cell(v, false), st))
		}
		c.Down(table.Row(c.Setter, c.Room, cells...))
	}
}

func (l *layout) cell(s string, bold bool) text.Para {
	if bold {
		return flow.Strong(role.Nutrition, l.Pack.Nutrition.Pos, s)
	}
	return flow.Words(role.Nutrition, l.Pack.Nutrition.Pos, s)
}

// tongues is words in several languages with a stroke between them. Where they
// take more than one line, a line ends at a stroke rather than within the words
// of a language, if that takes no more of them.
func (l *layout) tongues(s *compose.Setter, r page.Rect, said string, bold bool) text.Para {
	all := strings.Split(said, " / ")
	plain := l.cell(said, bold)
	if len(all) < 2 || s.Faces.Of(bold).Width(said, l.size) <= r.W {
		return plain
	}
	for i := range all {
		all[i] = strings.ReplaceAll(all[i], " ", compose.NoBreak)
	}
	whole := l.cell(strings.Join(all, " / "), bold)
	a, b := s.Fresh(), s.Fresh()
	if high := a.Para(r, whole, l.tabled()); a.Err() != nil || high > b.Para(r, plain, l.tabled()) {
		return plain
	}
	return whole
}

// tabled is the style of words in the table.
func (l *layout) tabled() flow.Style { return l.fact(l.size) }

// fact is the style of what stands in short lines, in the table and beside it. It
// hardly wraps, so in the shop's look it stands closer than lines do, on whole
// dots.
func (l *layout) fact(size unit.Length) flow.Style {
	st := l.style(size)
	if dot := l.Dots.At(1); l.left.name > 0 && dot > 0 {
		st.Leading, st.Grid = (size*102/100+dot-1)/dot*dot, dot
	}
	return st
}

// rowsOf are the rows of the table: kJ and kcal under each other, so that the
// column of figures is narrow, but on one line in the shop's look.
func (l *layout) rowsOf() []words.Row {
	all := rows(l.Told)
	if l.left.name == 0 || len(l.Told[0].Table.Heads) > 1 {
		return all
	}
	var out []words.Row
	for _, r := range all {
		if r.Name != "" || len(out) == 0 {
			out = append(out, r)
			continue
		}
		last := &out[len(out)-1]
		last.Cells = slices.Clone(last.Cells)
		for i, v := range r.Cells {
			if v != "" {
				last.Cells[i] += " / " + v
			}
		}
	}
	return out
}

// spans reports whether a row takes the room of its columns as it needs it: one
// with two figures.
func (l *layout) spans(r words.Row) bool {
	return l.left.name > 0 && len(r.Cells) == 1 && strings.Contains(r.Cells[0], " / ")
}
