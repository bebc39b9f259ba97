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
	"fmt"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/panel"
	"chablon/layout/stock"
	"chablon/layout/symbol"
	"chablon/layout/text"
)

// Label is what is to be set.
type Label struct {
	Facts    *declare.Facts
	Pack     *shop.Pack
	Told     []*words.Label // one for each language, in order
	Langs    []*words.Lang
	Number   string // that the bars carry, 13 digits; that of the pack when left out
	Batch    string
	Batched  diag.Pos // where the batch code comes from
	LinkStem string   // that the link of a batch mark begins with
	Digits   int      // digits of the largest running number; 0 for no number
	Stock    *stock.Stock
	Dots     unit.Dots
	Look     *Look // nil for the plain label
}

// Set is a finished label: the artwork and where the running number goes.
type Set struct {
	Art  *page.Art
	Safe page.Rect
	Gave string // what of the look gave way to the words; "" for nothing

	serial page.Item
	digits int
	mark   page.Item // of a label whose mark carries its number
	label  *label    // that makes such a mark; nil where the mark stands still
}

// Own are the marks of the label with the running number n, relative to the
// artwork.
func (s *Set) Own(n int) []page.Item {
	if s.digits == 0 {
		return nil
	}
	own := []page.Item{s.number(n)}
	if s.label == nil {
		return own
	}
	m, err := s.label.mark(n)
	if err != nil {
		return own // preflight finds the label without its mark
	}
	// It has the size of the one that the room was kept for, because the number
	// has as many digits.
	it := symbol.Place(m, s.mark.Box.X, s.mark.Box.Y)
	it.Src = s.mark.Src
	return append(own, it)
}

// number is the running number n in its place.
func (s *Set) number(n int) page.Item {
	it := s.serial
	run := *it.Run
	run.Text = fmt.Sprintf("%0*d", s.digits, n)
	it.Run = &run
	return it
}

// Compose sets the label. It returns nil, with a finding, when the words do
// not fit at the least legal size.
func Compose(l Label, faces *text.Faces, found *diag.List) *Set {
	c := &label{Label: l, paper: compose.On(l.Stock, l.Dots, faces)}
	var err error
	if c.forms, err = c.together(); err != nil {
		found.Errorf(c.barred(), "bars", "choose a larger paper, or another printer", "the bar code cannot be set: %v", err)
		return nil
	}
	if err := c.placed(); err != nil {
		found.Errorf(l.Pack.Front.Pos, "front-symbol", "write width: and height: below front-symbol:, as Health Canada's directory has them for this display surface; take a larger paper where they do not go on it",
			"the label of %s has no place for symbol %d: %v", l.Facts.Product.ID, l.Facts.Nutrition.Symbol.Version, err)
		return nil
	}
	best, err := c.fitted() // also where there is a look: it says what must stand on the label
	gave := ""
	if best != nil && c.Look != nil {
		if c.Look.About {
			c.about = words.About(c.Facts, c.Langs[0], found)
		}
		if best, gave = c.looked(best); best.label != c {
			c = best.label
		}
	}
	if best == nil {
		compose.Refusal{At: l.Pack.Paper.Pos, What: "the label of " + l.Facts.Product.ID, Stock: l.Stock, With: "with letters of the least legal height",
			Hint: c.remedy()}.Refuse(err, found)
		return nil
	}
	w, h := l.Stock.Size()
	set := &Set{Art: c.paper.Art(best.items), Safe: page.Rect{W: w, H: h}.Inset(l.Stock.Safe.V), serial: best.serial, digits: l.Digits, Gave: gave}
	if c.numbered() {
		set.mark, set.label = best.mark, c
	}
	return set
}

// label is one label under way.
type label struct {
	Label
	paper *compose.Paper
	forms []*codes // in which the codes can stand together; one nil without codes

	panels []*panel.Block // the nutrition panel in each form that goes on the paper, the first to be taken
	small  bool           // the batch mark is as small as GS1 allows
	about  words.Said     // the line about the food, where the look asks for it
	plain  unit.Length    // size of the words of the plain label, for a look
}
