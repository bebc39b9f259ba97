package prep

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// hand sets words and remembers the first thing that went wrong. After that it
// sets nothing.
type hand struct {
	*flow.Pen
	err error
}

func (h *hand) failed(err error) {
	if h.err == nil {
		h.err = err
	}
}

// para sets a paragraph at the top of r and returns its height.
func (h *hand) para(r page.Rect, q text.Para, st flow.Style) unit.Length {
	if h.err != nil {
		return 0
	}
	used, err := h.Para(r, q, st)
	h.failed(err)
	return used
}

// line sets words on one line and returns where they end.
func (h *hand) line(x, base unit.Length, q text.Para, st flow.Style) unit.Length {
	if h.err != nil {
		return x
	}
	r, err := h.Line(x, base, q, st)
	h.failed(err)
	return r.Right()
}

func (h *hand) figure(right, base unit.Length, q text.Para, st flow.Style, f flow.Figures) {
	if h.err == nil {
		h.failed(h.Figure(right, base, q, st, f))
	}
}

// down is r without its first d.
func down(r page.Rect, d unit.Length) page.Rect {
	return page.Rect{X: r.X, Y: r.Y + d, W: r.W, H: r.H - d}
}
