// Package notice answers: what must buyers know of this recall?
//
// [Compose] sets the notice for the door of the shop and for customers, a sheet
// for each language: that something is recalled, which products, batches, dates
// and packs, the reason, what to do, whom to ask, and that the authority's word
// goes before it. Consumers are to be told effectively and accurately of the
// reason (Reg. (EC) No 178/2002 Art. 19(1)); the words are neutral, and blame
// and praise nobody.
//
// Letters are read by somebody who stands before the door, and larger where the
// page has room.
package notice

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Sheet is a notice in some languages.
type Sheet struct {
	Shop    *shop.Shop
	Langs   []*words.Lang
	Day     unit.Date // on which it is said
	Foods   []Food
	Why     map[string]string // the reason by language, as whole sentences
	Contact string
	Stock   *stock.Stock
	Dots    unit.Dots
}

// Food is one batch that is recalled.
type Food struct {
	Product *shop.Product
	Batch   string
	Dates   map[string]string // the date as its label says it, by language; empty where nobody noted one
}

// door is from where it is read (common practice, no source).
const door = 1000 * unit.MM

// Heights gives the least x-height of the words of the notice, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	return compose.Heights(least(), role.Name, role.Note, role.Date, role.Limit, role.Net)
}

func least() unit.Length {
	capital, _ := compose.Legible(door)
	return capital
}

// Compose sets the pages, language by language. What goes wrong is a finding;
// the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := compose.Tell("recall notice", s.Shop.Profile.Pos, found, s.Langs...)
	if !t.Speaks("print it in", "sheet") || len(s.Foods) == 0 {
		return nil
	}
	var all []content
	for _, l := range s.Langs {
		all = append(all, teller{t.In(l), s}.content())
	}
	if !t.Done() {
		return nil
	}
	return t.Pages(pages(all, compose.On(s.Stock, s.Dots, faces)))
}

func pages(all []content, paper *compose.Paper) (out []*page.Page, err error) {
	size := paper.Faces.Regular.SizeForCap(least())
	for _, c := range all {
		more, err := compose.Fewest(size, size.Mul(2, 1), func(size unit.Length) ([]*page.Page, error) { return c.layout(paper, size) })
		if err != nil {
			return nil, err
		}
		out = append(out, more...)
	}
	return out, nil
}
