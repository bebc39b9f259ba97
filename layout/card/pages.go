package card

import (
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

// note is what stands together outside the order of the steps; it may bring
// its own rule above it.
type note struct {
	blocks []flow.Block
	ruled  bool
}

// leaf is a page that is being filled, with the room that is left on it.
type leaf struct {
	*flow.Pen
	left  page.Rect
	steps bool
	ruled bool // whether a rule parts the steps from what stands below
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
	kept bool // how it is kept stands under a rule below the last step
	all  []*leaf
}

func (d *dealer) next() *leaf {
	l := &leaf{Pen: d.paper.Setter().Pen, left: d.room(len(d.all))}
	d.all = append(d.all, l)
	return l
}

// bodies deals the blocks out to pages, and takes of the orders in which the
// notes can be dealt the first that needs the fewest pages. How it is kept
// stands under the last step, or where that alone would take a page, among the
// notes.
func (s *sheet) bodies(room func(int) page.Rect) []body {
	before := s.found.Errors()
	strip := s.timeline()
	steps, keep, notes, table := s.blocks(), s.keepBlock(), s.notes(), s.tableBlocks()
	if s.found.Errors() > before {
		return nil
	}
	var best []body
	var fault error
	last := slices.Concat(steps, keep)
	for i, o := range s.orders(strip, notes) {
		out, err := s.dealt(dealer{sheet: s, room: room, kept: len(keep) > 0}, last, o, table)
		if i == 0 {
			fault = err
		}
		if err == nil && (best == nil || len(out) < len(best)) {
			best = out
		}
		if len(keep) == 0 {
			continue
		}
		if out, err := s.dealt(dealer{sheet: s, room: room}, steps, slices.Concat(o, []note{{keep, true}}), table); err == nil && best != nil && len(out) < len(best) {
			best = out
		}
	}
	if best == nil {
		s.tooHigh(fault)
	}
	return best
}

// orders are the ways to deal the notes: the work against time first; the code,
// the largest of the others, before them; and on the card of a formula, whose
// steps are few, without the work against time.
func (s *sheet) orders(strip []flow.Block, notes []note) [][]note {
	last := len(notes) - 1
	early := notes
	if s.Code {
		early = slices.Concat(notes[last:], notes[:last])
	}
	if len(strip) == 0 {
		return [][]note{notes, early}
	}
	first := []note{{strip, true}}
	out := [][]note{slices.Concat(first, notes), slices.Concat(first, early)}
	if s.Formula != nil {
		out = append(out, notes)
	}
	return out
}

// dealt deals the steps out to pages, then the notes, then the table of sizes.
// What a page has left under its steps takes those notes that fit.
func (s *sheet) dealt(d dealer, steps []flow.Block, notes []note, table []flow.Block) ([]body, error) {
	if err := d.steps(steps, &notes); err != nil {
		return nil, err
	}
	if err := d.rest(notes, table); err != nil {
		return nil, err
	}
	var out []body
	for _, l := range d.all {
		out = append(out, body{l.Items, l.steps})
	}
	return out, nil
}

// steps puts the steps on pages. The first page, which bears the facts, may be
// too low for the first step; a step that is too high for any other is an
// error.
func (d *dealer) steps(blocks []flow.Block, notes *[]note) error {
	for len(blocks) > 0 {
		l := d.next()
		n := l.take(blocks)
		if n == 0 && len(d.all) > 1 {
			return &flow.Overflow{Need: together(blocks), Have: l.left.H, Src: blocks[0].Src}
		}
		l.steps = n > 0
		if blocks = blocks[n:]; len(blocks) > 0 {
			d.fill(l, notes)
		}
	}
	return nil
}

// fill puts those notes under the steps of a page that fit there.
func (d *dealer) fill(l *leaf, notes *[]note) {
	var later []note
	for _, n := range *notes {
		if !d.note(l, n) {
			later = append(later, n)
		}
	}
	*notes = later
}

// note puts a note on a page, the first under a rule.
func (d *dealer) note(l *leaf, n note) bool {
	all := n.blocks
	if !l.ruled && l.steps && !n.ruled {
		all = append([]flow.Block{d.parting()}, all...)
	}
	whole := leaf{Pen: l.Fresh(), left: l.left}
	if whole.take(all) < len(all) {
		return false
	}
	l.take(all)
	l.ruled = true
	return true
}

// parting is a rule between the steps and what stands below them.
func (s *sheet) parting() flow.Block {
	_, src := s.id()
	return s.block(src, true, func(h *setter) unit.Length {
		h.Rule(0, s.z.pad, s.area.W, s.z.thick)
		return 2*s.z.pad + s.z.thick
	})
}

// rest puts what is left after the last step. Where a page begins within the
// table of sizes, the sizes stand above it again.
func (d *dealer) rest(notes []note, table []flow.Block) error {
	l := d.all[len(d.all)-1]
	l.ruled = l.ruled || d.kept
	for len(notes) > 0 {
		d.fill(l, &notes)
		if len(notes) == 0 {
			break
		}
		if l = d.next(); !d.note(l, notes[0]) {
			return &flow.Overflow{Need: together(notes[0].blocks), Have: l.left.H, Src: notes[0].blocks[0].Src}
		}
		notes = notes[1:]
	}
	return d.table(l, table)
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
