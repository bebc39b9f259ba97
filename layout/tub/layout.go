package tub

import (
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// setting is a label being set, with letters of certain sizes and more or less
// white.
type setting struct {
	*compose.Setter
	*label
	z     sizes
	white white
}

// white says how much of it a label has.
type white int

const (
	joined white = iota // both languages in the same lines
	tight               // lines close to each other
	roomy
)

const (
	hair = 200 * unit.UM // thin rules
	line = 500 * unit.UM // frames
	gap  = unit.MM       // between blocks
	soft = 70            // grey of the second language: 9.6 to 1 on white
)

// layout sets the label at the largest size that fits, with more or with less
// white: everything, or on a small label what matters most.
func layout(paper *compose.Paper, c *label) (items []page.Item, err error) {
	least, room := leastAt(paper.Stock, paper.Faces), paper.Room()
	for _, w := range []white{roomy, tight, joined} {
		items, _, err = compose.Best(least.key, least.key.Mul(mostName, 10), 20, func(name unit.Length) ([]page.Item, error) {
			z := setting{paper.Setter(), c, least.grown(name), w}
			if room.W < full {
				z.small(z.Column(room))
			} else {
				z.whole(z.Column(room))
			}
			return z.Items, z.Err()
		})
		if err == nil {
			break
		}
	}
	return items, err
}

// fresh is an empty setting like z.
func (z setting) fresh() setting { z.Setter = z.Fresh(); return z }

// must remembers that need does not go into have.
func (z setting) must(need, have unit.Length) { z.Must(need, have, z.formula.Pos) }

// put sets a paragraph below what is in a column, its lines as close as the
// white allows.
func (z setting) put(c *compose.Column, q text.Para, st flow.Style) {
	st.Leading = z.lead(st.Size)
	c.Put(q, st)
}

// lead is a leading that saves room; accents still find theirs, because lines
// that would touch are moved apart.
func (z setting) lead(size unit.Length) unit.Length {
	if z.white < roomy {
		return size.Mul(104, 100)
	}
	return size.Mul(118, 100)
}

// up is where the baseline of a line of a size lies below its top, at the
// least.
func (z setting) up(size unit.Length) unit.Length { return z.First(z.lead(size), size) }

// bit is words in one face on a line with others.
type bit struct {
	words string
	bold  bool
	size  unit.Length
}

// level gives where the baseline of a line with all these bits lies below its
// top, and how high the line is, so that none of them reaches beyond it.
func (z setting) level(bits ...bit) (up, high unit.Length) {
	var low unit.Length
	for _, b := range bits {
		ink, below := z.Faces.Of(b.bold).Ink(b.words, b.size)
		up, low = max(up, z.up(b.size), ink), max(low, z.lead(b.size)-z.up(b.size), below)
	}
	return up, up + low
}

func (z setting) note(words string) text.Para { return flow.Words(role.Note, z.formula.Pos, words) }

func (z setting) strong(role role.Role, words string) text.Para {
	return flow.Strong(role, z.formula.Pos, words)
}

// naming sets the names, those of the second language small and so grey.
func (z setting) naming(c *compose.Column, gray uint8) {
	for i, q := range z.names {
		st := flow.Style{Size: z.z.name}
		if i > 0 {
			st = flow.Style{Size: z.z.small, Gray: gray}
		}
		z.put(c, q, st)
	}
}

// allergens sets what is in the tub, what nobody knows, and what may be in it.
// That no allergen is known is said only where all that is in it is known.
func (z setting) allergens(c *compose.Column) {
	key, small := flow.Style{Size: z.z.key}, flow.Style{Size: z.z.small}
	if len(z.contains)+len(z.unsure) == 0 {
		z.put(c, flow.Words(role.Allergens, z.formula.Pos, z.word["tub.no-allergens"]), key)
	}
	for _, q := range z.lines(z.contains) {
		z.put(c, q, key)
	}
	for _, q := range z.lines(z.unsure) {
		z.put(c, q, key)
	}
	for _, q := range z.lines(z.may) {
		z.put(c, q, small)
	}
}

// lines gives each language lines of its own, or, to save room, all the same.
func (z setting) lines(all []text.Para) []text.Para {
	if z.white > joined || len(all) < 2 {
		return all
	}
	one := all[0]
	one.Spans = append(append(one.Spans[:len(one.Spans):len(one.Spans)], text.Span{Text: " · "}), all[1].Spans...)
	return []text.Para{one}
}

// band sets the raw mark in white on black and returns its height.
func (z setting) band(room page.Rect) unit.Length {
	in := z.fresh()
	c := in.Column(page.Rect{X: room.X + gap, Y: room.Y + gap/2, W: room.W - 2*gap, H: room.H})
	in.put(c, z.strong(role.Statement, strings.Join(z.raw, " · ")), flow.Style{Size: z.z.key, Gray: 255, Align: flow.Centre})
	high := z.Dots.Snap(c.Used() + gap)
	z.Tint(page.Rect{X: room.X, Y: room.Y, W: room.W, H: high}, 0)
	z.Take(in.Setter, 0, 0)
	return high
}

// small sets what matters most on a small label: what it is, until when, made
// when and in which batch, whether it is raw, what is in it, and how cold it is
// kept. Nothing is ticked or written there.
func (z setting) small(c *compose.Column) {
	z.naming(c, 0)
	z.Rule(c.Room.X, c.Room.Y, c.Room.W, hair)
	c.Down(hair)
	z.pair(c, z.word["tub.use-by"], role.Date, z.useBy, z.z.date)
	if z.white < roomy {
		z.pair(c, z.word["tub.made"]+compose.NoBreak+z.made, role.Batch, z.batch, z.z.key)
	} else {
		z.pair(c, z.word["tub.made"], role.Date, z.made, z.z.key)
		z.pair(c, z.word["card.batch"], role.Batch, z.batch, z.z.key)
	}
	z.allergens(c)
	z.put(c, z.keep, flow.Style{Size: z.z.small})
	if len(z.raw) > 0 {
		z.must(z.band(c.Room), c.Room.H)
	}
}

// pair sets a word at the left and its value at the right of one line.
func (z setting) pair(c *compose.Column, word string, role role.Role, value string, size unit.Length) {
	room := c.Room
	up, high := z.level(bit{word, false, z.z.small}, bit{value, true, size})
	end := z.Line(room.X, room.Y+up, z.note(word), flow.Style{Size: z.z.small}).Right()
	z.Line(room.Right(), room.Y+up, z.strong(role, value), flow.Style{Size: size, Align: flow.Right})
	z.must(end+gap+z.Widest(true, size, value), room.Right())
	z.must(high, room.H)
	c.Down(high)
}
