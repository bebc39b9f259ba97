package card

import (
	"cmp"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// table is other batch sizes beside the one of the day.
type table struct {
	Sizes  []string // "24", "48", "96" pieces, or masses
	Of     told     // what is counted
	Chosen int
	Rows   []tableRow
}

// tableRow is one line: the head of a lane or an amount.
type tableRow struct {
	Lane    bool
	Letter  string
	Name    told
	Aside   bool
	Amounts []string
	Src     diag.Pos
}

// sizeTable says the amounts of all sizes, where there is more than one.
func (t *teller) sizeTable(out *content) {
	all := t.allSizes()
	if len(all) < 2 {
		return
	}
	tb := &table{Of: t.word("card.choose-size")}
	for i, b := range all {
		if b == t.Batch {
			tb.Chosen = i
		}
		tb.Sizes = append(tb.Sizes, t.sizeOf(b))
	}
	heads := map[string][]string{}
	for i := range out.Lanes {
		rows := t.tableLane(&out.Lanes[i], i, all)
		heads[rows[0].Letter] = rows[0].Amounts
		for j, r := range rows {
			if j == 0 || r.Letter == "" || r.Aside || !slices.Equal(r.Amounts, heads[r.Letter]) {
				tb.Rows = append(tb.Rows, r) // else the head of its lane has said it
			}
		}
	}
	for _, r := range tb.Rows {
		if len(r.Amounts) != len(all) {
			_, src := t.id()
			t.Found().Errorf(src, "card", "give batches of one product", "the batch sizes are not of one product")
			return
		}
	}
	out.Table = tb
}

// allSizes are the sizes from small to large, the one of the card among them.
func (t *teller) allSizes() []*scale.Batch {
	var all []*scale.Batch
	own := false
	sizes := slices.Clone(t.Sizes)
	slices.SortStableFunc(sizes, func(a, b *scale.Batch) int {
		if a == nil || b == nil {
			return 0
		}
		return cmp.Compare(a.Out, b.Out)
	})
	for _, b := range sizes {
		if b == nil || b.Product != t.Batch.Product || b.Formula != t.Batch.Formula {
			continue
		}
		if b.Out == t.Batch.Out {
			b, own = t.Batch, true
		} else if !own && b.Out > t.Batch.Out {
			all, own = append(all, t.Batch), true
		}
		all = append(all, b)
	}
	if !own {
		all = append(all, t.Batch)
	}
	return all
}

func (t *teller) sizeOf(b *scale.Batch) string {
	if b.Product == nil {
		return t.readable(b.Out)
	}
	return t.Lang().Plain(int64(b.Pieces), 0)
}

// tableLane is the rows of lane at.
func (t *teller) tableLane(l *lane, at int, all []*scale.Batch) []tableRow {
	head := tableRow{Lane: true, Letter: l.Letter, Name: l.Name, Src: l.Src}
	rows := make([]tableRow, len(l.puts))
	for i, p := range l.puts {
		rows[i] = tableRow{Letter: p.Letter, Name: p.Name, Aside: p.Aside, Src: p.Src}
	}
	for _, b := range all {
		column := b.Lines
		if l.make == nil {
			head.Amounts = append(head.Amounts, t.sizeOf(b))
		} else if at < len(b.Makes) {
			m := b.Makes[at]
			head.Amounts = append(head.Amounts, t.made(b, &m))
			column = m.Lines
			if m.Medium != nil {
				column = append(column[:len(column):len(column)], *m.Medium)
			}
		}
		t.fillColumn(rows, column, b.Parts, l.make == nil)
	}
	return append([]tableRow{head}, rows...)
}

func (t *teller) fillColumn(rows []tableRow, column []scale.Amount, parts []scale.Part, product bool) {
	for i := range rows {
		switch {
		case i < len(column):
			p := put{Amount: t.grams(column[i].Shown, column[i].Step), Aside: rows[i].Aside}
			rows[i].Amounts = append(rows[i].Amounts, p.shown())
		case product && i-len(column) < len(parts):
			n := int64(parts[i-len(column)].Pieces)
			rows[i].Amounts = append(rows[i].Amounts, t.Lang().Plain(n, 0)+compose.NoBreak+"×")
		}
	}
}

// tableCols is where the columns of the table stand.
type tableCols struct {
	name  span
	right []unit.Length
	figs  []flow.Figures
}

// tableBlocks set the table of batch sizes, the chosen one boxed. The lines of a
// lane stay together where they are few.
func (s *sheet) tableBlocks() []flow.Block {
	t := s.said.Table
	if t == nil {
		return nil
	}
	c := s.tableCols(t)
	var out []flow.Block
	for i, r := range t.Rows {
		last := i+1 == len(t.Rows)
		set := func(h *setter) unit.Length { return s.tableRow(h, t, c, r, last) }
		out = append(out, s.block(r.Src, !last && !t.Rows[i+1].Lane && (r.Lane || t.few(i)), set))
	}
	return out
}

// sizesBeside is the table of batch sizes on sheets of its own, which hang beside
// the card.
func (s *sheet) sizesBeside() []*page.Page {
	if s.said.Table == nil || s.found.Errors() > 0 {
		return nil
	}
	s.plan = plan{sentence: capSentence, grown: 100}
	s.z = s.hungSizes(s.plan)
	s.measure()
	return s.pages(func(room func(int) page.Rect) []body {
		d := dealer{sheet: s, room: room}
		if err := d.table(d.next(), s.tableBlocks()); err != nil {
			s.tooHigh(err)
		}
		var out []body
		for _, l := range d.all {
			out = append(out, body{items: l.Items})
		}
		return out
	})
}

// few tells that the lane of row i is short enough to stay together.
func (t *table) few(i int) bool {
	const most = 10
	from, to := i, i
	for from > 0 && !t.Rows[from].Lane {
		from--
	}
	for to+1 < len(t.Rows) && !t.Rows[to+1].Lane {
		to++
	}
	return to-from <= most
}

func (s *sheet) tableCols(t *table) tableCols {
	var c tableCols
	x := s.area.W - s.z.gap
	c.right, c.figs = make([]unit.Length, len(t.Sizes)), make([]flow.Figures, len(t.Sizes))
	for i := len(t.Sizes) - 1; i >= 0; i-- {
		amounts := []string{t.Sizes[i]}
		for _, r := range t.Rows {
			amounts = append(amounts, r.Amounts[i])
		}
		c.figs[i] = s.paper.Setter().Figures(s.Langs[0].Decimal(), s.z.body, true, amounts...)
		c.right[i] = x
		x -= c.figs[i].W() + 2*s.z.gap
	}
	c.name = span{0, x}
	return c
}

// tableSides draws the sides of the chosen column along one block.
func (s *sheet) tableSides(h *setter, t *table, c tableCols, y, high unit.Length) (x, w unit.Length) {
	x = c.right[t.Chosen] - c.figs[t.Chosen].W() - s.z.gap*2/3
	w = c.figs[t.Chosen].W() + s.z.gap*4/3
	h.Upright(x, y, high, s.z.thick)
	h.Upright(x+w-s.z.thick, y, high, s.z.thick)
	return x, w
}

// tableHead is the row of the sizes.
func (s *sheet) tableHead() flow.Block {
	_, src := s.id()
	t := s.said.Table
	c := s.tableCols(t)
	return s.block(src, true, func(h *setter) unit.Length {
		h.Rule(0, s.z.pad, s.area.W, s.z.thick)
		top := 2*s.z.pad + s.z.thick
		base := top + s.z.pad/2 + h.up(s.z.key)
		h.line(0, base, role.Step, src, t.Of.joined(), s.z.strong())
		for i, n := range t.Sizes {
			l := s.z.big()
			l.align = flow.Right
			h.line(c.right[i], base, role.Amount, src, n, l)
		}
		end := base + h.lead(s.z.key) - h.up(s.z.key)
		x, w := s.tableSides(h, t, c, top, end-top)
		h.Rule(x, top, w, s.z.thick)
		return end
	})
}

// tableRow sets one line of the table and returns its height.
func (s *sheet) tableRow(h *setter, t *table, c tableCols, r tableRow, last bool) unit.Length {
	y, bold := s.z.pad/8, false
	if r.Lane {
		h.Rule(0, 0, s.area.W, s.z.hair)
		y, bold = s.z.pad/2, true
	}
	base := y + h.up(s.z.body)
	name := put{Letter: r.Letter, Name: r.Name, Src: r.Src}
	used := s.names(h, c.name, c.name.W, base, name, s.z.text())
	for i, a := range r.Amounts {
		l := look{size: s.z.body, bold: bold || i == t.Chosen}
		h.Figure(c.right[i], base, l.para(role.Amount, r.Src, a), l.style(), c.figs[i])
	}
	high := y + max(used, h.lead(s.z.body)) + s.z.pad/8
	x, w := s.tableSides(h, t, c, 0, high)
	if last {
		h.Rule(x, high, w, s.z.thick)
		high += s.z.thick
	}
	return high
}
