package card

import (
	"chablon/labels/diag"
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
	cols  columns
	figs  flow.Figures // of the amounts
	ringW unit.Length  // room for the mark of the small scale
}

// hand starts a section.
func (s *sheet) hand() *hand { return &hand{s.paper.Setter(), s.z} }

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

// shown is the amount as it is printed.
func (p put) shown() string {
	if p.Aside {
		return "(" + p.Amount + ")"
	}
	return p.Amount
}

// block makes one block of the body.
func (s *sheet) block(src diag.Pos, tied bool, set func(h *hand) unit.Length) flow.Block {
	h := s.hand()
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

// onDots moves codes, by less than a dot, to where their modules are whole dots
// of the printer.
func (s *sheet) onDots(items []page.Item) []page.Item {
	for i, it := range items {
		if it.Symbol != nil {
			b := it.Symbol.Bars
			items[i] = it.Moved(s.Dots.Snap(b.X)-b.X, s.Dots.Snap(b.Y)-b.Y)
		}
	}
	return items
}

// named tells whether page i names the columns; on a narrow paper, which has
// only two, once is enough.
func (s *sheet) named(i int) bool { return i == 0 || !s.cols.stacked }

// pages deals the blocks out and draws what stands on every page.
func (s *sheet) pages() []*page.Page {
	first, again, names := s.head(true), s.head(false), s.columnHeads()
	strip := s.strip(99, 99)
	foot := [2]flow.Block{s.foot(1, 99), s.foot(99, 99)}
	room := func(i int) page.Rect {
		head := again
		if i == 0 {
			head = first
		}
		r := s.area
		top := s.stripHeight(strip) + head.H
		if s.named(i) {
			top += names.H
		}
		r.Y += top
		r.H -= top + foot[min(i, 1)].H
		return r
	}
	bodies := s.bodies(room)
	var out []*page.Page
	for i, b := range bodies {
		head := again
		if i == 0 {
			head = first
		}
		p := s.paper.Setter()
		p.Add(s.strip(i+1, len(bodies)).Items, s.area.X, s.area.Y)
		p.Add(head.Items, s.area.X, s.area.Y+s.stripHeight(strip))
		if b.steps && s.named(i) {
			p.Add(names.Items, s.area.X, s.area.Y+s.stripHeight(strip)+head.H)
		}
		p.Add(b.items, 0, 0)
		p.Add(s.foot(i+1, len(bodies)).Items, s.area.X, s.area.Bottom()-foot[min(i, 1)].H)
		w, h := s.Stock.Size()
		out = append(out, s.paper.Page(append(s.onDots(p.Items), corners(w, h, s.Stock.Safe.V)...)))
	}
	return out
}
