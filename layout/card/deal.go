package card

import (
	"errors"
	"slices"

	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
)

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
	return s.block(src, true, func(h *hand) unit.Length {
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
