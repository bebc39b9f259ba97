package card

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

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

// pages deals out what bodies gives and draws what stands on every page.
func (s *sheet) pages(deal func(room func(int) page.Rect) []body) []*page.Page {
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
	bodies := deal(room)
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

// body is what one page bears between its head and its foot.
type body struct {
	items []page.Item
	steps bool // whether steps are among them
}

// leaf is a page that is being filled, with the room that is left on it.
type leaf struct {
	*flow.Pen
	left  page.Rect
	steps bool
}

// take puts as many blocks as fit on to the leaf and returns how many.
func (l *leaf) take(blocks []flow.Block) int {
	n, used := l.Stack(l.left, 0, blocks)
	l.left.Y, l.left.H = l.left.Y+used, l.left.H-used
	return n
}

// dealer deals blocks out to pages.
type dealer struct {
	*sheet
	room func(int) page.Rect
	all  []*leaf
}

func (d *dealer) next() *leaf {
	l := &leaf{Pen: d.paper.Setter().Pen, left: d.room(len(d.all))}
	d.all = append(d.all, l)
	return l
}

// bodies deals the steps out to pages, and after the last step what stands
// outside their order, the same on every card and in the same order. Where that
// would have a page to itself, so many of the last steps go along that none has:
// a page that nobody works from is not looked at.
func (s *sheet) bodies(room func(int) page.Rect) []body {
	before := s.found.Errors()
	steps, notes, table := s.blocks(), s.notes(), s.tableBlocks()
	if s.found.Errors() > before {
		return nil
	}
	var best, any []body
	var fault error
	for along := range min(len(steps), mostAlong) + 1 {
		out, err := s.dealt(room, steps, along, notes, table)
		switch {
		case err != nil:
			fault = cmp.Or(fault, err)
			continue
		case any == nil || len(out) < len(any):
			any = out
		}
		if best == nil && !slices.ContainsFunc(out, func(b body) bool { return !b.steps }) {
			best = out
		}
	}
	switch {
	case best != nil && len(best) <= len(any):
		return best
	case any == nil:
		s.tooHigh(fault)
	}
	return any
}

// mostAlong is how many of the last steps may go over to the page of the notes.
const mostAlong = 6

// dealt deals the steps out, the last ones, along in number, on to a page of
// their own together with the notes, and then the table of sizes.
func (s *sheet) dealt(room func(int) page.Rect, steps []flow.Block, along int, notes, table []flow.Block) ([]body, error) {
	d := dealer{sheet: s, room: room}
	cut := len(steps) - along
	if err := d.deal(steps[:cut], true); err != nil {
		return nil, err
	}
	d.begin(along > 0 && cut > 0)
	if err := d.deal(steps[cut:], true); err != nil {
		return nil, err
	}
	if err := d.deal(notes, false); err != nil {
		return nil, err
	}
	if err := d.table(d.all[len(d.all)-1], table); err != nil {
		return nil, err
	}
	var out []body
	for _, l := range d.all {
		out = append(out, body{l.Items, l.steps})
	}
	return out, nil
}

// begin begins a new page where one is asked for and not begun.
func (d *dealer) begin(anew bool) {
	if anew || len(d.all) == 0 {
		d.next()
	}
}

// deal puts blocks on the last page and those after it. The first page, which
// bears the facts, may be too low for the first block; a block that is too high
// for any other is an error.
func (d *dealer) deal(blocks []flow.Block, steps bool) error {
	d.begin(false)
	for fresh := len(d.all) == 1; ; fresh = true {
		l := d.all[len(d.all)-1]
		n := l.take(blocks)
		l.steps = l.steps || steps && n > 0
		if blocks = blocks[n:]; len(blocks) == 0 {
			return nil
		}
		if n == 0 && fresh && len(d.all) > 1 {
			return &flow.Overflow{Need: together(blocks), Have: l.left.H, Src: blocks[0].Src}
		}
		d.next()
	}
}

// table puts the table of sizes on l and the pages after it.
func (d *dealer) table(l *leaf, table []flow.Block) error {
	for fresh := false; len(table) > 0; fresh = true {
		if fresh {
			l = d.next()
		}
		all := append([]flow.Block{d.tableHead()}, table...)
		n := l.take(all)
		if n == 0 && fresh {
			return &flow.Overflow{Need: together(all), Have: l.left.H, Src: table[0].Src}
		}
		table = table[max(0, n-1):]
	}
	return nil
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

// pageOf is "1/2", which every language reads.
func pageOf(n, of int) string { return fmt.Sprintf("%d/%d", n, of) }

// foot stands at the end of every page: which version this is, who stands for
// it, which copy and where; on the first page a check of the probe too.
func (s *sheet) foot(n, of int) flow.Block {
	_, src := s.id()
	return s.block(src, false, func(h *setter) unit.Length {
		y := s.z.pad
		h.Rule(0, y, s.area.W, s.z.rule)
		y += s.z.rule + s.z.pad/2
		all := s.control(h, n, of)
		if n == 1 {
			all = append(all, s.probe()...)
		}
		return y + h.groups(0, y, s.area.W, s.z.gap, all)
	})
}

// control says which card this is, who stands for it, and where it hangs.
func (s *sheet) control(h *setter, n, of int) []group {
	note, faint, strong := s.z.note(), s.z.faint(), look{size: s.z.small, bold: true}
	words := func(t string, l look) bit { return say(t, role.Note, diag.Pos{}, l) }
	orBlank := func(what, t string) group {
		if t == "" {
			return group{words(what, faint), {kind: isBlank, look: note, wide: s.z.small * 4}}
		}
		return group{words(what, faint), words(t, note)}
	}
	all := []group{{words(s.said.Version, strong), words(s.said.Issued, note)}, {words(s.said.Word, strong)}, {words(pageOf(n, of), strong)},
		orBlank(s.said.teller.Word("card.approved-by"), s.said.Approved)}
	if s.Copies > 0 {
		all = append(all, group{words(s.copyOf(), note)})
	}
	place := orBlank(s.said.teller.Word("card.place"), s.Place)
	all = append(all, place)
	s.stretch(h, place, all)
	return all
}

// stretch lets the line to write the place on take the rest of its row.
func (s *sheet) stretch(h *setter, place group, all []group) {
	rest := s.area.W - s.z.gap*unit.Length(len(all)-1)
	for _, g := range all {
		rest -= h.groupWidth(g)
	}
	if last := &place[len(place)-1]; last.kind == isBlank && rest > 0 {
		last.wide += min(rest, s.z.small*8)
	}
}

// probe is the check of the thermometer, to be ticked.
func (s *sheet) probe() []group {
	note := s.z.note()
	tick := bit{kind: isTick, look: note}
	words := func(key string, l look) bit { return say(s.said.teller.both(key), role.Note, diag.Pos{}, l) }
	return []group{{{kind: isIcon, icon: flow.Probe, look: note}, words("probe.check", s.z.faint())},
		{tick, words("probe.ice", note)}, {tick, words("probe.boiling", note)}}
}

// copyOf is "copy 2 of 3".
func (s *sheet) copyOf() string {
	return s.said.teller.Fill("card.copy", map[string]string{"n": fmt.Sprint(s.Copy), "m": fmt.Sprint(s.Copies)})
}
