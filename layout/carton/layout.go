package carton

import (
	"errors"
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// Least heights of capitals: 3 mm for all text of a logistic label (GS1
// Sweden, rules for the logistic label). Its figures are 7 mm high where there
// is room (GGS 6.6.4.2: should), which is 14 sixths of that.
const (
	leastText = 3 * unit.MM
	mostText  = 4 * unit.MM
)

const (
	gutter = 6 * unit.MM // white between two columns
	thin   = 300 * unit.UM
)

// layout is where things stand in one arrangement at one size.
type layout struct {
	*run
	coding
	body, data, key unit.Length // sizes of words, of figures that are read from a distance, and of the numbers of GS1
	cols            arrangement
	of6             sizes     // of data and key, in sixths of body
	mark            page.Rect // the emblem; empty for none
	items           []page.Item
	spot            spot   // of "carton n of m", which is centred
	sscc            spot   // of the SSCC in the text, which begins there
	at              corner // of the matrix
}

// spot is where words of one carton stand.
type spot struct{ x, base, size unit.Length }

// corner is where a symbol begins.
type corner struct{ x, y unit.Length }

// section sets one part of the text from the top of r and returns its height;
// 0 for nothing.
type section func(l *layout, s *compose.Setter, r page.Rect) unit.Length

// column is a part of the label and what stands in it.
type column struct {
	room     page.Rect
	sections []section
}

// arrangement is one column; or one over two.
type arrangement []column

// sizes of figures and of the numbers of GS1, in sixths of the words.
type sizes struct{ data, key int64 }

// steps are the sizes to try, the best first: all figures 7 mm high (GGS 6.6.4.2:
// should); then the figures 5 mm and the numbers as words; then smaller ones.
func steps() [][]sizes {
	return [][]sizes{{{14, 14}}, {{14, 6}, {12, 6}, {10, 6}}, {{8, 6}, {6, 6}}}
}

// best is the text over the bars in the largest letters that fit: the figures
// as near to 7 mm as can be, then the words as large as that leaves room for.
// At each step the GS1-128 that hold all come first, then those with a matrix.
// It returns nil when nothing fits.
func (c *run) best() *layout {
	bars, matrix := c.codings()
	for _, step := range steps() {
		for _, k := range slices.Concat(bars, matrix) {
			if l := c.with(k, step); l != nil {
				return l
			}
		}
	}
	return nil
}

// with is the text over bars of one coding, in the largest of some sizes that
// fits; nil when none does.
func (c *run) with(k coding, step []sizes) *layout {
	room := c.paper.Room()
	high := room.H
	if room.H = k.stack.Top() - room.Y; room.H <= 0 {
		c.missed(&flow.Overflow{Need: high - k.stack.Top(), Have: high, Src: c.carton.Paper.Pos})
		return nil
	}
	f := c.paper.Faces.Bold
	for _, cols := range arrangements(room, c.mixed()) {
		for _, of := range step {
			l, _, err := compose.Best(f.SizeForCap(leastText), f.SizeForCap(mostText), 10, func(size unit.Length) (*layout, error) {
				return c.try(k, cols, size, of)
			})
			if err == nil {
				return l
			}
			c.missed(err)
		}
	}
	return nil
}

// missed remembers why a try did not fit; of several reasons the one that is
// nearest to fitting.
func (c *run) missed(err error) {
	var now, before *flow.Overflow
	if c.last == nil || errors.As(err, &now) && (!errors.As(c.last, &before) || now.Need-now.Have < before.Need-before.Have) {
		c.last = err
	}
}

// arrangements to try: below each other, and side by side, which comes first
// where the room is wide.
func arrangements(room page.Rect, mixed bool) []arrangement {
	if mixed {
		return []arrangement{{{room, []section{head, consignee, inside, date, keep, weights}}}}
	}
	stacked := arrangement{{room, []section{head, consignee, name, contents, date, keep, allergens, weights}}}
	left, right := room, room
	left.W = (room.W - gutter) / 2
	right.W = room.W - gutter - left.W
	right.X = room.Right() - right.W
	beside := []arrangement{
		{{room, []section{head, consignee}}, {left, []section{name, contents, date}}, {right, []section{keep, allergens, weights}}},
		{{room, []section{head, consignee}}, {left, []section{name, contents, date, weights}}, {right, []section{keep, allergens}}},
	}
	if room.W > 2*room.H {
		return append(beside, stacked)
	}
	return append([]arrangement{stacked}, beside...)
}

// try sets all columns, the numbers of GS1 below them, and the bars below those,
// at one size.
func (c *run) try(k coding, cols arrangement, body unit.Length, of sizes) (*layout, error) {
	l, s := &layout{run: c, coding: k, cols: cols, of6: of, body: body, data: body.Mul(of.data, 6), key: body.Mul(of.key, 6)}, c.paper.Setter()
	room := cols[0].room
	foot := l.foot(s, room)
	first := cols[0]
	first.room.H -= foot
	used := l.column(s, first)
	l.spot.x, l.spot.base = l.spot.x+room.X, l.spot.base+room.Y // the head stands first
	if len(cols) > 1 {
		l.divide(s, room.X, room.Y+used+body/2, room.W)
		for _, col := range cols[1:] {
			col.room.H -= foot
			col.room = col.room.Below(used + body)
			l.column(s, col)
		}
		under := room.Below(used + body)
		s.Upright(cols[2].room.X-gutter/2, under.Y, under.H-foot, thin)
	}
	if l.mark.W > 0 {
		l.Look.Mark(s, l.paper, l.mark)
	}
	l.stack.Shared(s)
	if l.shared() {
		l.matrix.Put(s, l.at.x, l.at.y, "")
	}
	l.items = s.Items
	return l, s.Err()
}

// shared reports whether the matrix is the same on all cartons.
func (l *layout) shared() bool { return len(l.SSCCs) == 0 }

// column sets sections under each other with rules between them; what room is
// left goes between them too, up to 3 mm each. It returns the height used.
func (l *layout) column(s *compose.Setter, col column) unit.Length {
	var blocks []flow.Block
	for _, set := range col.sections {
		b := s.Block(col.room.W, func(s *compose.Setter, r page.Rect) unit.Length { return set(l, s, r) })
		if b.H > 0 {
			blocks = append(blocks, b)
		}
	}
	gap, y := l.gap(s, blocks, col.room.H), col.room.Y
	for i, b := range blocks {
		if i > 0 {
			l.divide(s, col.room.X, y+gap/2, col.room.W)
			y += gap
		}
		s.Add(b.Items, col.room.X, y)
		y += b.H
	}
	return y - col.room.Y
}

// gap is the white between two sections of a column.
func (l *layout) gap(s *compose.Setter, blocks []flow.Block, high unit.Length) unit.Length {
	gaps := unit.Length(len(blocks) - 1)
	least := l.body / 3
	need := least * gaps
	for _, b := range blocks {
		need += b.H
	}
	s.Must(need, high, l.carton.Paper.Pos)
	if gaps <= 0 {
		return least
	}
	return least + min((high-need)/gaps, 3*unit.MM)
}

// own sets the marks of carton n, counted from 0.
func (l *layout) own(s *compose.Setter, n int) {
	q := flow.Strong(role.Serial, l.Numbered, l.of[n])
	s.Line(l.spot.x, l.spot.base, q, flow.Style{Size: l.spot.size, Align: flow.Centre})
	if l.shared() {
		return
	}
	l.stack.Own(s, l.SSCCs[n], l.Numbered)
	s.Line(l.sscc.x, l.sscc.base, flow.Strong(role.Key, l.Numbered, l.SSCCs[n]), flow.Style{Size: l.sscc.size})
	l.matrix.Put(s, l.at.x, l.at.y, l.SSCCs[n])
}
