package panel

import (
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// columns draws names, and figures for a portion and for 100 g under their heads
// (Food Standards Code, Schedule 12, S12-2).
func columns(b *board) {
	t := b.first()
	names, wide := b.nameWide(), b.figuresWide()
	b.inner.W = names
	for _, w := range wide {
		b.inner.W += b.gap() + w
	}
	least := max(b.width(role.Heading, t.Heading), b.width(role.Servings, t.Portions), b.width(role.Serving, t.Serving[1]))
	if more := least - b.inner.W; more > 0 {
		b.inner.W = least
	}
	b.line(role.Heading, "", t.Heading, "", 0)
	b.rule(role.Hairline, 0)
	b.line(role.Servings, "", t.Portions, "", 0)
	b.line(role.Serving, "", t.Serving[1], "", 0)
	b.rule(role.Hairline, 0)
	b.heads(wide)
	for _, r := range t.Rows {
		b.rule(role.Hairline, 0)
		b.across(r.Key, b.named(role.Nutrient, r), b.indent(r), r.Cells, wide)
	}
	b.inner.H = b.y
}

// nameWide is how wide the names are.
func (b *board) nameWide() (w unit.Length) {
	for _, r := range b.first().Rows {
		w = max(w, b.indent(r)+b.width(role.Nutrient, r.Name))
	}
	return w
}

// figuresWide is how wide each column of figures is: its widest figure, or half
// of its head, which runs on two lines.
func (b *board) figuresWide() []unit.Length {
	t := b.first()
	out := make([]unit.Length, len(t.Heads))
	for i, head := range t.Heads {
		for _, r := range t.Rows {
			out[i] = max(out[i], b.width(role.Nutrient, r.Cells[i]))
		}
		for _, word := range strings.Split(head, " ") { // a no-break space keeps words together
			out[i] = max(out[i], b.width(role.AmountPer, word))
		}
		out[i] = max(out[i], b.width(role.AmountPer, head)*13/20)
	}
	return out
}

// heads are the heads of the columns, at their right ends.
func (b *board) heads(wide []unit.Length) {
	size := b.form.Type(role.AmountPer).Least
	right, high := b.inner.Right(), unit.Length(0)
	for i := len(wide) - 1; i >= 0; i-- {
		r := page.Rect{X: right - wide[i], Y: b.inner.Y + b.y, W: wide[i], H: max(0, b.inner.H-b.y)}
		b.mark(role.AmountPer, "", func() {
			high = max(high, b.Para(r, b.words(role.AmountPer, b.first().Heads[i]), flow.Style{Size: size, Leading: b.pitch(role.AmountPer), Align: flow.Right}))
		})
		right -= wide[i] + b.gap()
	}
	b.y += high
}

// across is a row of a name and its figures.
func (b *board) across(row string, name text.Para, in unit.Length, cells []string, wide []unit.Length) {
	size, base := b.form.Type(role.Nutrient).Least, b.inner.Y+b.base(role.Nutrient, b.y)
	name.Spans = name.Spans[:1] // its figures stand in their columns
	name.Spans[0].Bold = false
	b.mark(role.Nutrient, row, func() {
		b.Line(b.inner.X+in, base, name, flow.Style{Size: size})
		right := b.inner.Right()
		for i := len(wide) - 1; i >= 0; i-- {
			b.Line(right, base, b.words(role.Nutrient, strings.ReplaceAll(cells[i], " / ", compose.NoBreak+"/"+compose.NoBreak)), flow.Style{Size: size, Align: flow.Right})
			right -= wide[i] + b.gap()
		}
	})
	b.y += b.pitch(role.Nutrient)
}
