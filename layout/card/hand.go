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

// hand sets the words of a card, in its sizes and in one or two languages.
type hand struct {
	*compose.Setter
	z sizes
}

// apart is a hand that sets for itself; what it sets is taken over by Take.
func (h *hand) apart() *hand { return &hand{h.Fresh(), h.z} }

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

func (z sizes) plain() look  { return look{size: z.body} }
func (z sizes) text() look   { return look{size: z.read} }
func (z sizes) strong() look { return look{size: z.body, bold: true} }
func (z sizes) big() look    { return look{size: z.key, bold: true} }
func (z sizes) note() look   { return look{size: z.small} }
func (z sizes) faint() look  { return look{size: z.small, gray: soft} }

func (l look) style() flow.Style { return flow.Style{Size: l.size, Gray: l.gray, Align: l.align} }

func (l look) para(role role.Role, src diag.Pos, s string) text.Para {
	if l.bold {
		return flow.Strong(role, src, s)
	}
	return flow.Words(role, src, s)
}

// lead is the distance of lines of a size, up that of the first baseline from
// the top.
func (h *hand) lead(size unit.Length) unit.Length { return h.Faces.Regular.Leading(size) }
func (h *hand) up(size unit.Length) unit.Length   { return h.Faces.Regular.Ascent(size) }

// tall is more than any paper has.
const tall = 5000 * unit.MM

// para sets a paragraph into a column and returns its height.
func (h *hand) para(x, y, w unit.Length, p text.Para, l look) unit.Length {
	return h.Para(page.Rect{X: x, Y: y, W: w, H: tall}, p, l.style())
}

func (h *hand) words(x, y, w unit.Length, role role.Role, src diag.Pos, s string, l look) unit.Length {
	return h.para(x, y, w, l.para(role, src, s), l)
}

// told sets a text in the first language, and in the second below it, a size
// smaller and softer.
func (h *hand) told(x, y, w unit.Length, role role.Role, t told, l look) unit.Length {
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
func (h *hand) line(x, base unit.Length, role role.Role, src diag.Pos, s string, l look) unit.Length {
	return h.Line(x, base, l.para(role, src, s), l.style()).W
}

// width is that of words on one line.
func (h *hand) width(s string, l look) unit.Length {
	return h.Faces.Of(l.bold).Width(s, text.Whole(l.size))
}

// ring draws a small circle: the mark of the small scale.
func (h *hand) ring(x, y, d unit.Length) {
	h.icon(ringDrawing(x, y, d), page.Rect{X: x, Y: y, W: d, H: d}, d/6)
}

func (h *hand) icon(segs []page.Seg, box page.Rect, stroke unit.Length) {
	h.Items = append(h.Items, page.Item{Box: box, Role: role.Note,
		Shape: &page.Shape{Kind: page.Path, Stroke: stroke, Segs: segs}})
}

// ringDrawing is a circle in four curves; 0.5523 is the usual length of their
// handles.
func ringDrawing(x, y, d unit.Length) []page.Seg {
	r := d / 2
	k := r.Mul(5523, 10_000)
	cx, cy := x+r, y+r
	pt := func(dx, dy unit.Length) page.Pt { return page.Pt{X: cx + dx, Y: cy + dy} }
	curve := func(a, b, c page.Pt) page.Seg { return page.Seg{Op: page.Curve, Pts: [3]page.Pt{a, b, c}} }
	return []page.Seg{
		{Op: page.Move, Pts: [3]page.Pt{pt(r, 0)}},
		curve(pt(r, k), pt(k, r), pt(0, r)),
		curve(pt(-k, r), pt(-r, k), pt(-r, 0)),
		curve(pt(-r, -k), pt(-k, -r), pt(0, -r)),
		curve(pt(k, -r), pt(r, -k), pt(r, 0)),
		{Op: page.Close},
	}
}

// report turns a fault of setting into a finding.
func report(found *diag.List, src diag.Pos, err error) {
	found.AddError(err, diag.Diag{Pos: src, Rule: "card", Hint: "report this: nothing may be printed", Msg: err.Error()})
}
