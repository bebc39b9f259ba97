// Package pallet answers: what goes on the pallet label?
//
// [Compose] sets one label over the cartons of a pallet: who sends it and where
// it goes, the class of temperature, the earliest date, how many cartons of
// what, what they weigh, and the bars with the SSCC lowest. It is a logistic
// label (GGS release 18, 6.6): words at least 3 mm high, figures 7 mm where
// there is room. What stands on the food itself stands on the cartons.
package pallet

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Pallet is what is to be set.
type Pallet struct {
	SSCC     string
	Numbered diag.Pos // where the SSCC comes from
	Shop     *shop.Shop
	Goes     shop.Consignment
	Lines    []Line
	Gross    unit.Mass // of all cartons; 0 where it is not known
	Keep     shop.Keep // the strictest of all
	Earliest unit.Date // the first date of all; zero where no carton has one
	UseBy    bool      // it is a use-by date
	Tie      int       // cartons in a layer; 0 where they differ
	Langs    []*words.Lang
	Stock    *stock.Stock
	Dots     unit.Dots
}

// Line is all cartons of one batch of a product.
type Line struct {
	Product *shop.Product
	Batch   string
	Cartons int
	Packs   unit.Count
	Net     unit.Mass
	Full    bool // each holds as many packs as it can, and none is weighed
}

// Cartons is how many cartons stand on it.
func (p Pallet) Cartons() (n int) {
	for _, l := range p.Lines {
		n += l.Cartons
	}
	return n
}

// High is how many layers the cartons make; 0 where that is not known.
func (p Pallet) High() int {
	if p.Tie < 1 {
		return 0
	}
	return (p.Cartons() + p.Tie - 1) / p.Tie
}

// Elements is what the bars say: the SSCC; of cartons that are all of one batch
// and full, the number of a carton and how many there are (02, 37), with date
// and batch; the gross mass (330n); the place and the order of the customer
// (GS1 General Specifications, 3.2; contents that differ are not said, 4.5).
func (p Pallet) Elements() []gs1.Element {
	els := []gs1.Element{{AI: "00", Value: p.SSCC}}
	if same, ok := p.same(); ok {
		els = append(els, same...)
	}
	if e, err := gs1.Weight("330", p.Gross.Round(100*unit.Gram), 1); err == nil && p.Gross > 0 {
		els = append(els, e)
	}
	for _, e := range p.Goes.Elements() {
		if e.AI != "11" && e.AI != "13" { // days of making differ from carton to carton
			els = append(els, e)
		}
	}
	return gs1.Order(els)
}

// same is what all cartons have in common, where all of it is.
func (p Pallet) same() (els []gs1.Element, ok bool) {
	if len(p.Lines) != 1 || !p.Lines[0].Full {
		return nil, false
	}
	l := p.Lines[0]
	gtin, err := gs1.Pad(l.Product.Carton.GTIN.V)
	if err != nil {
		return nil, false
	}
	els = []gs1.Element{{AI: "02", Value: gtin}, {AI: "10", Value: l.Batch}, {AI: "37", Value: fmt.Sprint(l.Cartons)}}
	if !p.Earliest.IsZero() {
		ai := "15"
		if p.UseBy {
			ai = "17"
		}
		els = append(els, gs1.Element{AI: ai, Value: gs1.Date(p.Earliest)})
	}
	return els, true
}

// Compose sets the label. It returns nil, with a finding, when words are
// missing or it does not fit.
func Compose(p Pallet, faces *text.Faces, found *diag.List) *page.Art {
	paper := compose.On(p.Stock, p.Dots, faces)
	c, ok := p.tell(found)
	if !ok {
		return nil
	}
	items, last := set(paper, c, p, p.Elements(), nil)
	if last == nil {
		return paper.Art(items)
	}
	// What bars have no room for stands in a matrix beside the SSCC.
	all, err := paper.Matrix(p.Elements(), p.Numbered)
	if err == nil {
		if items, last = set(paper, c, p, []gs1.Element{{AI: "00", Value: p.SSCC}}, all); last == nil {
			return paper.Art(items)
		}
	}
	compose.Refusal{At: p.Numbered, What: "the pallet label", Stock: p.Stock, With: "with letters 3 mm high",
		Hint: "take a larger paper, such as roll-a5 or a4-2, or put fewer kinds on one pallet"}.Refuse(last, found)
	return nil
}
