package sale

import (
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/role"
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
// row; the figures are the same for all and follow the first. A single column
// of figures has its head in the heading.
func (c *composer) table(p *flow.Pen, room page.Rect, size unit.Length) (w, h unit.Length, err error) {
	t := flow.Table{Style: flow.Style{Size: size, Leading: leading(size)}, Gap: size / 2, Thick: 150 * unit.UM, Src: c.Pack.Nutrition.Pos}
	all := rows(c.Told)
	wide := make([]unit.Length, len(c.Told[0].Table.Heads))
	above, below := []string{c.heading(" ")}, []string(nil)
	if len(wide) > 1 {
		above, below = c.around()
		all = append([]words.Row{{Cells: c.heads()}}, all...)
		for i, head := range all[0].Cells {
			for _, word := range strings.Fields(strings.ReplaceAll(head, "\u00a0", "_")) {
				wide[i] = max(wide[i], c.faces.Regular.Width(word, size)*21/20)
			}
		}
	}
	var left, right unit.Length
	for n, r := range all {
		row := flow.Row{Cells: []text.Para{c.cell(r.Name, false)}}
		if r.Sub {
			row.Indent = size / 2
		}
		left = max(left, row.Indent+c.faces.Regular.Width(r.Name, size))
		for i, v := range r.Cells {
			row.Cells = append(row.Cells, c.cell(v, false))
			if len(wide) == 1 || n > 0 { // heads may break
				wide[i] = max(wide[i], c.faces.Regular.Width(v, size))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	t.Rows[0].Rule = true
	spare := room.W - left - 20*unit.UM - unit.Length(len(wide))*(t.Gap+20*unit.UM)
	for _, n := range wide {
		spare -= n
	}
	if len(wide) > 1 {
		c.widen(wide, all[0].Cells, spare, size)
	}
	for _, n := range wide {
		right += t.Gap + n + 20*unit.UM
	}
	left = max(left, c.faces.Bold.Width(above[0], size)-right+20*unit.UM) + 20*unit.UM
	left = min(left, room.W-right)
	t.Cols = []flow.Col{{W: left}}
	for _, n := range wide {
		t.Cols = append(t.Cols, flow.Col{W: n + 20*unit.UM, Align: flow.Right})
	}
	w = left + right
	put := func(s string, bold bool) {
		if err == nil {
			var used unit.Length
			used, err = p.Para(page.Rect{X: room.X, Y: room.Y + h, W: w, H: room.H - h}, c.cell(s, bold), t.Style)
			h += used
		}
	}
	for i, s := range above {
		put(s, i == 0)
	}
	if err != nil {
		return 0, 0, err
	}
	h += size / 8 // the rule keeps off the letters that reach below their line
	used, err := p.Table(page.Rect{X: room.X, Y: room.Y + h, W: w, H: room.H - h}, t)
	if err != nil {
		return 0, 0, err
	}
	h += used
	for _, s := range below {
		put(s, false)
	}
	return w, h, err
}

// widen lets the heads of columns run on fewer lines, as far as there is room.
func (c *composer) widen(wide []unit.Length, heads []string, spare, size unit.Length) {
	for i, head := range heads {
		more := min(c.faces.Regular.Width(head, size)*11/20-wide[i], spare)
		if more > 0 {
			wide[i], spare = wide[i]+more, spare-more
		}
	}
}

// heads are the heads of the columns in all languages.
func (c *composer) heads() []string {
	var out []string
	for i := range c.Told[0].Table.Heads {
		out = append(out, c.joined(func(t *words.Table) string { return t.Heads[i] }))
	}
	return out
}

// around is what stands above and below a table with several columns: the
// heading, how many portions there are, and what the percentages are of.
func (c *composer) around() (above, below []string) {
	table := c.Told[0].Table
	above = []string{c.joined(func(t *words.Table) string { return t.Heading })}
	if table.Portion == "" { // the portion is what the figures are for
		above = append(above, c.joined(func(t *words.Table) string { return t.Per }))
	}
	above = append(above, c.joined(func(t *words.Table) string { return t.Portions }))
	if table.ReferenceOf != "" {
		below = []string{c.joined(func(t *words.Table) string { return t.ReferenceOf })}
	}
	return above, below
}

// joined puts the words of the languages side by side, each once.
func (c *composer) joined(of func(*words.Table) string) string {
	var all []string
	for _, t := range c.Told {
		if s := of(t.Table); !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return strings.Join(all, " / ")
}

func (c *composer) cell(s string, bold bool) text.Para {
	if bold {
		return flow.Strong(role.Nutrition, c.Pack.Nutrition.Pos, s)
	}
	return flow.Words(role.Nutrition, c.Pack.Nutrition.Pos, s)
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
		lines := [2][]string{}
		for _, v := range r.Cells {
			kj, kcal, _ := strings.Cut(v, " / ")
			lines[0], lines[1] = append(lines[0], kj), append(lines[1], kcal)
		}
		r.Cells = lines[0]
		if out = append(out, r); strings.Join(lines[1], "") != "" {
			out = append(out, words.Row{Cells: lines[1]})
		}
	}
	return out
}

// linear is the declaration of one language in running words; the figures of
// the columns behind the first stand in brackets.
func linear(t *words.Table) words.Said {
	var items []string
	for _, r := range t.Rows {
		items = append(items, r.Name+" "+bracketed(r.Cells))
	}
	what := t.Heading + " " + bracketed(t.Heads) + ": " + strings.Join(items, "; ") + "."
	if t.Portions != "" {
		what += " " + t.Portions + "."
	}
	if t.ReferenceOf != "" {
		what += " " + t.ReferenceOf
	}
	return words.Said{Role: role.Nutrition, Text: what, Strong: [][2]int{{0, len(t.Heading)}}, Src: t.Src}
}

func bracketed(cells []string) string {
	out := cells[0]
	if rest := slices.DeleteFunc(slices.Clone(cells[1:]), func(s string) bool { return s == "" }); len(rest) > 0 {
		out += " (" + strings.Join(rest, ", ") + ")"
	}
	return strings.ReplaceAll(out, " / ", "\u00a0/\u00a0")
}
