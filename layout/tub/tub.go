// Package tub answers: what goes on the tub?
//
// A tub holds a sub-batch: a formula that was made for later. Its label says
// what it is, when it was made and until when it may be used, its batch, how it
// is kept, which allergens are in it, and whether it is raw. A tub without a
// label is thrown away or, worse, used; so the label fits on a roll of small
// labels too, with what matters most, or it is refused.
//
// What the shop's files say of allergens is always on the label. That a food is
// ready to eat is never concluded: somebody ticks it.
package tub

import (
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Tub is what is to be set, in one or two languages; figures stand on it once
// and are written as in the first.
type Tub struct {
	Shop    *shop.Shop
	Formula *shop.Formula
	Mass    unit.Mass // in this tub; 0 leaves a line to write it on
	Made    unit.Date
	Until   unit.Date // where something in it must be used sooner than the formula's life says; zero for none
	Batch   string    // stays with what was made, whatever becomes of it
	N, Of   int       // tub N of so many; 0 of 0 leaves the count out
	Langs   []*words.Lang
	Stock   *stock.Stock // a roll, or a sheet of labels
	Dots    unit.Dots
	// Contains and May are allergen ids that are known beside those of the
	// shop's files, such as those of what took another's place today.
	Contains, May []string
}

// UseBy is the last day of use: the life that the formula states, from the day
// made as day 0, or Until where that is sooner. It is false where the formula
// states no life.
func (t Tub) UseBy() (unit.Date, bool) {
	if t.Formula.Keep == nil || !t.Formula.Keep.Life.Set() {
		return unit.Date{}, false
	}
	end := t.Formula.Keep.Life.V.End(t.Made)
	if !t.Until.IsZero() && t.Until.Before(end) {
		end = t.Until
	}
	return end, true
}

// Compose sets one label, for [stock.Imposition] to deal out. It returns nil, with
// findings, when something is missing or does not fit.
func Compose(t Tub, faces *text.Faces, found *diag.List) *page.Art {
	tell := compose.Tell("tub label", t.Formula.Pos, found, t.Langs...)
	c := content(tell, t)
	if !tell.Done() {
		return nil
	}
	paper := compose.On(t.Stock, t.Dots, faces)
	items, err := layout(paper, c)
	if err != nil {
		compose.Refusal{At: t.Formula.Pos, What: "the tub label of " + t.Formula.ID, Stock: t.Stock,
			Hint: "take a larger label, such as roll-100x60 or roll-100x100, or print it in one language; the letters may not become smaller"}.Refuse(err, found)
		return nil
	}
	return paper.Art(items)
}
