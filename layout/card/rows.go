package card

import (
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// laneHead is the band that says which formula the steps below belong to, how
// much it makes, and how much of it a piece takes.
func (s *sheet) laneHead(r row) flow.Block {
	l := s.said.Lanes[r.Lane]
	return s.block(l.Src, true, func(h *hand) unit.Length {
		top := s.z.pad
		y := top + s.z.pad/2
		s.tinted(h, top, func(in *hand) unit.Length {
			base := y + in.up(s.z.key)
			in.line(s.z.pad, base, role.Step, l.Src, l.Letter, s.z.big())
			end := s.laneRight(in, base, l)
			name := l.Name
			if r.Again {
				name = with(" – ", name, numbered(s.said.teller.both("card.continued"), l.Src))
			}
			used := s.laneName(in, span{s.cols.do.X, end - s.cols.do.X - s.z.gap}, base, name)
			y += max(used+in.up(s.z.key)-in.up(s.z.body), in.lead(s.z.key)) + s.z.pad/2
			return y - top
		})
		return y
	})
}

// laneRight sets how much a lane makes at the right end, before it how much of
// it a piece takes, and returns where the two begin. Where the name wants the
// room, that is said in the first language alone; the facts have it in both.
func (s *sheet) laneRight(h *hand, base unit.Length, l lane) unit.Length {
	strong, note := s.z.strong(), s.z.faint()
	x := s.area.W - s.z.pad - h.width(l.Makes.first(), strong)
	h.line(x, base, role.Amount, l.Src, l.Makes.first(), strong)
	if l.Deposit.empty() {
		return x
	}
	words := l.Deposit.joined()
	if len(l.Name.In) > 1 {
		name := s.cols.do.X + h.width(l.Name.first(), strong) + s.z.gap + h.width(l.Name.In[1], note)
		if name+2*s.z.gap+h.width(words, note) > x {
			words = l.Deposit.first()
		}
	}
	x -= s.z.gap + h.width(words, note)
	h.line(x, base, role.Note, l.Src, words, note)
	return x
}

// laneName sets the name, the second language behind it where there is room,
// else below.
func (s *sheet) laneName(h *hand, c span, base unit.Length, name told) unit.Length {
	l := s.z.strong()
	first := h.width(name.first(), l) + s.z.gap
	if len(name.In) < 2 || name.In[0] == name.In[1] || first+h.width(name.In[1], s.z.faint()) > c.W {
		return h.told(c.X, base-h.up(l.size), c.W, role.Step, name, l)
	}
	h.line(c.X, base, role.Step, name.Src, name.In[0], l)
	h.line(c.X+first, base, role.Step, name.Src, name.In[1], s.z.faint())
	return h.lead(l.size)
}

// tinted fills a band across the card and sets words upon it.
func (s *sheet) tinted(h *hand, y unit.Length, set func(*hand) unit.Length) {
	in := h.apart()
	high := set(in)
	h.Tint(page.Rect{X: 0, Y: y, W: s.area.W, H: high}, tint)
	h.Take(in.Setter, 0, 0)
}

// tint is a grey of 9 % black; words want at most 15 %.
const tint = 232

// putting sets the amounts of a step, and below the last of its lane the sum,
// so that the column adds up; it returns where they end.
func (s *sheet) putting(h *hand, c span, y unit.Length, st *step) unit.Length {
	for _, p := range st.Puts {
		y += s.put(h, c, y, p)
	}
	for _, p := range st.Later {
		y += h.told(c.X, y, c.W, role.Step, p.Name, s.z.faint())
	}
	if st.Total != "" {
		y += s.total(h, c, y, st)
	}
	return y
}

// total sets the sum of a lane under a rule.
func (s *sheet) total(h *hand, c span, y unit.Length, st *step) unit.Length {
	right := c.X + c.W - s.ringW
	h.Rule(right-s.figs.W(), y+s.z.pad*3/4, s.figs.W(), s.z.rule)
	base := y + s.z.pad + h.up(s.z.body)
	s.figure(h, right, base, put{Amount: st.Total, Src: st.Src})
	note := s.z.faint()
	note.align = flow.Right
	h.line(right-s.figs.W()-s.z.gap, base, role.Note, st.Src, with(compose.NoBreak, numbered(s.said.teller.both("card.total"), st.Src), st.TotalOf).joined(), note)
	return s.z.pad + h.lead(s.z.body)
}

// figure sets an amount into the column of amounts.
func (s *sheet) figure(h *hand, right, base unit.Length, p put) {
	l := look{size: s.z.body, bold: !p.Aside}
	h.Figure(right, base, l.para(role.Amount, p.Src, p.shown()), l.style(), s.figs)
	if p.Small {
		d := s.z.body * 45 / 100
		h.ring(right+s.ringW-d, base-h.Faces.Regular.XHeight(s.z.body)/2-d/2, d)
	}
}

// put sets one amount: the name, on its first line the figure, beside or below
// the name what helps to weigh it.
func (s *sheet) put(h *hand, c span, y unit.Length, p put) unit.Length {
	right := c.X + c.W - s.ringW
	room := c.W - s.ringW - s.figs.W() - s.z.gap/2
	base := y + h.up(s.z.body)
	try := h.apart()
	used := s.names(try, span{c.X, room}, c.W, base, p)
	if try.Err() != nil { // a long word: the figure goes below it
		try = h.apart()
		used = s.names(try, c, c.W, base, p)
		base += used
		used += h.lead(s.z.body)
	}
	h.Take(try.Setter, 0, 0)
	s.figure(h, right, base, p)
	return max(used, h.lead(s.z.body))
}

// names sets the name in the first language, then the second and the hints
// behind it where the line has room, else below, where the figure leaves them
// the width of the column. It returns the height.
func (s *sheet) names(h *hand, c span, below, base unit.Length, p put) unit.Length {
	l := s.z.text()
	para := l.para(role.Step, p.Src, p.Name.first())
	if p.Letter != "" {
		para.Spans = append([]text.Span{{Text: p.Letter + compose.NoBreak, Bold: true}}, para.Spans...)
	}
	used := h.para(c.X, base-h.up(l.size), c.W, para, l)
	after := c.X + h.Width(para, l.size) + s.z.small/2
	for i, t := range s.asides(p) {
		as := role.Step
		if i >= len(p.Name.In)-1 || p.Name.In[1] == p.Name.In[0] {
			as = role.Note
		}
		w := h.width(t, s.z.faint())
		if after+w <= c.X+c.W {
			h.line(after, base, as, p.Src, t, s.z.faint())
			after += w + s.z.small/2
			continue
		}
		used += h.words(c.X, base-h.up(l.size)+used, below, as, p.Src, t, s.z.faint())
		after = c.X + c.W
	}
	return used
}

// asides is what is said of an amount besides its first name.
func (s *sheet) asides(p put) []string {
	var out []string
	if len(p.Name.In) > 1 && p.Name.In[1] != p.Name.In[0] {
		out = append(out, p.Name.In[1])
	}
	if p.Share != "" {
		out = append(out, p.Share)
	}
	for _, t := range p.Hints {
		out = append(out, t.joined())
	}
	return out
}
