// Package board answers: who does what when, seen from across the kitchen?
//
// [Compose] sets the board of a day: every product against the clock, and below
// them a row for each oven, mixer and pair of hands that says what it has when.
// Under the bars stands the same as a list for each person. Where not all can be
// ready as it is asked for, that stands on top, with the nearest plan that works,
// which is the one that is drawn.
//
// The board hangs where everybody passes: names and hours are read from 1 m, the
// words in bars and lists from an arm's length.
package board

import (
	"chablon/labels/diag"
	"chablon/labels/plan"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Board is the board of one day.
type Board struct {
	Shop  *shop.Shop
	Lang  *words.Lang
	Date  unit.Date
	Day   *scale.Day
	Plan  *plan.Day
	Stock *stock.Stock // such as board-a3
	Dots  unit.Dots
}

// The distances from which the board is read (common practice, no source).
const (
	fromWall = unit.Length(1000) * unit.MM
	fromArm  = unit.Length(700) * unit.MM
)

// Heights gives the least x-height of the words of the board, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	far, _ := compose.Legible(fromWall)
	near, _ := compose.Legible(fromArm)
	all := compose.Heights(far, role.Name, role.Date)
	for r, h := range compose.Heights(near, role.Note, role.Step, role.Batch) {
		all[r] = h
	}
	return all
}

// Compose sets the pages; what one has no room for goes on the next. What goes
// wrong is a finding; the pages are then nil.
func Compose(b Board, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("day board", b.Shop.Profile.Pos, found, b.Lang), b}
	if !t.Speaks("begin card-languages with", "sheet", "card") {
		return nil
	}
	c := t.content()
	if !t.Done() {
		return nil
	}
	return t.Pages(layout(compose.On(b.Stock, b.Dots, faces), c))
}
