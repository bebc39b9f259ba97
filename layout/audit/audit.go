// Package audit answers: why does the label say what it says?
//
// [Compose] sets the audit sheet of one product in one pack for one market:
// what the label says, and behind every word of it the formulas and their
// versions, the specifications with their dates, the list as a tree with its
// masses, where each ingredient and each allergen comes from, what the rules
// decided and against which limit, the nutrition before and after rounding,
// the dates, and who approved it. Every line names the file and the line that
// it comes from. The sheet is for whoever approves: it computes nothing new.
package audit

import (
	"chablon/labels/cost"
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/margin"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Audit is what a sheet is made from. Told is what the facts say in Lang.
type Audit struct {
	Shop     *shop.Shop
	Facts    *declare.Facts
	Told     *words.Label
	Lang     *words.Lang
	Approval *shop.Approval  // nil when nobody approved
	Margins  []margin.Margin // of the words, the tolerances and all, in this order; nil for none
	Cost     *cost.Cost      // of the pieces that are made at once; nil for none
	Cautions []diag.Diag     // found on the way
	Today    unit.Date       // specifications to be reviewed before it are overdue
	Stock    *stock.Stock    // A4, or another card of that size
	Dots     unit.Dots
}

// Compose sets the sheet on as many pages as it needs. What is missing, and
// what cannot be set, is added to found, and then there are no pages.
func Compose(a Audit, faces *text.Faces, found *diag.List) []*page.Page {
	t := &teller{compose.Tell("audit sheet", a.Facts.Product.Pos, found, a.Lang), a, scale.Expand(a.Shop, a.Facts.Product)}
	if !t.Speaks("take", "audit", "sheet", "card") {
		return nil
	}
	c := content(t)
	if !t.Done() {
		return nil
	}
	if a.Stock == nil {
		a.Stock, _ = stock.Get("card-a4")
	}
	return t.Pages(layout(compose.On(a.Stock, a.Dots, faces), c))
}

// Approved reports whether the approval holds: it was given for these facts.
func (a Audit) Approved() bool {
	return a.Approval != nil && a.Facts.Under(*a.Approval) == declare.Holds
}
