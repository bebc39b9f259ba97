package card

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// sheet sets what is said on one paper.
type sheet struct {
	Card
	said  *content
	faces *text.Faces
	z     sizes
	found *diag.List
	pen   flow.Pen

	area  page.Rect // where marks may lie
	cols  columns
	figs  flow.Figures // of the amounts
	ringW unit.Length  // room for the mark of the small scale
}

// span is a column.
type span struct{ X, W unit.Length }

// columns of the steps table. On a narrow paper the ingredients stand below
// what is done (Stacked).
type columns struct {
	no, do, put, stop span
	stacked           bool
}

// hand starts a section.
func (s *sheet) hand() *hand { return &hand{Pen: s.pen.Fresh(), z: s.z} }

// measure finds the area, the columns and the widest amount.
func (s *sheet) measure() {
	w, hgt := s.Stock.Size()
	s.area = page.Rect{W: w, H: hgt}.Inset(s.Stock.Safe.V + s.Dots.At(1)) // a rule may move by a dot
	var amounts []string
	for _, l := range s.said.Lanes {
		for _, p := range l.puts {
			amounts = append(amounts, p.shown())
		}
		if l.Total != "" {
			amounts = append(amounts, l.Total)
		}
	}
	s.figs = s.pen.Figures(s.decimal(), s.z.body, true, amounts...)
	if !s.said.Small.empty() {
		s.ringW = s.z.body * 3 / 4
	}
	s.cols = s.columns()
}

// decimal is the decimal mark of the first language.
func (s *sheet) decimal() string {
	return string([]rune(s.Langs[0].Plain(11, 1))[1:2])
}

// shown is the amount as it is printed.
func (p put) shown() string {
	if p.Aside {
		return "(" + p.Amount + ")"
	}
	return p.Amount
}

// columns shares out the width: numbers and temperatures take what they need,
// ingredients and words the rest.
func (s *sheet) columns() columns {
	u, w := s.z.small, s.area.W
	no, gap := u*21/10, u*9/10
	stop := min(max(w*20/100, u*78/10), u*10)
	put := min(max(w*35/100, u*13), u*17)
	var c columns
	c.no = span{0, no}
	c.stop = span{w - stop, stop}
	rest := w - no - stop - gap
	if rest-put-gap < u*10 {
		c.stacked = true
		c.do = span{no, rest}
		c.put = span{no, rest}
		return c
	}
	c.put = span{w - stop - gap - put, put}
	c.do = span{no, rest - put - gap}
	return c
}

// block makes one block of the body.
func (s *sheet) block(src diag.Pos, tied bool, set func(h *hand) unit.Length) flow.Block {
	h := s.hand()
	height := set(h)
	if h.err != nil {
		report(s.found, src, h.err)
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
	all = append(all, s.ends()...)
	return all
}

// pages deals the blocks out and draws what stands on every page.
func (s *sheet) pages() []*page.Page {
	first, again := s.head(true), s.head(false)
	strip := s.strip(99, 99)
	foot := [2]flow.Block{s.foot(1, 99), s.foot(99, 99)}
	_, src := s.id()
	room := func(i int) page.Rect {
		head := again
		if i == 0 {
			head = first
		}
		r := s.area
		top := s.stripHeight(strip) + head.H
		r.Y += top
		r.H -= top + foot[min(i, 1)].H
		return r
	}
	blocks := s.blocks()
	if s.found.Errors() > 0 {
		return nil
	}
	bodies, err := s.pen.Pages(room, 0, blocks)
	if err != nil {
		s.tooTall(src, err)
		return nil
	}
	var out []*page.Page
	for i, items := range bodies {
		head := again
		if i == 0 {
			head = first
		}
		p := s.pen.Fresh()
		p.Add(s.strip(i+1, len(bodies)).Items, s.area.X, s.area.Y)
		p.Add(head.Items, s.area.X, s.area.Y+s.stripHeight(strip))
		p.Add(items, 0, 0)
		p.Add(s.foot(i+1, len(bodies)).Items, s.area.X, s.area.Bottom()-foot[min(i, 1)].H)
		out = append(out, &page.Page{W: s.Stock.Width.V, H: s.Stock.Height.V, Items: p.Items})
	}
	return out
}

// tooTall says that a step alone is higher than the paper.
func (s *sheet) tooTall(src diag.Pos, err error) {
	report(s.found, src, err)
}
