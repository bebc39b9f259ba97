package card

import (
	"errors"
	"slices"

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
	stop := min(max(w*21/100, u*79/10), u*10)
	put := min(max(w*36/100, u*13), u*21)
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

// body is what one page bears between its head and its foot.
type body struct {
	items []page.Item
	steps bool // whether steps are among them
}

// part is a block and what it belongs to: the steps, the lines of the table of
// sizes, or neither.
type part struct {
	flow.Block
	kind partKind
}

type partKind int

const (
	isNotice partKind = iota
	isStep
	isSize
)

func parts(kind partKind, blocks []flow.Block) []part {
	var out []part
	for _, b := range blocks {
		out = append(out, part{b, kind})
	}
	return out
}

// bodies deals the blocks out to pages. On the card of a formula the work
// against time is left out where it alone would take another page.
func (s *sheet) bodies(room func(int) page.Rect) []body {
	before := s.found.Errors()
	strip := s.timeline()
	out := s.dealt(room, strip)
	if s.Formula == nil || len(strip) == 0 || s.found.Errors() > before {
		return out
	}
	if without := s.dealt(room, nil); len(without) < len(out) {
		return without
	}
	return out
}

// dealt deals everything out to pages. A first step that is too high for the
// first page, which bears the facts, begins on the second; then the notices
// take its place. A step that is too high for any page is refused.
func (s *sheet) dealt(room func(int) page.Rect, strip []flow.Block) []body {
	before := s.found.Errors()
	steps, notices := parts(isStep, s.blocks()), parts(isNotice, s.notices())
	rest := slices.Concat(parts(isNotice, s.code()), parts(isNotice, strip), s.tableParts())
	if s.found.Errors() > before {
		return nil
	}
	var out []body
	all := slices.Concat(steps, notices, rest)
	left, err := s.deal(&out, room, all)
	if err != nil && left == len(all) {
		if _, err = s.deal(&out, room, notices); err == nil {
			_, err = s.deal(&out, room, append(steps, rest...))
		}
	}
	if err != nil {
		s.tooHigh(err)
		return nil
	}
	return out
}

// deal puts blocks on pages after those that out holds. Where a page begins
// within the table of sizes, the sizes stand above it again. It returns how
// many blocks did not go on to a page, with an error about the first of them.
func (s *sheet) deal(out *[]body, room func(int) page.Rect, all []part) (left int, err error) {
	for len(all) > 0 {
		area, pen := room(len(*out)), s.pen.Fresh()
		if all[0].kind == isSize {
			head := s.tableHead()
			pen.Add(head.Items, area.X, area.Y)
			area.Y, area.H = area.Y+head.H, area.H-head.H
		}
		blocks := make([]flow.Block, len(all))
		for i, p := range all {
			blocks[i] = p.Block
		}
		placed, _ := pen.Stack(area, 0, blocks)
		if placed == 0 {
			return len(all), &flow.Overflow{Need: together(blocks), Have: area.H, Src: blocks[0].Src}
		}
		*out = append(*out, body{pen.Items, all[0].kind == isStep})
		all = all[placed:]
	}
	return 0, nil
}

// together is how high the first blocks are that are tied to each other.
func together(blocks []flow.Block) unit.Length {
	var sum unit.Length
	for _, b := range blocks {
		sum += b.H
		if !b.Tied {
			break
		}
	}
	return sum
}

// tooHigh says which step alone is higher than the paper.
func (s *sheet) tooHigh(err error) {
	var over *flow.Overflow
	if !errors.As(err, &over) {
		_, src := s.id()
		report(s.found, src, err)
		return
	}
	s.found.Errorf(over.Src, "overflow", "take a larger paper or one language, or make two steps of it",
		"this does not fit on %s: %v, and letters are not made smaller", s.Stock.ID, err)
}

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
		top := s.stripHeight(strip) + head.H + names.H
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
		p := s.pen.Fresh()
		p.Add(s.strip(i+1, len(bodies)).Items, s.area.X, s.area.Y)
		p.Add(head.Items, s.area.X, s.area.Y+s.stripHeight(strip))
		if b.steps {
			p.Add(names.Items, s.area.X, s.area.Y+s.stripHeight(strip)+head.H)
		}
		p.Add(b.items, 0, 0)
		p.Add(s.foot(i+1, len(bodies)).Items, s.area.X, s.area.Bottom()-foot[min(i, 1)].H)
		out = append(out, &page.Page{W: s.Stock.Width.V, H: s.Stock.Height.V, Items: s.onDots(p.Items)})
	}
	return out
}
