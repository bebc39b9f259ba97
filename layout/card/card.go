// Package card answers: what goes on the bench card?
//
// [Compose] sets the process card of one batch: who makes what, in which
// order, how much of it, until when, and what must never be missed. Letters
// are as large as the distance asks from which the paper is read; what does
// not fit goes on to the next page and is never made smaller. A step is never
// split, and a limit never leaves its step.
//
// The card is composed in two parts: what it says (words and figures, without
// paper; said.go, content.go, steps.go) and where that stands (hand.go and
// the files after the sections of the card).
package card

import (
	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Card is what a card is made from. Exactly one of Product and Formula is set.
type Card struct {
	Shop    *shop.Shop
	Product *shop.Product
	Formula *shop.Formula
	Batch   *scale.Batch
	Sizes   []*scale.Batch // other batch sizes, to be shown beside the one of the day
	Langs   []*words.Lang  // one or two; figures are written as in the first
	Stock   *stock.Stock
	Dots    unit.Dots // of the printer; zero when not known

	Contains     []string // allergen ids on this card, in the order of the law
	Pack         *shop.Pack
	Copy, Copies int       // 0 of 0 leaves the count out
	Place        string    // where it hangs; empty for a line to write on
	Code         bool      // adds a QR code of the check word, which wants the printer's dots
	Ready        unit.Span // time of day at which all is to be ready; 0 leaves clock times out
	Baker        bool      // shows amounts as shares of the base of their formula too
}

// Compose sets the card. What is missing, and what cannot be set, is added to
// found, and then there are no pages.
func Compose(c Card, faces *text.Faces, found *diag.List) []*page.Page {
	said := tell(c, found)
	if !said.teller.Done() {
		return nil
	}
	s := &sheet{Card: c, said: said, paper: compose.On(c.Stock, c.Dots, faces), z: sizesAt(c.Stock, faces), found: found}
	s.measure()
	pages := s.pages()
	if !said.teller.Done() {
		return nil
	}
	return pages
}

// id is the id of the product or formula, and where it is written.
func (c Card) id() (string, diag.Pos) {
	switch {
	case c.Product != nil:
		return c.Product.ID, c.Product.Pos
	case c.Formula != nil:
		return c.Formula.ID, c.Formula.Pos
	}
	return "nothing", diag.Pos{}
}
