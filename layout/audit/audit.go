// Package audit answers: why does the label say what it says?
//
// [Compose] sets the audit sheet of one product in one pack for one market:
// what the label says, and behind every word of it the formulas and their
// versions, the specifications with their dates, the list as a tree with its
// masses, where each ingredient and each allergen comes from, what the rules
// decided and against which limit, the nutrition before and after rounding,
// the dates, and who approved it. Every line names the file and the line that
// it comes from. The sheet is for whoever approves: it computes nothing new.
//
// It is composed in two parts: what it says ([section]s of rows, without paper)
// and where that stands (hand.go).
package audit

import (
	"fmt"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
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
	Approval *shop.Approval // nil when nobody approved
	Cautions []diag.Diag    // found on the way
	Today    unit.Date      // specifications to be reviewed before it are overdue
	Stock    *stock.Stock   // A4, or another card of that size
	Dots     unit.Dots
}

// Compose sets the sheet on as many pages as it needs. What is missing, and
// what cannot be set, is added to found, and then there are no pages.
func Compose(a Audit, faces *text.Faces, found *diag.List) []*page.Page {
	before := found.Errors()
	if !a.Lang.Has("sheet") || !a.Lang.Has("card") {
		found.Errorf(a.Facts.Product.Pos, "words", "take en, fr or de", "there are no words for audit sheets in %s", a.Lang.Name())
		return nil
	}
	t := &teller{Audit: a, found: found, parts: scale.Expand(a.Shop, a.Facts.Product)}
	var said []section
	for _, tell := range sections() {
		if s := tell(t); len(s.rows) > 0 {
			said = append(said, s)
		}
	}
	if found.Errors() > before {
		return nil
	}
	s := &sheet{teller: t, pen: &flow.Pen{Faces: faces, Dots: a.Dots}, faces: faces}
	s.measure()
	pages, err := s.pages(said)
	if err != nil {
		report(err, a.Facts.Product.Pos, found)
		return nil
	}
	return pages
}

// sections lists the sections in their order on the sheet.
func sections() []func(*teller) section {
	return []func(*teller) section{
		(*teller).label, (*teller).allergens, (*teller).list, (*teller).sums, (*teller).decisions, (*teller).nutrition,
		(*teller).dates, (*teller).formulas, (*teller).specs, (*teller).origin, (*teller).cautions, (*teller).approval,
	}
}

// report adds a finding for what could not be set.
func report(err error, pos diag.Pos, found *diag.List) {
	found.AddError(err, diag.Diag{Pos: pos, Rule: "audit", Hint: "take a larger paper", Msg: fmt.Sprintf("the audit sheet cannot be set: %v", err)})
}

// Approved reports whether the approval holds: it was given for these facts.
func (a Audit) Approved() bool {
	return a.Approval != nil && a.Facts.Under(*a.Approval) == declare.Holds
}
