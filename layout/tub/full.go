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

// whole sets a label with room for everything: from the top name and mass, the
// last day of use in a frame beside the other facts, the allergens; from the
// bottom what is ticked and written by hand.
func (z setting) whole(c *compose.Column) {
	z.title(c)
	z.Rule(c.Room.X, c.Room.Y, c.Room.W, line)
	c.Down(line + gap)
	z.days(c)
	c.Down(gap)
	z.allergens(c)
	foot := z.fresh()
	high := foot.foot(page.Rect{X: c.Room.X, W: c.Room.W, H: c.Room.H})
	z.Fail(foot.Err())
	z.must(high+gap, c.Room.H)
	z.Take(foot.Setter, 0, z.Dots.Snap(c.Room.Bottom()-high))
}

// title sets the names, and the mass and the tub's number at the right.
func (z setting) title(c *compose.Column) {
	wide, low := z.corner(c.Room)
	side := c.Room
	side.W -= wide
	names := z.Column(side)
	z.naming(names, soft)
	c.Down(max(names.Used(), low-c.Room.Y) + gap/2)
}

// corner sets the mass, or a line to write it on, and under it which of the
// tubs this is; it returns how wide that is with its gap, and where it ends.
func (z setting) corner(room page.Rect) (wide, low unit.Length) {
	base := room.Y + z.up(z.z.name)
	small := flow.Style{Size: z.z.small, Align: flow.Right}
	low = room.Y + z.lead(z.z.name)
	if len(z.mass.Spans) == 0 {
		z.Line(room.Right(), base, z.note("g"), small)
		wide = blank + z.Widest(false, small.Size, "g ")
		z.Rule(room.Right()-wide, base, blank, hair)
	} else {
		z.Line(room.Right(), base, z.mass, flow.Style{Size: z.z.key, Align: flow.Right})
		wide = z.Widest(true, z.z.key, z.mass.Spans[0].Text)
	}
	if z.tubs == "" {
		return wide + 2*gap, low
	}
	up, high := z.level(bit{z.tubs, false, small.Size})
	z.Line(room.Right(), low+up, z.note(z.tubs), small)
	return max(wide, z.Widest(false, small.Size, z.tubs)) + 2*gap, low + high
}

// blank is the least length of a line to write on, over that the height it
// takes for a hand (common practice, no source).
const (
	blank     = 14 * unit.MM
	blankHigh = 6 * unit.MM
)

// days sets the last day of use in a frame, and right of it when the tub was
// made, its batch, and how it is kept.
func (z setting) days(c *compose.Column) {
	left, right := c.Room, c.Room
	words, wide := z.until(c.Room.W * 2 / 5)
	left.W = wide
	right.X, right.W = left.Right()+2*gap, c.Room.W-left.W-2*gap
	facts, end := z.fresh(), z.fresh()
	tall := gap/2 + facts.facts(right.Below(gap/2))
	edge := gap + line
	in := end.Column(left.Inset(edge))
	end.put(in, z.note(words), flow.Style{Size: z.z.small})
	end.put(in, flow.Strong(role.Date, z.formula.Keep.Life.Pos, z.useBy), flow.Style{Size: min(z.z.date, z.widest(in.Room.W))})
	used := in.Used() + 2*edge
	left.H = max(used, tall) // as high as what stands beside it
	z.Fail(facts.Err())
	z.Frame(left, line)
	z.Take(end.Setter, 0, (left.H-used)/2)
	z.Take(facts.Setter, 0, 0)
	c.Down(left.H)
}

// until gives the words in the frame, in lines of their own where they are too
// long for one, and how wide the frame must be, at most most.
func (z setting) until(most unit.Length) (words string, wide unit.Length) {
	const edge = 2*gap + 2*line
	words = z.word["tub.use-by"]
	if z.Widest(false, z.z.small, words)+edge > most {
		words = strings.ReplaceAll(words, " · ", "\n")
	}
	wide = z.Widest(false, z.z.small, strings.Split(words, "\n")...)
	return words, min(max(wide, z.Widest(true, z.z.date, z.useBy))+edge, most)
}

// widest is the largest size at which the last day of use fits a width.
func (z setting) widest(w unit.Length) unit.Length {
	const probe = 10 * unit.MM
	return text.Whole(probe.Mul(int64(w), int64(z.Widest(true, probe, z.useBy))+1))
}

// facts sets a line each for the day made, the batch, and how it is kept.
func (z setting) facts(room page.Rect) unit.Length {
	c := z.Column(room)
	for _, f := range []struct {
		label string
		value text.Para
	}{
		{"tub.made", z.strong(role.Date, z.made)},
		{"card.batch", z.strong(role.Batch, z.batch)},
		{"card.keep", z.keep},
	} {
		up, high := z.level(bit{z.word[f.label], false, z.z.small}, bit{f.value.Spans[0].Text, true, z.z.key})
		base, x := c.Room.Y+up, room.X
		if f.label != "card.keep" || z.labelled(room.W) {
			x = z.Line(x, base, z.note(z.word[f.label]), flow.Style{Size: z.z.small}).Right() + gap
		}
		x = z.Line(x, base, f.value, flow.Style{Size: z.z.key}).Right()
		z.must(x, room.Right())
		if f.label == "tub.made" {
			z.time(x+gap, base, room.Right())
		}
		c.Down(high)
	}
	return c.Used()
}

// labelled reports whether the temperature has room for its word in front; by
// itself it says as much.
func (z setting) labelled(w unit.Length) bool {
	return z.Widest(false, z.z.small, z.word["card.keep"])+gap+z.Width(z.keep, z.z.key) <= w
}

// time sets two short lines with a colon for the time of day.
func (z setting) time(x, base, right unit.Length) {
	colon := z.Widest(true, z.z.key, ":")
	part := (right - x - colon) / 2
	z.must(blank/3, part)
	z.Rule(x, base, part, hair)
	z.Line(x+part, base, z.strong(role.Date, ":"), flow.Style{Size: z.z.key})
	z.Rule(right-part, base, part, hair)
}
