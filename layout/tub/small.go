package tub

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// small sets what matters most on a small label: what it is, until when, made
// when and in which batch, whether it is raw, what is in it, and how cold it is
// kept. Nothing is ticked or written there.
func (c *composer) small(h *hand) {
	room := c.safe
	for i, q := range c.names {
		st := flow.Style{Size: h.z.name}
		if i > 0 {
			st = flow.Style{Size: h.z.small}
		}
		room = h.para(room, q, st)
	}
	h.Rule(room.X, room.Y, room.W, hair)
	room = c.pair(h, down(room, hair), pair{c.word["tub.use-by"], c.useBy, page.Date, h.z.date})
	if h.white < roomy {
		room = c.pair(h, room, pair{c.word["tub.made"] + "\u00a0" + c.made, c.Batch, page.Batch, h.z.key})
	} else {
		room = c.pair(h, room, pair{c.word["tub.made"], c.made, page.Date, h.z.key})
		room = c.pair(h, room, pair{c.word["card.batch"], c.Batch, page.Batch, h.z.key})
	}
	room = c.allergens(h, room)
	room = h.para(room, c.keep, flow.Style{Size: h.z.small})
	if len(c.raw) > 0 && h.err == nil {
		h.must(c.band(h, room), room.H)
	}
}

// pair is a word and what it is about.
type pair struct {
	label, value string
	role         page.Role
	size         unit.Length
}

// pair sets a word at the left and its value at the right of one line.
func (c *composer) pair(h *hand, room page.Rect, p pair) page.Rect {
	up, high := h.level(bit{p.label, false, h.z.small}, bit{p.value, true, p.size})
	base := room.Y + up
	end := h.line(room.X, base, flow.Words(page.Note, c.Formula.Pos, p.label), flow.Style{Size: h.z.small})
	wide := h.Faces.Bold.Width(p.value, p.size)
	h.line(room.Right(), base, flow.Strong(p.role, c.Formula.Pos, p.value), flow.Style{Size: p.size, Align: flow.Right})
	h.must(end+gap+wide, room.Right())
	h.must(high, room.H)
	return down(room, high)
}
