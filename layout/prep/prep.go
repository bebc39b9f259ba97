// Package prep answers: what is made for the whole day, and what must be
// bought?
//
// [Compose] sets two lists. The prep list has every formula of the day once,
// however many products use it, in the order in which it is needed: when to
// begin, how much goes in and comes out, and the weights to split it into; then
// what is thawed, and what assortments take from other products. The shopping
// list has what must come into the house, by supplier, as bought and in whole
// packs, with room to write what is there already. What one page has no room
// for goes on the next; nothing is left out.
//
// The lists lie on the bench or hang on its shelf, read at 0.5 m, with larger
// letters where the pages have room.
package prep

import (
	"slices"

	"chablon/labels/diag"
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

// Sheet is the lists of one day.
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

// Heights gives the least x-height of the words of the lists, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	return compose.Heights(least(), role.Name, role.Amount, role.Date, role.Note, role.Keep, role.Step)
}

// least is the least height of capitals on the lists.
func least() unit.Length {
	capital, _ := compose.Legible(compose.OnBench)
	return capital
}

// Compose sets the pages, first those of the prep list. A list without lines
// has no page. What goes wrong is a finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("prep list", s.Shop.Profile.Pos, found, s.Lang), s}
	if !t.Speaks("begin card-languages with", "sheet") {
		return nil
	}
	lists := slices.DeleteFunc([]list{t.prep(), t.shopping()}, list.empty)
	if !t.Done() {
		return nil
	}
	return t.Pages(pages(lists, compose.On(s.Stock, s.Dots, faces)))
}

// pages sets each list on as few pages as the least letters need, in the
// largest letters that need no more. Their pages are counted through.
func pages(lists []list, paper *compose.Paper) ([]*page.Page, error) {
	size := paper.Faces.Regular.SizeForCap(least())
	of := 0
	for _, l := range lists {
		few, err := l.layout(paper, size, 0, 0)
		if err != nil {
			return nil, err
		}
		of += len(few)
	}
	var all []*page.Page
	for _, l := range lists {
		more, err := compose.Fewest(size, size.Mul(13, 10), func(size unit.Length) ([]*page.Page, error) {
			return l.layout(paper, size, len(all), of)
		})
		if err != nil {
			return nil, err
		}
		all = append(all, more...)
	}
	return all, nil
}
