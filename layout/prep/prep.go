// Package prep answers: what is made for the whole day?
//
// [Compose] sets the prep list: every formula of the day once, however many
// products use it, in the order in which it is needed: when to begin,
// what is weighed into it, how much comes out, and the weights to split it into;
// then what is thawed and when it comes out of the freezer, and what assortments
// take from other products. Over several days it goes by the day of making: what a
// later day needs made ahead stands on the day on which it is made. What one page has no room for
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

// Sheet is the list of one day, or of several.
type Sheet struct {
	Shop *shop.Shop
	Lang *words.Lang
	Date unit.Date
	Day  *scale.Day
	// Ready is the time of day at which all is to be ready, Opens and Closes
	// those at which work begins and ends; what cannot wait until it opens is
	// made on a day before. With Ready 0 the list says how long before the end
	// each must be begun.
	Ready, Opens, Closes unit.Span

	// Then are the days behind the first. Of those behind Days, only what is made
	// within these days is on the list.
	Then  []Then
	Days  int // 1 when left out
	Stock *stock.Stock
	Dots  unit.Dots
}

// Then is a further day.
type Then struct {
	Date  unit.Date
	Day   *scale.Day
	Ready unit.Span
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
