package tub

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// hand sets words and marks and remembers the first thing that went wrong.
// After that it sets nothing.
type hand struct {
	*flow.Pen
	z     sizes
	src   diag.Pos // what is at fault when something does not fit
	white white    // how much of it there is
	err   error
}

// inside is a hand that sets into p as h does.
func (h *hand) inside(p *flow.Pen) *hand {
	return &hand{Pen: p, z: h.z, src: h.src, white: h.white, err: h.err}
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

// para sets a paragraph at the top of r and returns what is left of r.
func (h *hand) para(r page.Rect, q text.Para, st flow.Style) page.Rect {
	if h.err != nil || len(q.Spans) == 0 {
		return r
	}
	if st.Leading == 0 {
		st.Leading = h.lead(st.Size)
	}
	used, err := h.Para(r, q, st)
	h.err = err
	return down(r, used)
}

// lead is a leading that saves room; accents still find theirs, because lines
// that would touch are moved apart.
func (h *hand) lead(size unit.Length) unit.Length {
	if h.white < roomy {
		return size.Mul(104, 100)
	}
	return size.Mul(118, 100)
}

// down is r without its first d.
func down(r page.Rect, d unit.Length) page.Rect {
	return page.Rect{X: r.X, Y: r.Y + d, W: r.W, H: r.H - d}
}

// line sets words on one line from x and returns where they end.
func (h *hand) line(x, base unit.Length, q text.Para, st flow.Style) unit.Length {
	if h.err != nil || len(q.Spans) == 0 {
		return x
	}
	r, err := h.Line(x, base, q, st)
	h.err = err
	return r.Right()
}

// up is where the baseline of a line of a size lies below its top, at the
// least.
func (h *hand) up(size unit.Length) unit.Length {
	f := h.Faces.Regular
	return (h.lead(size) + f.Ascent(size) - f.Descent(size)) / 2
}

// bit is words in one face on a line with others.
type bit struct {
	words string
	bold  bool
	size  unit.Length
}

// level gives where the baseline of a line with all these bits lies below its
// top, and how high the line is, so that none of them reaches beyond it.
func (h *hand) level(bits ...bit) (up, high unit.Length) {
	var low unit.Length
	for _, b := range bits {
		ink, below := h.Faces.Of(b.bold).Ink(b.words, b.size)
		up, low = max(up, h.up(b.size), ink), max(low, h.lead(b.size)-h.up(b.size), below)
	}
	return up, up + low
}

// must remembers that need does not go into have.
func (h *hand) must(need, have unit.Length) {
	if need > have && h.err == nil {
		h.err = &flow.Overflow{Need: need, Have: have, Src: h.src}
	}
}
