package panel

import (
	"slices"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// upright draws the vertical display: one part under the other (21 CFR
// 101.9(d)(12)).
func upright(b *board) {
	b.inner.W = b.natural()
	b.body()
	b.bar(role.ThinBar)
	b.footnote()
	b.inner.H = b.y
}

// body is all of the panel but its footnote.
func (b *board) body() {
	b.top()
	b.energy()
	b.bar(role.ThinBar)
	b.daily()
	b.nutrients()
	b.bar(role.Bar)
	b.minerals()
}

// natural is the width that the widest line asks for; the footnote breaks.
func (b *board) natural() unit.Length {
	t := b.first()
	w := b.width(role.Heading, t.Heading)
	w = max(w, b.width(role.Servings, t.Portions))
	w = max(w, b.width(role.Serving, t.Serving[0])+b.gap()+b.width(role.Serving, t.Serving[1]))
	for _, r := range t.Rows {
		switch part := b.partOf(r); {
		case r.Key == energyKey:
			w = max(w, b.width(role.Energy, r.Name)+b.gap()+b.width(role.EnergyIs, r.Value))
		default:
			name := b.Setter.Width(b.named(part, r), b.form.Type(part).Least)
			w = max(w, b.indent(r)+name+b.gap()+b.width(b.sharePart(r), r.Percent))
		}
	}
	return w
}

const energyKey = "energy-kcal"

// gap is the least white between what stands left and right on a line.
func (b *board) gap() unit.Length { return b.form.Type(role.Nutrient).Least * 3 / 4 }

// partOf is the part that a row belongs to.
func (b *board) partOf(r words.Row) string {
	if b.mineral(r.Key) {
		return role.Mineral
	}
	return role.Nutrient
}

// sharePart is the part that the percentage of a row belongs to: that of a
// vitamin or mineral is of its line.
func (b *board) sharePart(r words.Row) string {
	if b.mineral(r.Key) {
		return role.Mineral
	}
	return role.Share
}

func (b *board) mineral(key string) bool {
	for _, m := range b.Facts.Market.Nutrition.Micros {
		if m == key {
			return true
		}
	}
	return false
}

// indent is how far a row is moved in: a part of a part twice as far.
func (b *board) indent(r words.Row) unit.Length {
	in, of := unit.Length(0), r.Key
	for {
		n, ok := b.Facts.Market.Nutrition.Find(of)
		if !ok || n.Of == "" {
			return in
		}
		in, of = in+indent, n.Of
	}
}

// named is a nutrient with its amount; what is not indented is bold, and its
// amount is not.
func (b *board) named(part string, r words.Row) text.Para {
	bold := part == role.Nutrient && !r.Sub && !slices.Contains(b.form.Light, r.Key)
	q := b.weighed(r.Name, bold)
	if r.Value != "" {
		q.Spans = append(q.Spans, text.Span{Text: " " + r.Value})
	}
	return q
}

// top is the heading across the panel, how many servings there are, and what a
// serving is.
func (b *board) top() {
	t := b.first()
	b.heading(t.Heading)
	b.rule(role.Hairline, 0)
	b.line(role.Servings, "", t.Portions, "", 0)
	b.line(role.Serving, "", t.Serving[0], t.Serving[1], 0)
	b.bar(role.Bar)
}

// heading is set across the whole panel, at least as high as the law asks.
func (b *board) heading(s string) {
	least := b.form.Type(role.Heading).Least
	size := max(least, least.Mul(int64(b.inner.W), int64(max(1, b.width(role.Heading, s)))))
	size = text.Whole(size - unit.Point/100)
	high := size + b.form.Type(role.Heading).Lead
	b.mark(role.Heading, "", func() {
		b.Line(b.inner.X, b.inner.Y+b.y+(high+b.Faces.Bold.CapHeight(size))/2, b.weighed(s, true), flow.Style{Size: max(size, least)})
	})
	b.y += high
}

// energy is "Amount per serving" above the word and its large figure.
func (b *board) energy() {
	b.line(role.AmountPer, "", b.amountPer(), "", 0)
	b.energyAlone()
}

// energyAlone is the word and its large figure, on one baseline.
func (b *board) energyAlone() {
	r, ok := b.energyRow()
	if !ok {
		return
	}
	word, size := b.form.Type(role.Energy).Least, b.form.Type(role.EnergyIs).Least
	base := b.inner.Y + b.y + b.Faces.Bold.CapHeight(max(word, size)) + unit.Point
	b.mark(role.Energy, r.Key, func() { b.Line(b.inner.X, base, b.words(role.Energy, r.Name), flow.Style{Size: word}) })
	b.mark(role.EnergyIs, r.Key, func() {
		b.Line(b.inner.Right(), base, b.words(role.EnergyIs, r.Value), flow.Style{Size: size, Align: flow.Right})
	})
	_, down := b.Faces.Bold.Ink(r.Name, word)
	b.y = base + max(down, 2*unit.Point) - b.inner.Y
}

// energyRow is the row of the energy.
func (b *board) energyRow() (words.Row, bool) {
	for _, r := range b.first().Rows {
		if r.Key == energyKey {
			return r, true
		}
	}
	return words.Row{}, false
}

// amountPer is the head of the amounts.
func (b *board) amountPer() string {
	if len(b.first().Heads) > 0 {
		return b.first().Heads[0]
	}
	return ""
}

// daily is the head over the percentages.
func (b *board) daily() {
	b.line(role.DailyValue, "", "", b.dailyHead(), 0)
}

// dailyHead is that head, short where the form lets it be.
func (b *board) dailyHead() string {
	if t := b.first(); b.form.Short && t.DailyShort != "" {
		return t.DailyShort
	}
	return b.first().Daily
}

// nutrients are the rows up to the vitamins and minerals, a hairline above each.
func (b *board) nutrients() {
	for _, r := range b.first().Rows {
		if r.Key == energyKey || b.mineral(r.Key) {
			continue
		}
		b.row(r, b.above(r))
	}
}

// above is where the hairline above a row begins: at the panel's edge, but above
// the added sugars at their indent.
func (b *board) above(r words.Row) unit.Length {
	if in := b.indent(r); in > indent {
		return in
	}
	return 0
}

// minerals are the vitamins and minerals, a hairline between them.
func (b *board) minerals() {
	first := true
	for _, r := range b.first().Rows {
		if !b.mineral(r.Key) {
			continue
		}
		if first {
			b.set(r)
		} else {
			b.row(r, 0)
		}
		first = false
	}
}

// row is a nutrient under a hairline that begins at from.
func (b *board) row(r words.Row, from unit.Length) {
	b.rule(role.Hairline, from)
	b.set(r)
}

// set is a nutrient, its amount behind it and its percentage at the right.
func (b *board) set(r words.Row) {
	part, share := b.partOf(r), b.sharePart(r)
	base := b.inner.Y + b.base(part, b.y)
	b.mark(part, r.Key, func() {
		b.Line(b.inner.X+b.indent(r), base, b.named(part, r), flow.Style{Size: b.form.Type(part).Least})
	})
	if r.Percent != "" {
		b.mark(share, r.Key, func() {
			b.Line(b.inner.Right(), base, b.words(share, r.Percent), flow.Style{Size: b.form.Type(share).Least, Align: flow.Right})
		})
	}
	b.y += b.pitch(part)
}

// line is a line of one part: words at the left and at the right.
func (b *board) line(part, row, left, right string, in unit.Length) {
	base, st := b.inner.Y+b.base(part, b.y), flow.Style{Size: b.form.Type(part).Least}
	b.mark(part, row, func() {
		if left != "" {
			b.Line(b.inner.X+in, base, b.words(part, left), st)
		}
		if right != "" {
			st.Align = flow.Right
			b.Line(b.inner.Right(), base, b.words(part, right), st)
		}
	})
	b.y += b.pitch(part)
}

// rule is a thin line across the panel from an indent on.
func (b *board) rule(part string, from unit.Length) {
	thick := b.form.Line(part)
	if thick == 0 {
		return
	}
	b.y = b.OnDot(b.inner.Y+b.y) - b.inner.Y
	b.mark(part, "", func() { b.Rule(b.inner.X+from, b.inner.Y+b.y, b.inner.W-from, thick) })
	b.y += b.Thick(thick)
}

// bar is a thick line with a point of white above and below it.
func (b *board) bar(part string) {
	b.y += unit.Point
	b.rule(part, 0)
	b.y += unit.Point
}

// footnote says what the percentages are of, in as many lines as it takes.
func (b *board) footnote() {
	said := b.noteOf()
	if said == "" {
		return
	}
	b.y += b.note(page.Rect{X: b.inner.X, Y: b.inner.Y + b.y, W: b.inner.W, H: max(0, b.inner.H-b.y)}, said)
}

// noteOf is the footnote; where the form lets words be short, it says what the
// short head means.
func (b *board) noteOf() string {
	if t := b.first(); b.form.Short && t.DailyIs != "" {
		return t.DailyIs
	}
	return strings.Replace(b.first().ReferenceOf, "* ", "*"+noBreak, 1)
}

const noBreak = "\u00a0"

// note sets the footnote into r and returns its height.
func (b *board) note(r page.Rect, said string) (high unit.Length) {
	b.mark(role.Footnote, "", func() {
		high = b.Para(r, b.words(role.Footnote, said), flow.Style{Size: b.form.Type(role.Footnote).Least, Leading: b.pitch(role.Footnote)})
	})
	return high
}
