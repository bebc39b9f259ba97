package tub

import (
	"strings"

	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// foot sets the raw mark, or boxes to tick for what nobody here can know, and
// what is written when the tub is opened; it returns its height.
func (c *composer) foot(h *hand, room page.Rect) unit.Length {
	high := unit.Length(0)
	marks := []mark{{words: c.word["tub.opened"], blank: true}}
	if c.frozen {
		marks = append([]mark{{words: c.word["tub.thawed"], blank: true}}, marks...)
	}
	if len(c.raw) > 0 {
		high = c.band(h, room) + gap/2
	} else {
		marks = append([]mark{{words: c.word["tub.to-cook"]}, {words: c.word["tub.ready"]}}, marks...)
	}
	return high + h.marks(down(room, high), marks)
}

// band sets the raw mark in white on black and returns its height.
func (c *composer) band(h *hand, room page.Rect) unit.Length {
	if h.err != nil {
		return 0
	}
	in := h.inside(h.Fresh())
	q := flow.Strong(page.Statement, c.Formula.Pos, strings.Join(c.raw, " · "))
	rest := in.para(page.Rect{X: room.X + gap, Y: room.Y + gap/2, W: room.W - 2*gap, H: room.H}, q,
		flow.Style{Size: h.z.key, Gray: 255, Align: flow.Centre})
	h.err = in.err
	high := h.Dots.Snap(rest.Y + gap/2 - room.Y)
	h.Tint(page.Rect{X: room.X, Y: room.Y, W: room.W, H: high}, 0)
	h.Items = append(h.Items, in.Items...)
	return high
}

// mark is a box to tick with its words, and a line to write on.
type mark struct {
	words string
	blank bool
}

// marks sets marks side by side, in as many lines as they need, and returns
// their height. The last line to write on of a line takes what is left.
func (h *hand) marks(room page.Rect, all []mark) unit.Length {
	y := room.Y
	for len(all) > 0 && h.err == nil {
		n, used := 0, unit.Length(0)
		for n < len(all) && (n == 0 || used+4*gap+h.wide(all[n]) <= room.W) {
			used += h.wide(all[n]) + 4*gap
			n++
		}
		y += h.row(page.Rect{X: room.X, Y: y, W: room.W, H: room.Bottom() - y}, all[:n])
		all = all[n:]
	}
	return y - room.Y
}

// wide is the least width of a mark.
func (h *hand) wide(m mark) unit.Length {
	w := h.box() + gap + h.Faces.Regular.Width(m.words, h.z.small)
	if m.blank {
		w += gap + blank
	}
	return w
}

// box is the side of a box to tick.
func (h *hand) box() unit.Length { return h.Faces.Regular.CapHeight(h.z.small) * 5 / 4 }

func (h *hand) row(room page.Rect, all []mark) unit.Length {
	var bits []bit
	lift := unit.Length(0)
	for _, m := range all {
		bits = append(bits, bit{m.words, false, h.z.small})
		if m.blank {
			lift = max(0, blankHigh-h.lead(h.z.small))
		}
	}
	up, high := h.level(bits...)
	base := room.Y + lift + up
	side := h.box()
	x := room.X
	for i, m := range all {
		h.TickBox(x, base-(side+h.Faces.Regular.CapHeight(h.z.small))/2, side)
		end := h.line(x+side+gap, base, flow.Words(page.Note, h.src, m.words), flow.Style{Size: h.z.small})
		if m.blank {
			long := blank
			if i == len(all)-1 {
				long = room.Right() - end - gap
			}
			h.Rule(end+gap, base, long, hair)
			end += gap + long
		}
		h.must(end, room.Right())
		x = end + 4*gap
	}
	return lift + high
}
