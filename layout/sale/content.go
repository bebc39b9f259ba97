package sale

import (
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// several reports whether the label speaks several languages: then date and
// storage stand with the words of each.
func (c *label) several() bool { return len(c.Told) > 1 }

// phrase is a particular as a paragraph, its emphasis in bold; a date is bold.
func phrase(s words.Said) text.Para {
	if s.Role == role.Date && s.Text != "" {
		return flow.Strong(s.Role, s.Src, s.Text)
	}
	return compose.Phrase(s)
}

// row strings short sentences together in one paragraph, which has the role of
// the first of them; each keeps its place.
func row(said []words.Said) text.Para {
	var out text.Para
	for _, s := range said {
		if s.Text == "" {
			continue
		}
		q := phrase(s)
		for i := range q.Spans {
			q.Spans[i].Src = s.Src
		}
		if len(out.Spans) == 0 {
			out.Role, out.Src = q.Role, q.Src
		} else {
			out.Spans = append(out.Spans, text.Span{Text: " "})
		}
		out.Spans = append(out.Spans, q.Spans...)
	}
	return out
}

// netOf is the net quantity as the market counts it.
func netOf(f *declare.Facts) market.Quantity { return market.Quantity{Mass: f.Pack.Net.V} }

// pieces says in all languages how many pieces there are, or nothing.
func (c *label) pieces() words.Said {
	var all []string
	for _, t := range c.Told {
		if t.Net.Pieces.Text != "" {
			all = append(all, t.Net.Pieces.Text)
		}
	}
	return words.Said{Role: role.Note, Text: strings.Join(all, " / "), Src: c.Pack.Pieces.Pos}
}

// pay says what a pack that is sold by weight costs; nothing where the label
// bears no price.
func (c *label) pay() words.Said {
	m, ok := c.Pack.Pay()
	if !ok {
		return words.Said{}
	}
	return words.Said{Role: role.Price, Text: c.Langs[0].Money(m), Src: c.Pack.PerKilo.Pos}
}

// perKilo says the price of a kilogram beside it (Directive 98/6/EC Art. 3(1):
// the selling price and the unit price; from memory).
func (c *label) perKilo() words.Said {
	if c.pay().Text == "" {
		return words.Said{}
	}
	kg, _ := c.Langs[0].Word("unit.kg") // every language has it
	return words.Said{Role: role.Note, Text: c.Langs[0].Money(c.Pack.PerKilo.V) + compose.NoBreak + "/" + compose.NoBreak + kg, Src: c.Pack.PerKilo.Pos}
}

// lot is the batch code with the letter that the law puts before it.
func (c *label) lot() string {
	if letter := c.Facts.Market.Lot.Letter; !strings.HasPrefix(c.Batch, letter) {
		return letter + " " + c.Batch
	}
	return c.Batch
}

// heads are the heads of the columns in all languages.
func (c *label) heads() []string {
	var out []string
	for i := range c.Told[0].Table.Heads {
		out = append(out, c.joined(func(t *words.Table) string { return t.Heads[i] }))
	}
	return out
}

// around is what stands above and below a table with several columns: the
// heading, how many portions there are, and what the percentages are of.
func (c *label) around() (above, below []string) {
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
func (c *label) joined(of func(*words.Table) string) string {
	var all []string
	for _, t := range c.Told {
		if s := of(t.Table); !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return strings.Join(all, " / ")
}

// heading is the heading of the table in all languages and what it is for.
func (c *label) heading(sep string) string {
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
