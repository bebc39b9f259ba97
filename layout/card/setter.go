package card

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// setter sets the words of a card, in its sizes and in one or two languages.
type setter struct {
	*compose.Setter
	z    sizes
	hung bool // lines stand closer, and a word that is too long for its column is cut
}

// apart is a setter that sets for itself; what it sets is taken over by Take.
func (h *setter) apart() *setter { return &setter{h.Fresh(), h.z, h.hung} }

// look is how words are set.
type look struct {
	size  unit.Length
	bold  bool
	gray  uint8
	align flow.Align
}

// soft is the grey of the second language: 9.6 to 1 on white, where WCAG 2
// asks 7 to 1 at its strictest (success criterion 1.4.6, from memory).
const soft = 70

func (z sizes) plain() look { return look{size: z.body} }

func (z sizes) text() look { return look{size: z.read} }

func (z sizes) strong() look { return look{size: z.body, bold: true} }

func (z sizes) big() look { return look{size: z.key, bold: true} }

func (z sizes) note() look { return look{size: z.small} }

func (z sizes) faint() look { return look{size: z.small, gray: soft} }

func (l look) style() flow.Style { return flow.Style{Size: l.size, Gray: l.gray, Align: l.align} }

func (l look) para(role role.Role, src diag.Pos, s string) text.Para {
	if l.bold {
		return flow.Strong(role, src, s)
	}
	return flow.Words(role, src, s)
}

// lead is the distance of lines of a size, up that of the first baseline from
// the top.
func (h *setter) lead(size unit.Length) unit.Length {
	if h.hung {
		return size * 53 / 50
	}
	return h.Faces.Regular.Leading(size)
}

func (h *setter) up(size unit.Length) unit.Length { return h.First(h.lead(size), size) }

// tall is more than any paper has.
const tall = 5000 * unit.MM

// para sets a paragraph into a column and returns its height.
func (h *setter) para(x, y, w unit.Length, p text.Para, l look) unit.Length {
	p.Anywhere = p.Anywhere || h.hung
	st := l.style()
	st.Leading = h.lead(l.size)
	return h.Para(page.Rect{X: x, Y: y, W: w, H: tall}, p, st)
}

func (h *setter) words(x, y, w unit.Length, role role.Role, src diag.Pos, s string, l look) unit.Length {
	return h.para(x, y, w, l.para(role, src, s), l)
}

// told sets a text in the first language, and in the second below it, a size
// smaller and softer.
func (h *setter) told(x, y, w unit.Length, role role.Role, t told, l look) unit.Length {
	if t.empty() {
		return 0
	}
	used := h.words(x, y, w, role, t.Src, t.In[0], l)
	for _, s := range t.In[1:] {
		if s != t.In[0] {
			second := look{size: h.z.small, gray: soft, align: l.align}
			used += h.words(x, y+used, w, second.role(role), t.Src, s, second)
		}
	}
	return used
}

// role is what words in the second language are: of a step still the step,
// otherwise a note to what the first language says larger.
func (l look) role(r role.Role) role.Role {
	if r == role.Step || r == role.Keep {
		return r
	}
	return role.Note
}

// line sets words on one line from a baseline and returns their width.
func (h *setter) line(x, base unit.Length, role role.Role, src diag.Pos, s string, l look) unit.Length {
	return h.Line(x, base, l.para(role, src, s), l.style()).W
}

// width is that of words on one line.
func (h *setter) width(s string, l look) unit.Length {
	return h.Faces.Of(l.bold).Width(s, text.Whole(l.size))
}

// report turns a fault of setting into a finding.
func report(found *diag.List, src diag.Pos, err error) {
	found.AddError(err, diag.Diag{Pos: src, Rule: "card", Hint: "report this: nothing may be printed", Msg: err.Error()})
}

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
func (h *setter) mark(b bit) unit.Length {
	switch b.kind {
	case isIcon, isTick:
		return b.look.size
	case isRing:
		return b.look.size / 2
	}
	return b.look.size * 7 / 10
}

func (h *setter) bitWidth(b bit) unit.Length {
	switch b.kind {
	case isWords:
		return h.width(b.text, b.look)
	case isBlank:
		return b.wide
	}
	return h.mark(b)
}

func (h *setter) groupWidth(g group) unit.Length {
	var w unit.Length
	for i, b := range g {
		if i > 0 {
			w += h.between(b)
		}
		w += h.bitWidth(b)
	}
	return w
}

func (h *setter) between(b bit) unit.Length { return b.look.size * 3 / 10 }

// groups sets groups from left to right, gap between them, as many lines as it
// takes, and returns the height. A group that is wider than the line is taken
// apart; words that are wider still are wrapped.
func (h *setter) groups(x, y, w, gap unit.Length, all []group) unit.Length {
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
func (h *setter) narrowed(all []group, w unit.Length) []group {
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
func (h *setter) groupLine(x, y, gap unit.Length, groups []group) unit.Length {
	var up, down unit.Length
	for _, g := range groups {
		for _, b := range g {
			lead := h.lead(b.look.size)
			if b.kind == isBlank {
				up = max(up, writeOn-(lead-h.up(b.look.size)))
			}
			up, down = max(up, h.up(b.look.size)), max(down, lead-h.up(b.look.size))
			if b.kind == isWords { // an accented capital reaches higher
				u, d := h.Faces.Of(b.look.bold).Ink(b.text, text.Whole(b.look.size))
				up, down = max(up, u), max(down, d)
			}
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
func (h *setter) bit(x, base unit.Length, b bit) {
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
		h.Ring(box, size/6, role.Note)
	case isTick:
		h.TickBox(x, box.Y, size)
	case isBlank:
		h.Rule(x, base+h.z.rule, b.wide, h.z.hair)
	}
}

// Corner marks say where the corners of a laminated card are rounded, so that
// none is sharp: quarters of a circle of 5 mm (trade practice, no source) in
// the margin, a little outside the area of the words.
const (
	corner      = 5 * unit.MM
	cornerOut   = 1500 * unit.UM // from the area of the words
	cornerThick = 200 * unit.UM
	cornerGray  = 128
)

// corners are the four marks of a card.
func corners(w, h, safe unit.Length) []page.Item {
	edge := safe - cornerOut
	var out []page.Item
	for _, at := range []struct{ x, y, dx, dy unit.Length }{
		{edge, edge, 1, 1}, {w - edge, edge, -1, 1}, {w - edge, h - edge, -1, -1}, {edge, h - edge, 1, -1},
	} {
		out = append(out, rounded(at.x, at.y, at.dx*corner, at.dy*corner))
	}
	return out
}

// rounded is the quarter of a circle that rounds the corner at (x, y) of a box
// that goes on by dx and dy. The control points of the curve lie 0.5523 of the
// radius from its ends (the usual approximation of a circle).
func rounded(x, y, dx, dy unit.Length) page.Item {
	far := func(d unit.Length) unit.Length { return d - d.Mul(5523, 10000) }
	box := page.Rect{X: min(x, x+dx), Y: min(y, y+dy), W: corner, H: corner}
	return page.Item{Box: box, Role: role.Trim, Shape: &page.Shape{Kind: page.Path, Stroke: cornerThick, Gray: cornerGray, Segs: []page.Seg{
		{Op: page.Move, Pts: [3]page.Pt{{X: x, Y: y + dy}}},
		{Op: page.Curve, Pts: [3]page.Pt{{X: x, Y: y + far(dy)}, {X: x + far(dx), Y: y}, {X: x + dx, Y: y}}},
	}}}
}
