package card

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// A bit is one piece of a line: words, an icon, a mark, a box to tick or a
// line to write on.
type bit struct {
	kind bitKind
	text string
	look look
	role role.Role
	src  diag.Pos
	icon flow.Icon
	wide unit.Length // of a line to write on
}

type bitKind int

const (
	isWords bitKind = iota
	isIcon
	isSolid   // hands on
	isOutline // waiting
	isHatch   // in the oven
	isRing    // the small scale
	isTick    // to be ticked
	isBlank   // to be written on
)

// group is bits that stay together on a line.
type group []bit

func say(s string, role role.Role, src diag.Pos, l look) bit {
	return bit{text: s, role: role, src: src, look: l}
}

// mark is how large icons and marks are beside words of a size.
func (h *hand) mark(b bit) unit.Length {
	switch b.kind {
	case isIcon, isTick:
		return b.look.size
	case isRing:
		return b.look.size / 2
	}
	return b.look.size * 7 / 10
}

func (h *hand) bitWidth(b bit) unit.Length {
	switch b.kind {
	case isWords:
		return h.width(b.text, b.look)
	case isBlank:
		return b.wide
	}
	return h.mark(b)
}

func (h *hand) groupWidth(g group) unit.Length {
	var w unit.Length
	for i, b := range g {
		if i > 0 {
			w += h.between(b)
		}
		w += h.bitWidth(b)
	}
	return w
}

func (h *hand) between(b bit) unit.Length { return b.look.size * 3 / 10 }

// groups sets groups from left to right, gap between them, as many lines as it
// takes, and returns the height. A group that is wider than the line is taken
// apart; words that are wider still are wrapped.
func (h *hand) groups(x, y, w, gap unit.Length, all []group) unit.Length {
	top := y
	var ln []group
	var used unit.Length
	flush := func() {
		if len(ln) > 0 {
			y += h.groupLine(x, y, gap, ln)
		}
		ln, used = nil, 0
	}
	for _, g := range h.narrowed(all, w) {
		gw := h.groupWidth(g)
		if gw > w && len(g) == 1 && g[0].kind == isWords {
			flush()
			y += h.words(x, y, w, g[0].role, g[0].src, g[0].text, g[0].look)
			continue
		}
		if used > 0 && used+gap+gw > w {
			flush()
		}
		if used > 0 {
			used += gap
		}
		used += gw
		ln = append(ln, g)
	}
	flush()
	return y - top
}

// narrowed takes groups apart that are wider than w.
func (h *hand) narrowed(all []group, w unit.Length) []group {
	var out []group
	for _, g := range all {
		if h.groupWidth(g) <= w {
			out = append(out, g)
			continue
		}
		for _, b := range g {
			out = append(out, group{b})
		}
	}
	return out
}

// groupLine sets one line and returns its height. A line to write on makes it
// at least 8 mm high, for a grease pencil (common practice, no source).
func (h *hand) groupLine(x, y, gap unit.Length, groups []group) unit.Length {
	var up, down unit.Length
	for _, g := range groups {
		for _, b := range g {
			lead := h.lead(b.look.size)
			if b.kind == isBlank {
				up = max(up, writeOn-(lead-h.up(b.look.size)))
			}
			up, down = max(up, h.up(b.look.size)), max(down, lead-h.up(b.look.size))
		}
	}
	for i, g := range groups {
		if i > 0 {
			x += gap
		}
		for j, b := range g {
			if j > 0 {
				x += h.between(b)
			}
			h.bit(x, y+up, b)
			x += h.bitWidth(b)
		}
	}
	return up + down
}

// writeOn is the height of a line to write on.
const writeOn = 8 * unit.MM

// bit sets one bit on a baseline.
func (h *hand) bit(x, base unit.Length, b bit) {
	size := h.mark(b)
	middle := base - h.Faces.Regular.CapHeight(b.look.size)/2
	box := page.Rect{X: x, Y: middle - size/2, W: size, H: size}
	switch b.kind {
	case isWords:
		h.line(x, base, b.role, b.src, b.text, b.look)
	case isIcon:
		h.Icon(b.icon, box, b.role)
	case isSolid:
		h.Tint(box, 0)
	case isOutline:
		h.Frame(box, size/7)
	case isHatch:
		h.Hatch(box, size/9)
	case isRing:
		h.ring(x, box.Y, size)
	case isTick:
		h.TickBox(x, box.Y, size)
	case isBlank:
		h.Rule(x, base+h.z.rule, b.wide, h.z.hair)
	}
}
