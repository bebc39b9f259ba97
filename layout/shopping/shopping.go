// Package shopping answers: what must be ordered, from whom, for the next days?
//
// [Compose] sets the shopping list: what the plans of some days take of each
// ingredient together, by supplier, as it goes in, as it is delivered with peel
// and stones, and in whole packs, with room to write what is in the house and
// what is ordered. Tap water is not on it.
package shopping

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

// Sheet is the list for some days.
type Sheet struct {
	Shop  *shop.Shop
	Lang  *words.Lang
	From  unit.Date   // the first day
	Days  int         // how many days, from 1
	Buy   []scale.Buy // what they take together, see [scale.Together]
	Stock *stock.Stock
	Dots  unit.Dots
}

// Heights gives the least x-height of the words of the list, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length { return list.Heights() }

// Compose sets the pages; where nothing is bought there are none. What goes
// wrong is a finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("shopping list", s.Shop.Profile.Pos, found, s.Lang), s}
	if !t.Speaks("begin card-languages with", "sheet") {
		return nil
	}
	return list.Pages(t.Teller, compose.On(s.Stock, s.Dots, faces), t.list())
}
