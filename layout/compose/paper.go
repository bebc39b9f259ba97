// Package compose answers: how is a sheet made?
//
// It is the trade that all sheets share, between the marks of layout/flow and
// the sheets. A sheet comes in two parts. What it says is found by a [Teller],
// which knows the languages and tells in one finding which words are missing.
// Where that stands is set by a [Setter], which remembers the first fault and
// sets nothing after it, so that a sheet reads as what stands where. Both work
// for one [Paper].
//
// A label is set once, as large as fits ([Best]), or refused ([Refusal]). A
// list is dealt out to as few pages as it needs ([Fewest], [Pages]), often in
// the columns of a [Table]. How high letters are follows from the distance from
// which they are read ([Legible]).
package compose

import (
	"chablon/labels/unit"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Paper is what a sheet is printed on, and the faces that it is set in. It is
// for one goroutine; the faces may be shared. Make one with [On].
type Paper struct {
	Stock *stock.Stock
	Dots  unit.Dots // of the printer; zero where it is not known
	Faces *text.Faces

	pen *flow.Pen // keeps the words that were made ready
}

// On is paper of a stock in a printer with such dots.
func On(s *stock.Stock, dots unit.Dots, faces *text.Faces) *Paper {
	return &Paper{Stock: s, Dots: dots, Faces: faces, pen: (&flow.Pen{Faces: faces, Dots: dots}).Fresh()}
}

// Room is where words and rules may lie: what the stock leaves within its
// margins, and a dot less, because a rule may be moved by one.
func (p *Paper) Room() page.Rect {
	w, h := p.Stock.Size()
	return page.Rect{W: w, H: h}.Inset(p.Stock.Safe.V + p.Dots.At(1))
}

// Setter sets nothing yet. Setters of one paper share the words that were made
// ready, so the same words may be tried at many sizes.
func (p *Paper) Setter() *Setter { return &Setter{Pen: p.pen.Fresh()} }

// Page is a page of this paper with marks on it.
func (p *Paper) Page(items []page.Item) *page.Page {
	w, h := p.Stock.Size()
	return &page.Page{W: w, H: h, Items: items}
}

// Art is one label of this paper with marks on it.
func (p *Paper) Art(items []page.Item) *page.Art {
	w, h := p.Stock.Size()
	return &page.Art{W: w, H: h, Items: items}
}
