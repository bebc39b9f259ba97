// Package record answers: what was really done in this batch?
//
// [Compose] sets the batch record of one run: every amount that is planned beside
// a box for what was weighed and one for the lot, which is proposed where the
// print book knows one; every critical limit with boxes for its times, its
// temperature and who measured it; what comes out of each formula; the good
// pieces, the waste, and who signs. What is made once for several runs has a
// record of its own, and stands here as one line. Each page bears the batch.
package record

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/list"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Record is the record of one run, or of one formula.
type Record struct {
	Shop   *shop.Shop
	Lang   *words.Lang
	Day    unit.Date
	Code   string // of the batch
	Batch  *scale.Batch
	Shared func(*shop.Formula) bool            // made once for several runs
	Lot    func(into, of string) (code string) // proposed for an ingredient or formula; "" for none
	Stock  *stock.Stock
	Dots   unit.Dots
}

// Heights gives the least x-height of the words of the record, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length { return list.Heights() }

// Compose sets the pages. What goes wrong is a finding; the pages are then nil.
func Compose(r Record, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("batch record", r.at(), found, r.Lang), r}
	if !t.Speaks("begin card-languages with", "sheet", "card") {
		return nil
	}
	return list.Pages(t.Teller, compose.On(r.Stock, r.Dots, faces), t.list())
}

// at is the place of what the record is of.
func (r Record) at() diag.Pos {
	if r.Batch.Product != nil {
		return r.Batch.Product.Pos
	}
	return r.Batch.Formula.Pos
}
