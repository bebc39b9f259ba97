package panel

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// sideNote draws the vertical display with the footnote at the right, behind a
// line, where there is no room for it below (21 CFR 101.9(d)(11)(i), (ii)).
func sideNote(b *board) {
	col := b.natural()
	b.within(0, col, func() {
		b.body()
	})
	b.beside(col, noteWide)
}

// noteWide is how wide a footnote beside the rest is set: about 30 letters.
const noteWide = 28 * unit.MM

// beside sets the footnote right of what is w wide, behind a line.
func (b *board) beside(w, wide unit.Length) {
	high := b.y
	at := w + b.gap()
	x := b.inner.X + at
	b.mark(role.Upright, "", func() { b.Setter.Upright(x, b.inner.Y, high, b.form.Line(role.Hairline)) })
	at += b.Thick(b.form.Line(role.Hairline)) + b.gap()
	note := b.note(page.Rect{X: b.inner.X + at, Y: b.inner.Y, W: wide, H: max(0, b.inner.H)}, b.noteOf())
	b.inner.W, b.inner.H = at+wide, max(high, note)
}

// within sets into a column that begins at x and is w wide, from the top.
func (b *board) within(x, w unit.Length, do func()) (high unit.Length) {
	whole, y := b.inner, b.y
	b.inner.X, b.inner.W, b.y = whole.X+x, w, 0
	do()
	high = b.y
	b.inner, b.y = whole, max(y, high)
	return high
}

// tabular draws the nutrients in two columns, right of the heading, the servings
// and the energy (21 CFR 101.9(d)(11)(iii), (j)(13)(ii)(A)(1)).
func tabular(b *board) {
	left, halves := b.headWide(), b.halves()
	one, two := b.rowsWide(halves[0]), b.rowsWide(halves[1])
	b.within(0, left, b.head)
	x := left + 2*b.gap()
	high := max(b.within(x, one, func() { b.half(halves[0]) }), b.within(x+one+2*b.gap(), two, func() { b.half(halves[1]) }))
	wide := one + two + 2*b.gap()
	b.y = high
	whole := b.inner
	b.inner.X, b.inner.W = whole.X+x, wide
	b.bar(role.Bar)
	b.mineralLine()
	if b.form.Short {
		b.footnote()
	}
	b.inner = whole
	b.y = max(b.y, b.headHigh())
	if b.form.Short {
		b.inner.W, b.inner.H = x+wide, b.y
		return
	}
	b.beside(x+wide, noteWide)
}

// halves are the nutrients before the carbohydrate, and those from it on.
func (b *board) halves() [2][]words.Row {
	rows := slices.DeleteFunc(slices.Clone(b.first().Rows), func(r words.Row) bool { return r.Key == energyKey || b.mineral(r.Key) })
	i := max(0, slices.IndexFunc(rows, func(r words.Row) bool { return r.Key == "carbohydrate" }))
	return [2][]words.Row{rows[:i], rows[i:]}
}

// rowsWide is how wide rows are with their heads.
func (b *board) rowsWide(rows []words.Row) unit.Length {
	w := b.width(role.AmountPer, b.amountPer()) + b.gap() + b.width(role.DailyValue, b.dailyHead())
	for _, r := range rows {
		part := b.partOf(r)
		w = max(w, b.indent(r)+b.Setter.Width(b.named(part, r), b.form.Type(part).Least)+b.gap()+b.width(b.sharePart(r), r.Percent))
	}
	return w
}

// half is a column of nutrients under its heads.
func (b *board) half(rows []words.Row) {
	y := b.y
	b.line(role.AmountPer, "", b.amountPer(), "", 0)
	b.y = y
	b.line(role.DailyValue, "", "", b.dailyHead(), 0)
	b.rule(role.ThinBar, 0)
	for i, r := range rows {
		if i == 0 {
			b.set(r)
		} else {
			b.row(r, b.above(r))
		}
	}
}

// mineralLine are the vitamins and minerals in a line, with a dot between them;
// as many lines as it takes.
func (b *board) mineralLine() {
	x, size := unit.Length(0), b.form.Type(role.Mineral).Least
	dot := b.width(role.Mineral, " • ")
	for _, r := range b.first().Rows {
		if !b.mineral(r.Key) {
			continue
		}
		said := r.Name + noBreak + r.Value + noBreak + r.Percent
		w := b.width(role.Mineral, said)
		if x > 0 && x+dot+w > b.inner.W {
			b.y += b.pitch(role.Mineral)
			x = 0
		}
		base := b.inner.Y + b.base(role.Mineral, b.y)
		if x > 0 {
			b.mark(role.Mineral, "", func() {
				b.Line(b.inner.X+x+dot/2, base, b.words(role.Mineral, "•"), flow.Style{Size: size, Align: flow.Centre})
			})
			x += dot
		}
		b.mark(role.Mineral, r.Key, func() { b.Line(b.inner.X+x, base, b.words(role.Mineral, said), flow.Style{Size: size}) })
		x += w
	}
	b.y += b.pitch(role.Mineral)
}

// head is the heading, the servings and the energy below each other.
func (b *board) head() {
	t := b.first()
	b.heading(t.Heading)
	b.rule(role.Hairline, 0)
	b.line(role.Servings, "", t.Portions, "", 0)
	b.line(role.Serving, "", t.Serving[0], "", 0)
	b.line(role.Serving, "", t.Serving[1], "", 0)
	b.bar(role.Bar)
	b.energyAlone()
}

// headHigh is how high that is.
func (b *board) headHigh() unit.Length {
	high := unit.Length(0)
	for _, it := range b.Items {
		if it.Panel != nil && (it.Panel.Part == role.EnergyIs || it.Panel.Part == role.Energy) {
			high = max(high, it.Box.Bottom()-b.inner.Y)
		}
	}
	return high
}

// headWide is how wide it is.
func (b *board) headWide() unit.Length {
	t := b.first()
	w := max(b.width(role.Heading, t.Heading), b.width(role.Servings, t.Portions), b.width(role.Serving, t.Serving[0]), b.width(role.Serving, t.Serving[1]))
	if r, ok := b.energyRow(); ok {
		w = max(w, b.width(role.Energy, r.Name)+b.gap()+b.width(role.EnergyIs, r.Value))
	}
	return w
}
