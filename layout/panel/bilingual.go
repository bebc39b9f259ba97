package panel

import (
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// bilingual draws one table for both languages of Canada: their words beside each
// other, the figures once (figure 3.x(B) of the directory, by its long
// description).
func bilingual(b *board) {
	b.merge()
	b.inner.W = b.naturalBoth()
	b.titles()
	b.rule(role.Hairline, 0)
	b.energyBoth()
	b.rows(b.first().Rows)
	b.rule(role.ThinBar, 0)
	b.notes(b.inner.W)
	b.inner.H = b.y
}

// horizontal draws it lower and wider: what the table is for and the energy at
// the left, the nutrients in two columns (figure 4.x(B), from memory).
func horizontal(b *board) {
	b.merge()
	halves := b.splitRows()
	left := b.titleWide()
	one, two := b.blockWide(halves[0]), b.blockWide(halves[1])
	b.within(0, left, func() {
		b.titles()
		b.rule(role.Hairline, 0)
		b.energyOnly()
	})
	x := left + 2*b.gap()
	high := b.within(x, one, func() { b.dailyBoth(); b.rows(halves[0]) })
	high = max(high, b.within(x+one+2*b.gap(), two, func() { b.dailyBoth(); b.rows(halves[1]) }))
	b.inner.W = x + one + 2*b.gap() + two
	b.y = max(b.y, high)
	b.rule(role.ThinBar, 0)
	b.notes(b.inner.W)
	b.inner.H = b.y
}

// merge puts the words of the second language beside those of the first: "Fat /
// Lipides", and a name that is the same in both once.
func (b *board) merge() {
	t := *b.first()
	t.Rows = append([]words.Row(nil), t.Rows...)
	for i := range t.Rows {
		for _, u := range b.Told[1:] {
			if n := u.Rows[i].Name; n != t.Rows[i].Name {
				t.Rows[i].Name += " / " + strings.TrimPrefix(n, "+ ")
			}
		}
	}
	b.Told = append([]*words.Table{&t}, b.Told[1:]...)
}

// each is something of each language, each once.
func (b *board) each(of func(*words.Table) string) (out []string) {
	for _, t := range b.Told {
		if s := of(t); s != "" && (len(out) == 0 || out[len(out)-1] != s) {
			out = append(out, s)
		}
	}
	return out
}

func (b *board) headings() []string { return b.each(func(t *words.Table) string { return t.Heading }) }
func (b *board) servings() []string { return b.each(func(t *words.Table) string { return t.Per }) }
func (b *board) dailies() []string  { return b.each(func(t *words.Table) string { return t.Daily }) }

// titles are the headings under each other, and what a serving is.
func (b *board) titles() {
	for _, s := range b.headings() {
		b.line(role.Heading, "", s, "", 0)
	}
	for _, s := range b.servings() {
		b.line(role.Serving, "", s, "", 0)
	}
}

// titleWide is how wide they are.
func (b *board) titleWide() (w unit.Length) {
	for _, s := range b.headings() {
		w = max(w, b.width(role.Heading, s))
	}
	for _, s := range b.servings() {
		w = max(w, b.width(role.Serving, s))
	}
	return w
}

// naturalBoth is the width that the widest line asks for.
func (b *board) naturalBoth() unit.Length {
	w := max(b.titleWide(), b.blockWide(b.first().Rows))
	if r, ok := b.energyRow(); ok {
		w = max(w, b.energyWide(r)+b.gap()+b.dailyWide())
	}
	return w
}

func (b *board) energyWide(r words.Row) unit.Length {
	return b.width(role.Energy, r.Name+" ") + b.width(role.EnergyIs, r.Value)
}

func (b *board) dailyWide() (w unit.Length) {
	for _, s := range b.dailies() {
		w = max(w, b.width(role.DailyValue, s))
	}
	return w
}

// blockWide is how wide rows are, with the heads over their percentages.
func (b *board) blockWide(rows []words.Row) unit.Length {
	w := b.dailyWide()
	for _, r := range rows {
		if r.Key != energyKey {
			w = max(w, b.indent(r)+b.Setter.Width(b.named(role.Nutrient, r), b.form.Type(role.Nutrient).Least)+b.gap()+b.width(role.Share, "100"+noBreak+"%"))
		}
	}
	return w
}

// energyBoth is the energy, a thick line under it as far as its figure, and the
// heads over the percentages at the right.
func (b *board) energyBoth() {
	y := b.y
	b.energyOnly()
	down := b.y
	b.y = y
	b.dailyBoth()
	b.y = max(b.y, down)
}

// energyOnly is the energy with its line.
func (b *board) energyOnly() {
	r, ok := b.energyRow()
	if !ok {
		return
	}
	base, wide := b.inner.Y+b.base(role.Energy, b.y), b.energyWide(r)
	b.mark(role.Energy, r.Key, func() {
		b.Line(b.inner.X, base, b.words(role.Energy, r.Name), flow.Style{Size: b.form.Type(role.Energy).Least})
	})
	b.mark(role.EnergyIs, r.Key, func() {
		b.Line(b.inner.X+wide, base, b.words(role.EnergyIs, r.Value), flow.Style{Size: b.form.Type(role.EnergyIs).Least, Align: flow.Right})
	})
	b.y += b.pitch(role.Energy)
	whole := b.inner.W
	b.inner.W = min(whole, wide)
	b.rule(role.ThinBar, 0)
	b.inner.W = whole
}

// dailyBoth are the heads over the percentages, one under the other.
func (b *board) dailyBoth() {
	for _, s := range b.dailies() {
		b.line(role.DailyValue, "", "", s, 0)
	}
}

// rows are nutrients, a thin line above each that is no part of another one. Two
// of them with one percentage have it at the middle of both.
func (b *board) rows(all []words.Row) {
	for i, r := range all {
		if r.Key == energyKey {
			continue
		}
		switch light := b.form.Light; {
		case len(light) > 0 && r.Key == light[0]:
			b.rule(role.ThinBar, 0)
		case !r.Sub:
			b.rule(role.Hairline, 0)
		}
		if together := b.Facts.Market.Nutrition.Together; r.Key == together[1] && i > 0 && all[i-1].Key == together[0] {
			b.shared(r)
			continue
		}
		b.set(r)
	}
}

// shared is the second of two rows with one percentage.
func (b *board) shared(r words.Row) {
	y, said := b.y, r.Percent
	r.Percent = ""
	b.set(r)
	base := b.inner.Y + b.base(role.Share, y-b.pitch(role.Nutrient)/2)
	b.mark(role.Share, r.Key, func() {
		b.Line(b.inner.Right(), base, b.words(role.Share, said), flow.Style{Size: b.form.Type(role.Share).Least, Align: flow.Right})
	})
}

// splitRows are the rows up to the protein and those from it on, so that parts
// stay with what they are part of.
func (b *board) splitRows() [2][]words.Row {
	rows := b.first().Rows
	for i, r := range rows {
		if r.Key == "protein" {
			return [2][]words.Row{rows[:i], rows[i:]}
		}
	}
	return [2][]words.Row{rows, nil}
}

// notes are the footnotes, one under the other.
func (b *board) notes(w unit.Length) {
	for _, s := range b.each(func(t *words.Table) string { return strings.Replace(t.ReferenceOf, "* ", "*", 1) }) {
		b.y += b.note(page.Rect{X: b.inner.X, Y: b.inner.Y + b.y, W: w, H: max(0, b.inner.H-b.y)}, s)
	}
}
