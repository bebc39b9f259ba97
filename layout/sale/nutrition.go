package sale

import (
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// netOf is the net quantity as the market counts it.
func netOf(f *declare.Facts) market.Quantity { return market.Quantity{Mass: f.Pack.Net.V} }

// table sets the nutrition declaration as a table, as wide as its words need,
// and returns its width and height. The names of all languages stand in one
// row; the figures are the same for all and follow the first.
func (c *composer) table(p *flow.Pen, room page.Rect, size unit.Length) (w, h unit.Length, err error) {
	t := flow.Table{Style: flow.Style{Size: size, Leading: leading(size)}, Gap: size / 2, Thick: 150 * unit.UM, Src: c.Pack.Nutrition.Pos}
	var left, right unit.Length
	for _, r := range rows(c.Told) {
		row := flow.Row{Cells: []text.Para{c.cell(r.Name, false), c.cell(r.Value, false)}}
		if r.Sub {
			row.Indent = size / 2
		}
		left = max(left, row.Indent+c.faces.Regular.Width(r.Name, size))
		right = max(right, c.faces.Regular.Width(r.Value, size))
		t.Rows = append(t.Rows, row)
	}
	t.Rows[0].Rule = true
	heading := c.heading(" ")
	left = max(left, c.faces.Bold.Width(heading, size)-right-t.Gap) + 20*unit.UM
	left = min(left, room.W-right-t.Gap-20*unit.UM)
	t.Cols = []flow.Col{{W: left}, {W: right + 20*unit.UM, Align: flow.Right}}
	w = left + t.Gap + t.Cols[1].W
	used, err := c.words(p, page.Rect{X: room.X, Y: room.Y, W: w, H: room.H}, c.cell(heading, true), t.Style)
	if err != nil {
		return 0, 0, err
	}
	used += size / 8 // the rule keeps off the letters that reach below their line
	h, err = p.Table(page.Rect{X: room.X, Y: room.Y + used, W: w, H: room.H - used}, t)
	return w, used + h, err
}

func (c *composer) cell(s string, bold bool) text.Para {
	if bold {
		return flow.Strong(page.Nutrition, c.Pack.Nutrition.Pos, s)
	}
	return flow.Words(page.Nutrition, c.Pack.Nutrition.Pos, s)
}

// heading is the heading of the table in all languages and what it is for.
func (c *composer) heading(sep string) string {
	var all []string
	for _, t := range c.Told {
		all = append(all, t.Table.Heading+sep+t.Table.Per)
	}
	return strings.Join(all, " / ")
}

// rows puts the languages side by side; kJ and kcal stand in rows of their
// own, so that the column of figures is narrow.
func rows(told []*words.Label) []words.Row {
	var out []words.Row
	for i, r := range told[0].Table.Rows {
		names := []string{r.Name}
		for _, t := range told[1:] {
			if n := t.Table.Rows[i].Name; n != r.Name {
				names = append(names, n)
			}
		}
		r.Name = strings.Join(names, " / ")
		kj, kcal, two := strings.Cut(r.Value, " / ")
		r.Value = kj
		if out = append(out, r); two {
			out = append(out, words.Row{Value: kcal})
		}
	}
	return out
}

// linear is the declaration of one language in running words.
func linear(t *words.Table) words.Said {
	var items []string
	for _, r := range t.Rows {
		items = append(items, r.Name+" "+strings.ReplaceAll(r.Value, " / ", "\u00a0/\u00a0"))
	}
	return words.Said{Role: "nutrition", Text: t.Heading + " " + t.Per + ": " + strings.Join(items, "; ") + ".",
		Strong: [][2]int{{0, len(t.Heading)}}, Src: t.Src}
}
