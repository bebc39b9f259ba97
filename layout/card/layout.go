package card

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
)

// sheet sets what is said on one paper.
type sheet struct {
	Card
	said  *content
	z     sizes
	found *diag.List
	paper *compose.Paper

	area  page.Rect // where marks may lie
	plan  plan      // of the wall form
	cols  columns
	figs  flow.Figures // of the amounts
	ringW unit.Length  // room for the mark of the small scale
}

// setter starts a section.
func (s *sheet) setter() *setter { return &setter{s.paper.Setter(), s.z, s.Form == Wall} }

// measure finds the area, the columns and the widest amount.
func (s *sheet) measure() {
	s.area = s.paper.Room()
	var amounts []string
	for _, l := range s.said.Lanes {
		for _, p := range l.puts {
			amounts = append(amounts, p.shown())
		}
		if l.Total != "" {
			amounts = append(amounts, l.Total)
		}
	}
	s.figs = s.paper.Setter().Figures(s.Langs[0].Decimal(), s.z.body, true, amounts...)
	if !s.said.Small.empty() {
		s.ringW = s.z.body * 3 / 4
	}
	s.cols = s.columns()
}

// block makes one block of the body.
func (s *sheet) block(src diag.Pos, tied bool, set func(h *setter) unit.Length) flow.Block {
	h := s.setter()
	height := set(h)
	if h.Err() != nil {
		report(s.found, src, h.Err())
	}
	return flow.Block{H: height, Items: h.Items, Tied: tied, Src: src}
}

// blocks are the body of the card in order.
func (s *sheet) blocks() []flow.Block {
	var all []flow.Block
	for _, r := range s.said.Rows {
		if r.Step == nil {
			all = append(all, s.laneHead(r))
			continue
		}
		all = append(all, s.stepRow(r.Step))
	}
	return all
}

// span is a column.
type span struct{ X, W unit.Length }

// columns of the steps table. A language that is written from right to left is
// not set yet; for it the columns change places here, and words begin at the
// right end of theirs (flow.Align), while figures keep their order. Nothing else
// knows where a column stands. On a narrow paper the ingredients stand below
// what is done (Stacked).
type columns struct {
	no, do, put, stop span
	stacked           bool
}

// columns shares out the width: numbers and temperatures take what they need,
// ingredients and words the rest. Where that is too little, the ingredients
// stand below. Other shares, tried by the height of all steps, won nothing on
// the cards of the demo shop.
func (s *sheet) columns() columns {
	u, w := s.z.small, s.area.W
	no, gap := u*21/10, u*9/10
	stop := min(max(w*21/100, u*79/10), u*10)
	put := min(max(w*36/100, u*13), u*21)
	if len(s.said.Hours) > 0 {
		no = u * 29 / 10 // a time of day stands under the number
	}
	var c columns
	c.no = span{0, no}
	c.stop = span{w - stop, stop}
	rest := w - no - stop - gap
	if rest-put-gap < u*95/10 {
		c.stacked = true
		c.do = span{no, rest}
		c.put = span{no, min(rest, u*17*unit.Length(len(s.Langs)))}
		return c
	}
	c.put = span{w - stop - gap*4/3 - put, put}
	c.do = span{no, c.put.X - gap - no}
	return c
}

// stepRow is one step: its number, what is done, what goes in, when to stop,
// each in its column on every page, and below them its limit in a box.
func (s *sheet) stepRow(st *step) flow.Block {
	return s.block(st.Src, false, func(h *setter) unit.Length { return s.step(h, st) })
}

