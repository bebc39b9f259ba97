// Package sale answers: what goes on the sale label?
//
// [Compose] sets one label: for each language the name, the ingredient list
// and the precautionary line; below, side by side, the bar code, the nutrition
// declaration, and the facts (net quantity, date, storage, batch, operator).
// The words are set at the largest size that fits, and never below the least
// that the market asks. What does not fit is refused with remedies.
//
// What stands still becomes an artwork; the running number is the label's own.
package sale

import (
	"errors"
	"fmt"
	"slices"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Label is what is to be set.
type Label struct {
	Facts   *declare.Facts
	Pack    *shop.Pack
	Told    []*words.Label // one for each language, in order
	Langs   []*words.Lang
	Batch   string
	Batched diag.Pos // where the batch code comes from
	Digits  int      // digits of the largest running number; 0 for no number
	Stock   *stock.Stock
	Dots    unit.Dots
}

// Set is a finished label: the artwork and where the running number goes.
type Set struct {
	Art  *page.Art
	Safe page.Rect

	serial page.Item
	digits int
}

// Own are the marks of the label with the running number n, relative to the
// artwork.
func (s *Set) Own(n int) []page.Item {
	if s.digits == 0 {
		return nil
	}
	it := s.serial
	run := *it.Run
	run.Text = fmt.Sprintf("%0*d", s.digits, n)
	it.Run = &run
	return []page.Item{it}
}

// Compose sets the label. It returns nil, with a finding, when the words do
// not fit at the least legal size.
func Compose(l Label, faces *text.Faces, found *diag.List) *Set {
	w, h := l.Stock.Size()
	c := &composer{Label: l, faces: faces, pen: (&flow.Pen{Faces: faces, Dots: l.Dots}).Fresh(), safe: page.Rect{W: w, H: h}.Inset(l.Stock.Safe.V)}
	c.area = c.safe
	if l.Dots.N > 0 {
		c.area = c.safe.Inset(l.Dots.At(1)) // a rule may move by a dot
	}
	if err := c.bars(); err != nil {
		found.Errorf(l.Pack.GTIN.Pos, "bars", "choose a larger paper, or another printer", "the bar code cannot be set: %v", err)
		return nil
	}
	for _, like := range c.ways() {
		if best := c.best(like); best != nil {
			return c.finish(best)
		}
	}
	c.refuse(found)
	return nil
}

// try is one arrangement that fits.
type try struct {
	pen    *flow.Pen
	serial page.Item
	size   unit.Length
}

// best is the first arrangement that fits, or a later one whose letters are
// larger by more than a twentieth; nil where none fits.
func (c *composer) best(among []way) *try {
	var best *try
	for _, how := range among {
		least := c.least()
		if best != nil {
			least = c.twentieth(best.size)
		}
		if t := c.largest(how, least); t != nil {
			best = t
		}
	}
	return best
}

// composer is one label under way.
type composer struct {
	Label
	faces *text.Faces
	safe  page.Rect // where marks may lie
	area  page.Rect // where words are set
	code  *code     // nil when the pack has no bar code
	last  error     // why the last try did not fit

	pen *flow.Pen // keeps the words that an earlier try made ready
}

// way is one arrangement.
type way struct {
	table bool // the nutrition declaration as a table, not as lines
	over  bool // the facts over the bar code, not beside it
	airy  bool // white between blocks that belong together less
	wide  bool // the operator below the lists, which leaves a table more room
}

// ways lists the arrangements to try, the best first; an earlier group is taken
// whenever it fits. Reg. (EU) 1169/2011 Art. 34(2): a table if space permits,
// lines otherwise. Words of several languages side by side make a table wide,
// so it has more room when the facts stand over the bar code.
func (c *composer) ways() [][]way {
	beside, over := []way{{airy: true}, {}}, []way{{over: true, airy: true}, {over: true}}
	wide := []way{{wide: true, airy: true}, {wide: true}}
	lines := slices.Concat(wide, beside, over)
	if c.code == nil {
		lines = beside
	} else if c.several() {
		lines = slices.Concat(over, wide, beside)
	}
	if len(c.Told) == 0 || c.Told[0].Table == nil {
		return [][]way{lines}
	}
	var tables []way
	for _, w := range lines {
		w.table = true
		tables = append(tables, w)
	}
	if !slices.Contains(c.Facts.Market.Nutrition.Per, "100g") {
		return [][]way{tables} // 21 CFR 101.9(d), C.R.C., c. 870, B.01.450: a panel
	}
	return [][]way{tables, lines}
}

// house is the least x-height where the law of a market gives no number
// ("easily legible"): the smaller one of Reg. (EU) 1169/2011 Art. 13(3).
const house = 900 * unit.UM

// least is the smallest size of the face that the market allows for every
// particular on this pack.
func (c *composer) least() unit.Length {
	x := house
	for _, what := range []role.Role{"", role.List, role.Name} {
		x = max(x, c.Facts.Market.XHeightOf(what, c.Pack.Face.V).Least)
	}
	return c.faces.Regular.SizeForX(x)
}

// most is the largest size that is tried: beyond it a label looks like a poster.
func (c *composer) most() unit.Length { return max(c.least(), text.Hundredths(1000)) }

// fineness is the step between sizes that are tried, in hundredths of a point.
const fineness = 10

// twentieth is the first size to try that is larger than the given one by more
// than a twentieth.
func (c *composer) twentieth(size unit.Length) unit.Length {
	from := text.InHundredths(c.least())
	steps := (text.InHundredths(size*21/20)-from)/fineness + 1
	return text.Hundredths(from + steps*fineness)
}

// largest sets the label at the largest size from least that fits, or returns
// nil.
func (c *composer) largest(how way, least unit.Length) *try {
	var best *try
	flow.Largest(least, c.most(), fineness, func(size unit.Length) bool {
		t := &try{pen: c.pen.Fresh(), size: size}
		if err := c.set(t, how); err != nil {
			c.last = err
			return false
		}
		if best == nil || size > best.size {
			best = t
		}
		return true
	})
	return best
}

func (c *composer) finish(t *try) *Set {
	w, h := c.Stock.Size()
	return &Set{Art: &page.Art{W: w, H: h, Items: t.pen.Items}, Safe: c.safe, serial: t.serial, digits: c.Digits}
}

// refuse says that the label does not fit, and what can be done.
func (c *composer) refuse(found *diag.List) {
	var hole *text.NoGlyph
	if errors.As(c.last, &hole) {
		found.Add(hole.Diag())
		return
	}
	w, h := c.Stock.Size()
	found.Errorf(c.Pack.Paper.Pos, "does-not-fit",
		"take a larger paper, fewer languages, or a second label; the letters may not become smaller",
		"the label of %s does not fit on %s × %s (%s) with letters of the least legal height: %v",
		c.Facts.Product.ID, w, h, c.Stock.ID, c.last)
}
