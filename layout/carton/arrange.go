package carton

import (
	"errors"
	"slices"

	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// sizes are the sizes of the faces: body for words, data for the figures that
// are read from a distance.
type sizes struct{ body, data unit.Length }

// try is one arrangement that fits.
type try struct {
	pen  *flow.Pen
	spot spot
}

// spot is where "carton n of m" is centred.
type spot struct{ x, base, size unit.Length }

// section sets one part of the text into room from its top and returns the
// height used; 0 for nothing.
type section func(t *try, p *flow.Pen, room page.Rect, z sizes) (unit.Length, error)

// Least heights of capitals: 3 mm for all text of a logistic label (GS1
// Sweden, rules for the logistic label), 7 mm for its figures where there is
// room (GGS 6.6.4.2: should).
const (
	leastText = 3 * unit.MM
	wantData  = 7 * unit.MM
	mostText  = 4 * unit.MM
)

// best is the text over the bars in the largest letters that fit: the figures
// as near to 7 mm as can be, then the words as large as that leaves room for.
// The usual arrangement wins over another one as long as its figures are 5 mm
// high. It returns nil when nothing fits.
func (c *composer) best() *try {
	room := c.area
	room.H = c.top() - room.Y
	if room.H <= 0 {
		c.missed(&flow.Overflow{Need: c.area.H - c.top(), Have: c.area.H, Src: c.carton.Paper.Pos})
		return nil
	}
	for _, ratios := range [][]int64{{14, 12, 10}, {8, 6}} {
		for _, cols := range c.columns(room) {
			for _, sixths := range ratios {
				if t := c.largest(cols, sixths); t != nil {
					return t
				}
			}
		}
	}
	return nil
}

// column is a part of the label and what stands in it.
type column struct {
	room     page.Rect
	sections []section
}

// arrangement is one column; or one over two.
type arrangement []column

// columns lists the arrangements to try: below each other, and side by side
// first where the room is wide.
func (c *composer) columns(room page.Rect) []arrangement {
	stacked := arrangement{{room, []section{c.head, c.name, c.contents, c.date, c.keep, c.allergens, c.numbers}}}
	left, right := room, room
	left.W = (room.W - gutter) / 2
	right.W = room.W - gutter - left.W
	right.X = room.Right() - right.W
	beside := []arrangement{
		{{room, []section{c.head}}, {left, []section{c.name, c.contents, c.date}}, {right, []section{c.keep, c.allergens, c.numbers}}},
		{{room, []section{c.head}}, {left, []section{c.name, c.contents, c.date, c.numbers}}, {right, []section{c.keep, c.allergens}}},
	}
	if room.W > 2*room.H {
		return append(beside, stacked)
	}
	return append([]arrangement{stacked}, beside...)
}

// gutter is the white between two columns.
const gutter = 6 * unit.MM

// largest sets the text with figures of so many sixths of the size of words,
// as large as fits, or returns nil.
func (c *composer) largest(cols arrangement, sixths int64) *try {
	var best *try
	var at unit.Length
	f := c.faces.Bold
	flow.Largest(f.SizeForCap(leastText), f.SizeForCap(mostText), 10, func(size unit.Length) bool {
		t := &try{pen: c.pen()}
		if err := c.set(t, cols, sizes{size, size.Mul(sixths, 6)}); err != nil {
			c.missed(err)
			return false
		}
		if best == nil || size > at {
			best, at = t, size
		}
		return true
	})
	return best
}

// set sets all columns, and the bars below them.
func (c *composer) set(t *try, cols arrangement, z sizes) error {
	if len(cols) == 1 {
		if _, err := c.column(t, cols[0], z); err != nil {
			return err
		}
		return c.still(t.pen)
	}
	used, err := c.column(t, cols[0], z)
	if err != nil {
		return err
	}
	room := cols[0].room
	t.pen.Rule(room.X, room.Y+used+z.body/2-thin/2, room.W, thin)
	for _, col := range cols[1:] {
		col.room.Y, col.room.H = room.Y+used+z.body, room.H-used-z.body
		if _, err := c.column(t, col, z); err != nil {
			return err
		}
	}
	t.pen.Upright(cols[2].room.X-gutter/2, room.Y+used+z.body, room.H-used-z.body, thin)
	return c.still(t.pen)
}

const thin = 300 * unit.UM

// column sets sections under each other with rules between them; what room is
// left goes between them too, up to 3 mm each. It returns the height used.
func (c *composer) column(t *try, col column, z sizes) (unit.Length, error) {
	var blocks []flow.Block
	var spots []*spot
	for _, set := range col.sections {
		in := &try{}
		b, err := t.pen.Block(col.room.W, func(p *flow.Pen, r page.Rect) (unit.Length, error) { return set(in, p, r, z) })
		if err != nil {
			return 0, err
		}
		if b.H > 0 {
			blocks, spots = append(blocks, b), append(spots, &in.spot)
		}
	}
	gap, err := c.gap(blocks, col.room, z)
	if err != nil {
		return 0, err
	}
	y := col.room.Y
	for i, b := range blocks {
		if i > 0 {
			t.pen.Rule(col.room.X, y+gap/2-thin/2, col.room.W, thin)
			y += gap
		}
		t.pen.Add(b.Items, col.room.X, y)
		if s := *spots[i]; s.size > 0 {
			t.spot = spot{s.x + col.room.X, s.base + y, s.size}
		}
		y += b.H
	}
	return y - col.room.Y, nil
}

// gap is the white between two sections of a column.
func (c *composer) gap(blocks []flow.Block, room page.Rect, z sizes) (unit.Length, error) {
	gaps := unit.Length(len(blocks) - 1)
	least := z.body / 3
	need := least * gaps
	for _, b := range blocks {
		need += b.H
	}
	if need > room.H {
		return 0, &flow.Overflow{Need: need, Have: room.H, Src: c.carton.Paper.Pos}
	}
	if gaps == 0 {
		return least, nil
	}
	return least + min((room.H-need)/gaps, 3*unit.MM), nil
}

// missed remembers why a try did not fit; of several reasons the one that is
// nearest to fitting.
func (c *composer) missed(err error) {
	var now, before *flow.Overflow
	if c.last == nil || errors.As(err, &now) && (!errors.As(c.last, &before) || now.Need-now.Have < before.Need-before.Have) {
		c.last = err
	}
}

// below calls set for each part of a section, one under the other.
func below(room page.Rect, parts ...func(page.Rect) (unit.Length, error)) (unit.Length, error) {
	y := room.Y
	for _, set := range parts {
		used, err := set(page.Rect{X: room.X, Y: y, W: room.W, H: room.Bottom() - y})
		if err != nil {
			return 0, err
		}
		y += used
	}
	return y - room.Y, nil
}

// distinct are texts in their order, each once, none empty.
func distinct(texts []string) []string {
	var out []string
	for _, s := range texts {
		if s != "" && !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}
