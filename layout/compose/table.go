package compose

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// Table is columns side by side, Gap between them. It sets one row at a time,
// so that rows can be dealt out to pages, and its heads again on each.
type Table struct {
	Cols []Col
	Gap  unit.Length
}

// Col is a column. It is as wide as W; with a Share it takes its part of what
// the others leave of the table.
type Col struct {
	Head  string
	W     unit.Length
	Share int64
	Align flow.Align // of the head
}

// Cell sets what stands in a column from its top and returns its height.
type Cell func(s *Setter, col page.Rect) unit.Length

// Columns is the place of each column in r.
func (t Table) Columns(r page.Rect) []page.Rect {
	rest, shares := r.W-t.Gap*unit.Length(len(t.Cols)-1), int64(0)
	for _, c := range t.Cols {
		if shares += c.Share; c.Share == 0 {
			rest -= c.W
		}
	}
	out, x := make([]page.Rect, len(t.Cols)), r.X
	for i, c := range t.Cols {
		w := c.W
		if c.Share > 0 {
			w = rest.Mul(c.Share, shares)
		}
		out[i] = page.Rect{X: x, Y: r.Y, W: w, H: r.H}
		x += w + t.Gap
	}
	return out
}

// Row sets cells into the columns from the left and returns the height of the
// highest. A nil cell, and one that is not there, leaves its column empty.
func (t Table) Row(s *Setter, r page.Rect, cells ...Cell) unit.Length {
	high := unit.Length(0)
	for i, col := range t.Columns(r) {
		if i < len(cells) && cells[i] != nil {
			high = max(high, cells[i](s, col))
		}
	}
	return high
}

// Heads sets the heads of the columns and returns their height; para makes a
// paragraph of the words of one.
func (t Table) Heads(s *Setter, r page.Rect, size unit.Length, para func(string) text.Para) unit.Length {
	var cells []Cell
	for _, c := range t.Cols {
		cells = append(cells, Words(para(c.Head), flow.Style{Size: size, Align: c.Align}))
	}
	return t.Row(s, r, cells...)
}

// Words is a cell with a paragraph.
func Words(q text.Para, st flow.Style) Cell {
	return func(s *Setter, col page.Rect) unit.Length {
		c := s.Column(col)
		if len(q.Spans) > 0 && q.Spans[0].Text != "" || len(q.Spans) > 1 {
			c.Put(q, st)
		}
		return c.Used()
	}
}

// Under is a cell of several, one under the other.
func Under(cells ...Cell) Cell {
	return func(s *Setter, col page.Rect) unit.Length {
		used := unit.Length(0)
		for _, c := range cells {
			used += c(s, col.Below(used))
		}
		return used
	}
}

// TickCell is a cell with a box to tick, down below the top of the row.
func TickCell(side, down unit.Length) Cell {
	return func(s *Setter, col page.Rect) unit.Length {
		s.TickBox(col.X, col.Y+down, side)
		return down + side
	}
}

// Blank is a cell with a line to write on, and what is to be written set small
// below it.
func Blank(q text.Para, thick, gap unit.Length, st flow.Style) Cell {
	return func(s *Setter, col page.Rect) unit.Length {
		s.Rule(col.X, col.Y, col.W, thick)
		return gap + s.Para(col.Below(gap), q, st)
	}
}

// Widest is how wide the widest of words is in one face.
func (s *Setter) Widest(bold bool, size unit.Length, words ...string) unit.Length {
	w := unit.Length(0)
	for _, q := range words {
		w = max(w, s.Faces.Of(bold).Width(q, size))
	}
	return w
}
