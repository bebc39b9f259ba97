package card

import (
	"cmp"
	"strings"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// weighing is what is weighed: a bar for each sub-formula with its letter, its
// name and its sum, and a line for each amount. The unit stands in the heading.
func (s *sheet) weighing(c span, lanes []int) flow.Block {
	_, src := s.id()
	figs := s.paper.Setter().Figures(s.Langs[0].Decimal(), s.z.body, true, s.weights()...)
	return s.block(src, false, func(h *setter) unit.Length {
		y := s.weighHead(h, c)
		for _, i := range lanes {
			y += s.weighLane(h, c, y, &s.said.Lanes[i], figs)
		}
		for _, r := range s.rowsOf(lanes) {
			if r.Step.Picture != nil {
				y += s.hungPicture(h, c, y, r.Step)
			}
		}
		return y
	})
}

// weights are all figures of the column.
func (s *sheet) weights() []string {
	var out []string
	for i := range s.said.Lanes {
		l := &s.said.Lanes[i]
		for _, p := range append(l.puts[:len(l.puts):len(l.puts)], put{Amount: l.sum()}) {
			if !p.counted() {
				out = append(out, s.bare(p.Amount))
			}
		}
	}
	return out
}

func (s *sheet) weighHead(h *setter, c span) unit.Length {
	unit := s.z.faint()
	unit.align = flow.Right
	h.words(c.X, 0, c.W, role.Note, nowhere, s.gram(), unit)
	used := h.words(c.X, 0, c.W*3/4, role.Note, nowhere, s.said.teller.both("card.weigh"), s.z.faint())
	return used + s.z.pad/4
}

// gram is the unit of the column as the first language writes it.
func (s *sheet) gram() string {
	return strings.TrimLeft(s.Langs[0].MassIn(0, "g", 0), "0"+compose.NoBreak+" ")
}

// bare is an amount without its unit.
func (s *sheet) bare(amount string) string {
	return strings.TrimRight(strings.Replace(amount, s.gram(), "", 1), compose.NoBreak+" ")
}

// sum is what the bar of a lane says: what goes in where that is more than it
// makes, else what it makes.
func (l *lane) sum() string { return cmp.Or(l.In, l.Amount) }

// weighLane is the bar of a lane and its amounts.
func (s *sheet) weighLane(h *setter, c span, y unit.Length, l *lane, figs flow.Figures) unit.Length {
	used := s.weighBar(h, c, y, l, figs)
	for _, p := range l.puts {
		if !s.said.saidBefore(l, p) {
			used += s.weighLine(h, c, y+used, p, figs)
		}
	}
	return used
}

// saidBefore tells that the bar of another lane says an amount already: all of
// that lane goes in.
func (c *content) saidBefore(l *lane, p put) bool {
	for i := range c.Lanes {
		if of := &c.Lanes[i]; p.formula != nil && of.formula() == p.formula {
			return of.Amount == p.Amount
		}
	}
	return false
}

func (s *sheet) weighBar(h *setter, c span, y unit.Length, l *lane, figs flow.Figures) unit.Length {
	in := h.apart()
	x := s.mm(9)
	if l.Letter == "" {
		x = s.mm(2)
	}
	base := y + h.up(s.z.body)
	in.line(c.X+s.mm(2), base, role.Figure, l.Src, l.Letter, s.z.strong())
	s.weight(in, c.X+c.W-s.mm(2), base, put{Amount: l.sum(), Src: l.Src}, figs)
	p := put{Name: l.Name, Src: l.Src}
	if l.make == nil && l.Letter != "" {
		p.Name = s.said.teller.word("card.finish")
	}
	if l.In != "" {
		p.Hints = append(p.Hints, once(l.Makes, l.Amount))
	}
	room := c.W - x - s.weightW(in, put{Amount: l.sum()}, figs) - s.mm(4)
	used := max(s.names(in, span{c.X + x, room}, room, base, p, s.z.strong()), h.lead(s.z.body))
	h.Tint(page.Rect{X: c.X, Y: y, W: c.W, H: used}, tint)
	h.Take(in.Setter, 0, 0)
	return used
}

func (s *sheet) weighLine(h *setter, c span, y unit.Length, p put, figs flow.Figures) unit.Length {
	x := s.mm(9)
	room := c.W - x - s.weightW(h, p, figs) - s.mm(4)
	base := y + h.up(s.z.body)
	used := max(s.names(h, span{c.X + x, room}, room, base, p, s.z.plain()), h.lead(s.z.body))
	s.weight(h, c.X+c.W-s.mm(2), base, p, figs)
	h.Rule(c.X+x, y+used, c.W-x, s.z.hair)
	return used + s.z.hair
}

// weight sets a figure of the column: of what is counted at its right end.
func (s *sheet) weight(h *setter, right, base unit.Length, p put, figs flow.Figures) {
	l := look{size: s.z.body, bold: !p.Aside}
	if p.counted() {
		l.align = flow.Right
		h.line(right, base, role.Amount, p.Src, p.Amount, l)
		return
	}
	h.Figure(right, base, l.para(role.Amount, p.Src, s.bare(p.Amount)), l.style(), figs)
}

// weightW is how wide a figure of the column is.
func (s *sheet) weightW(h *setter, p put, figs flow.Figures) unit.Length {
	if p.counted() {
		return h.width(p.Amount, s.z.strong())
	}
	return figs.W()
}

// counted tells pieces from grams.
func (p put) counted() bool { return strings.Contains(p.Amount, "×") }
