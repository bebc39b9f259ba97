// Package recall answers: whom must we tell, and what did we find?
//
// [Compose] sets what a trace found, to be worked down and signed: the customers
// with their orders, cartons, packs and days, with room to write whom was told
// and what came back; what did not leave the house; the lots that went in, and
// whose they were. With a [Mock] the record of an exercise stands first: what
// was asked, when it began and ended, what was found each way, and how the
// masses add up, as an inspector asks for it (Reg. (EC) No 178/2002 Art. 18);
// and for lots of animal origin the facts that Reg. (EU) No 931/2011 Art. 3
// wants with each, with room for those that nobody noted.
package recall

import (
	"time"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/list"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is what one trace found.
type Sheet struct {
	Shop  *shop.Shop
	Lang  *words.Lang
	Day   unit.Date
	Of    trace.Thing // what was followed
	Why   string      // why it is withdrawn, for the house; "" where it is not
	Goods []Gone
	Here  []trace.Part
	Lots  []Source
	Mock  *Mock // nil where it is no exercise
	Stock *stock.Stock
	Dots  unit.Dots
}

// Gone is what left for one customer at one time.
type Gone struct {
	Customer, Order string
	Day             unit.Date
	Boxes           []Box
}

// Box is a carton or pallet, the batch in it that was followed, and the ISO 8601
// day until which that keeps; "" where they are not known.
type Box struct {
	trace.Part
	Batch, Until string
}

// Source is a lot that went in, and how it came.
type Source struct {
	trace.Part
	From, Order string
	Day         unit.Date
	Until       string // ISO 8601 day, or ""
	Animal      bool   // of animal origin
}

// Mock is an exercise: how long it took, and what adds up.
type Mock struct {
	Began, Ended time.Time // in the zone of the place
	Took         time.Duration
	Batches      int // found forth
	Balances     []trace.Balance
	Proof        string // SSCC of a carton that leads back to what was followed; "" for none
}

// Heights gives the least x-height of the words of the sheet, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length { return list.Heights() }

// Compose sets the pages. What goes wrong is a finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("sheet of what was traced", s.Shop.Profile.Pos, found, s.Lang), s}
	if !t.Speaks("print it in", "sheet") {
		return nil
	}
	var all []list.List
	if s.Mock != nil {
		all = append(all, t.record(), t.balance())
	}
	all = append(all, t.goods(), t.here(), t.lots(), t.animal())
	return list.Pages(t.Teller, compose.On(s.Stock, s.Dots, faces), all...)
}
