// Package prep answers: what is made for the whole day?
//
// [Compose] sets the prep list: every formula of the day once, however many
// products use it, in the order in which it is needed: when to begin, how much
// goes in and comes out, and the weights to split it into; then what is thawed,
// and what assortments take from other products. What one page has no room for
// goes on the next; nothing is left out.
package prep

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

// Sheet is the list of one day.
type Sheet struct {
	Shop *shop.Shop
	Lang *words.Lang
	Date unit.Date
	Day  *scale.Day
	// Ready is the time of day at which all is to be ready, Opens that at which
	// work begins; what cannot wait until then is made on a day before. With
	// Ready 0 the list says how long before the end each must be begun.
	Ready, Opens unit.Span
	Thaw         []Thaw
	Stock        *stock.Stock // such as card-a4
	Dots         unit.Dots
}

// Thaw is what comes out of the freezer: one of Ingredient and Formula.
type Thaw struct {
	Ingredient *shop.Ingredient
	Formula    *shop.Formula
	Mass       unit.Mass
}

// Heights gives the least x-height of the words of the list, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length { return list.Heights() }

// Compose sets the pages; a list without lines has none. What goes wrong is a
// finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("prep list", s.Shop.Profile.Pos, found, s.Lang), s}
	if !t.Speaks("begin card-languages with", "sheet") {
		return nil
	}
	return list.Pages(t.Teller, compose.On(s.Stock, s.Dots, faces), t.prep())
}
