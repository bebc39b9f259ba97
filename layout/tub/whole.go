package tub

import (
	"cmp"
	"slices"
	"strings"

	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// whole sets a label with room for everything: from the top name and mass, the
// last day of use in a frame beside the other facts, the allergens; from the
// bottom what is ticked and written by hand.
func (c *composer) whole(h *hand) {
	room := c.title(h, c.safe)
	h.Rule(room.X, room.Y, room.W, line)
	room = c.days(h, down(room, line+gap))
	room = c.allergens(h, down(room, gap))
	foot := h.inside(h.Fresh())
	high := c.foot(foot, page.Rect{X: room.X, W: room.W, H: room.H})
	if h.err = foot.err; h.err != nil {
		return
	}
	h.must(high+gap, room.H)
	h.Add(foot.Items, 0, h.Dots.Snap(room.Bottom()-high))
}

// title sets the names, and the mass and the tub's number at the right.
func (c *composer) title(h *hand, room page.Rect) page.Rect {
	wide, low := c.corner(h, room)
	side := page.Rect{X: room.X, Y: room.Y, W: room.W - wide, H: room.H}
	for i, q := range c.names {
		st := flow.Style{Size: h.z.name}
		if i > 0 {
			st = flow.Style{Size: h.z.small, Gray: soft}
		}
		side = h.para(side, q, st)
	}
	y := max(side.Y, low) + gap/2
	return page.Rect{X: room.X, Y: y, W: room.W, H: room.Bottom() - y}
}

// corner sets the mass, or a line to write it on, and under it which of the
// tubs this is; it returns how wide that is with its gap, and where it ends.
func (c *composer) corner(h *hand, room page.Rect) (wide, low unit.Length) {
	base := room.Y + h.up(h.z.name)
	st := flow.Style{Size: h.z.key, Align: flow.Right}
	low = room.Y + h.lead(h.z.name)
	if len(c.mass.Spans) == 0 {
		q := flow.Words(page.Note, c.Formula.Pos, "g")
		st.Size = h.z.small
		h.line(room.Right(), base, q, st)
		wide = blank + h.Faces.Regular.Width("g ", st.Size)
		h.Rule(room.Right()-wide, base, blank, hair)
	} else {
		h.line(room.Right(), base, c.mass, st)
		wide = h.Faces.Bold.Width(c.mass.Spans[0].Text, st.Size)
	}
	if c.tubs == "" {
		return wide + 2*gap, low
	}
	st.Size = h.z.small
	up, high := h.level(bit{c.tubs, false, st.Size})
	h.line(room.Right(), low+up, flow.Words(page.Note, c.Formula.Pos, c.tubs), st)
	return max(wide, h.Faces.Regular.Width(c.tubs, st.Size)) + 2*gap, low + high
}

// blank is the least length of a line to write on, over that the height it
// takes for a hand (common practice, no source).
const (
	blank     = 14 * unit.MM
	blankHigh = 6 * unit.MM
)

// days sets the last day of use in a frame, and right of it when the tub was
// made, its batch, and how it is kept.
func (c *composer) days(h *hand, room page.Rect) page.Rect {
	left, right := room, room
	words, wide := c.until(h, room.W*2/5)
	left.W = wide
	right.X, right.W = left.Right()+2*gap, room.W-left.W-2*gap
	facts := h.inside(h.Fresh())
	tall := c.facts(facts, down(right, gap/2)).Y - left.Y
	end := h.inside(h.Fresh())
	edge := gap + line
	rest := end.para(left.Inset(edge), flow.Words(page.Note, c.Formula.Pos, words), flow.Style{Size: h.z.small})
	rest = end.para(rest, flow.Strong(page.Date, c.Formula.Keep.Life.Pos, c.useBy), flow.Style{Size: min(h.z.date, c.widest(rest.W))})
	used := rest.Y + edge - left.Y
	if facts.err != nil || end.err != nil {
		h.err = cmp.Or(h.err, facts.err, end.err)
		return room
	}
	left.H = max(used, tall) // as high as what stands beside it
	h.Frame(left, line)
	h.Add(end.Items, 0, (left.H-used)/2)
	h.Items = append(h.Items, facts.Items...)
	return down(room, left.H)
}

// until gives the words in the frame, in lines of their own where they are too
// long for one, and how wide the frame must be, at most most.
func (c *composer) until(h *hand, most unit.Length) (words string, wide unit.Length) {
	const edge = 2*gap + 2*line
	words = c.word["tub.use-by"]
	wide = h.Faces.Regular.Width(words, h.z.small)
	if wide+edge > most {
		words = strings.ReplaceAll(words, " · ", "\n")
		wide = 0
		for l := range strings.SplitSeq(words, "\n") {
			wide = max(wide, h.Faces.Regular.Width(l, h.z.small))
		}
	}
	return words, min(max(wide, h.Faces.Bold.Width(c.useBy, h.z.date))+edge, most)
}

// widest is the largest size at which the last day of use fits a width.
func (c *composer) widest(w unit.Length) unit.Length {
	const probe = 10 * unit.MM
	return text.Whole(probe.Mul(int64(w), int64(c.faces.Bold.Width(c.useBy, probe))+1))
}

// facts sets a line each for the day made, the batch, and how it is kept.
func (c *composer) facts(h *hand, room page.Rect) page.Rect {
	for i, f := range []struct {
		label string
		value text.Para
	}{
		{"tub.made", flow.Strong(page.Date, c.Formula.Pos, c.made)},
		{"card.batch", flow.Strong(page.Batch, c.Formula.Pos, c.Batch)},
		{"card.keep", c.keep},
	} {
		up, high := h.level(bit{c.word[f.label], false, h.z.small}, bit{f.value.Spans[0].Text, true, h.z.key})
		base, x := room.Y+up, room.X
		if f.label != "card.keep" || c.labelled(h, room.W) {
			x = h.line(x, base, flow.Words(page.Note, c.Formula.Pos, c.word[f.label]), flow.Style{Size: h.z.small}) + gap
		}
		x = h.line(x, base, f.value, flow.Style{Size: h.z.key})
		h.must(x, room.Right())
		if i == 0 {
			c.time(h, x+gap, base, room.Right())
		}
		room = down(room, high)
	}
	return room
}

// labelled reports whether the temperature has room for its word in front; by
// itself it says as much.
func (c *composer) labelled(h *hand, w unit.Length) bool {
	words, err := h.Width(c.keep, h.z.key)
	if h.err == nil {
		h.err = err
	}
	return h.Faces.Regular.Width(c.word["card.keep"], h.z.small)+gap+words <= w
}

// time sets two short lines with a colon for the time of day.
func (c *composer) time(h *hand, x, base, right unit.Length) {
	colon := h.Faces.Bold.Width(":", h.z.key)
	part := (right - x - colon) / 2
	h.must(blank/3, part)
	if h.err != nil {
		return
	}
	h.Rule(x, base, part, hair)
	h.line(x+part, base, flow.Strong(page.Date, c.Formula.Pos, ":"), flow.Style{Size: h.z.key})
	h.Rule(right-part, base, part, hair)
}

// allergens sets what is in the tub, and what may be.
func (c *composer) allergens(h *hand, room page.Rect) page.Rect {
	if len(c.contains) == 0 {
		room = h.para(room, flow.Words(page.Allergens, c.Formula.Pos, c.word["tub.no-allergens"]), flow.Style{Size: h.z.key})
	}
	for _, q := range h.lines(c.contains) {
		room = h.para(room, q, flow.Style{Size: h.z.key})
	}
	for _, q := range h.lines(c.may) {
		room = h.para(room, q, flow.Style{Size: h.z.small})
	}
	return room
}

// lines gives each language lines of its own, or, to save room, all the same.
func (h *hand) lines(all []text.Para) []text.Para {
	if h.white > joined || len(all) < 2 {
		return all
	}
	one := all[0]
	one.Spans = slices.Concat(all[0].Spans, []text.Span{{Text: " · "}}, all[1].Spans)
	return []text.Para{one}
}