func (s *sheet) step(h *setter, st *step) unit.Length {
	h.Rule(0, 0, s.area.W, s.z.hair)
	base := s.z.pad + h.up(s.z.key)
	if st.No > 0 {
		h.line(s.cols.no.X, base, role.Step, st.Src, s.Langs[0].Plain(int64(st.No), 0), s.z.big())
	}
	side := base + h.lead(s.z.key) - h.up(s.z.key)
	if st.Latest != "" {
		side += h.words(s.cols.no.X, side, s.cols.no.W, role.Note, st.Src, st.Latest, s.z.note())
	}
	low := max(side, s.stopping(h, base, st), s.doAndPut(h, base, st))
	if st.Picture != nil {
		low += s.picture(h, s.cols.do.X, s.area.W-s.cols.do.X, low, st.Picture)
	}
	for i, a := range slices.Concat(st.said(), st.Advice) {
		if i == 0 {
			low += s.z.pad / 2
		}
		low += s.advice(h, s.cols.do.X, a, low)
	}
	if st.Limit != nil {
		low += s.z.pad
		low += s.limit(h, page.Rect{X: s.cols.do.X, Y: low, W: s.area.W - s.cols.do.X, H: tall}, st.Limit)
	}
	return low + s.z.pad
}

// advice sets a sentence under a step, behind its icon.
func (s *sheet) advice(h *setter, from unit.Length, a advice, y unit.Length) unit.Length {
	x := from + s.z.small*5/4
	h.bit(from, y+h.up(s.z.small), bit{kind: isIcon, icon: a.Icon, look: s.z.note(), role: role.Note})
	var used unit.Length
	for i, t := range a.Said.In {
		l := s.z.of(i)
		l.bold = a.Bold
		used += h.words(x, y+used, s.area.W-x, role.Note, a.Said.Src, t, l)
	}
	return used
}

// of is the look of a note in the first or in the second language.
func (z sizes) of(language int) look {
	if language > 0 {
		return z.faint()
	}
	return z.note()
}

// doAndPut sets what is done beside what goes in, or above it on a narrow
// paper, and returns where both end.
func (s *sheet) doAndPut(h *setter, base unit.Length, st *step) unit.Length {
	y := s.doing(h, s.cols.do, base-h.up(s.z.read), st)
	if !s.cols.stacked {
		return max(s.keeping(h, s.cols.do, y, st), s.putting(h, s.cols.put, base-h.up(s.z.body), st))
	}
	if len(st.Puts)+len(st.Later) > 0 {
		y = s.putting(h, s.cols.put, y+s.z.pad, st)
	}
	return s.keeping(h, s.cols.do, y, st)
}

// doing sets what is done, with what, and what to be careful about; it returns
// where it ends.
func (s *sheet) doing(h *setter, c span, y unit.Length, st *step) unit.Length {
	y += s.verbs(h, c, y, st.Do)
	var all []group
	for i, t := range st.Tool.In {
		all = append(all, group{say("– "+t, role.Step, st.Tool.Src, s.z.of(i))})
	}
	for _, t := range st.Cautions {
		all = append(all, group{{kind: isIcon, icon: flow.Warning, look: s.z.note()}, say(t.joined(), role.Note, t.Src, look{size: s.z.small, bold: true})})
	}
	if len(all) > 0 {
		y += s.z.pad/2 + h.groups(c.X, y+s.z.pad/2, c.W, s.z.gap, all)
	}
	return y
}

// verbs sets what is done, the second language behind the first where a line
// holds both, else below.
func (s *sheet) verbs(h *setter, c span, y unit.Length, do told) unit.Length {
	l := s.z.text()
	if len(do.In) == 2 && do.In[0] != do.In[1] {
		first := h.width(do.In[0], l) + s.z.gap
		if first+h.width(do.In[1], s.z.faint()) <= c.W {
			h.line(c.X, y+h.up(l.size), role.Step, do.Src, do.In[0], l)
			h.line(c.X+first, y+h.up(l.size), role.Step, do.Src, do.In[1], s.z.faint())
			return h.lead(l.size)
		}
	}
	return h.told(c.X, y, c.W, role.Step, do, l)
}

// keeping sets how the formula is kept, after its last step.
func (s *sheet) keeping(h *setter, c span, y unit.Length, st *step) unit.Length {
	if st.Keep.empty() {
		return y
	}
	y += s.z.pad / 2
	for i, t := range st.Keep.In {
		y += h.words(c.X, y, c.W, role.Keep, st.Keep.Src, t, s.z.of(i))
	}
	return y
}
