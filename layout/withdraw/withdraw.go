// Package withdraw answers: which cards must come down?
//
// [Compose] sets the sheet that someone walks through the kitchen with: every
// posted copy that is out of date, in the order of the places, with what it
// bears (version and check word), what the card in force bears, a box to tick
// when it is down and one when it is not to be found; at the end, who did it
// and when. What one page has no room for goes on the next.
//
// Letters are read in the hand, at 0.4 m, and larger where the page has room.
package withdraw

import (
	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is the sheet of one day.
type Sheet struct {
	Shop    string // name of the business
	Lang    *words.Lang
	Day     unit.Date
	Entries []Entry
	Stock   *stock.Stock // such as card-a4
	Dots    unit.Dots
}

// Entry is one copy that must come down.
type Entry struct {
	register.Stale
	Name string // of the formula or product; its id where it has no name any more
}

// Heights gives the least x-height of the words of the sheet, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	return compose.Heights(least(), role.Note, role.Name)
}

// least is the least height of capitals on the sheet.
func least() unit.Length {
	capital, _ := compose.Legible(compose.InHand)
	return capital
}

// Compose sets the pages; without entries there are none. What goes wrong is a
// finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := compose.Tell("sheet of cards to take down", diag.Pos{}, found, s.Lang)
	if !t.Speaks("print it in", "sheet") || len(s.Entries) == 0 {
		return nil
	}
	c := content(t, s)
	if !t.Done() {
		return nil
	}
	paper, size := compose.On(s.Stock, s.Dots, faces), faces.Regular.SizeForCap(least())
	return t.Pages(compose.Fewest(size, size.Mul(7, 5), func(size unit.Length) ([]*page.Page, error) {
		return layout(paper, c, size)
	}))
}
