// Package allergens answers: what is in what we sell?
//
// [Compose] sets the list for the wall behind the counter: each product on sale,
// what it contains, and what may be in it though nobody puts it there. It is read
// when a buyer asks (Regulation (EU) No 1169/2011, Art. 44(1)(a): for loose food
// the allergens must be at hand). A product whose label nobody has signed, or
// whose files have faults, stands there without an answer, and says so: nobody
// answers from this list what is not known.
package allergens

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
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
	Shop  *shop.Shop
	Lang  *words.Lang
	Day   unit.Date
	Foods []Food
	Stock *stock.Stock
	Dots  unit.Dots
}

// Food is one product with the ids of its allergens. One that is not Known has
// none that could be told.
type Food struct {
	Product       *shop.Product
	Contains, May []string
	Known         bool
}

// Heights gives the least x-height of the words of the list, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	h := list.Heights()
	h[role.Allergens] = h[role.Note]
	return h
}

// Compose sets the pages; a shop without products has none. What goes wrong is a
// finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("list of allergens", s.Shop.Profile.Pos, found, s.Lang), s}
	if !t.Speaks("begin card-languages with", "sheet") {
		return nil
	}
	return list.Pages(t.Teller, compose.On(s.Stock, s.Dots, faces), t.list())
}

// teller says the list.
type teller struct {
	*compose.Teller
	Sheet
}

func (t teller) list() list.List {
	l := list.New(t.Teller, t.Shop.Profile.Name.V, "allergens.title", "allergens.do", t.Day)
	l.Cols = []list.Col{{Head: t.Word("allergens.food"), Share: 34}, {Head: t.Word("order.contains"), Share: 38}, {Head: t.Word("allergens.may"), Share: 28}}
	for _, f := range t.Foods {
		l.Rows = append(l.Rows, t.row(f))
	}
	return l
}

func (t teller) row(f Food) list.Row {
	name := list.Cell{Strong: t.Own(f.Product.Name, "the name of "+f.Product.ID, f.Product.Pos).V, Role: role.Name}
	if !f.Known {
		return list.Row{Src: f.Product.Pos, Cells: []list.Cell{name, {Strong: t.Word("allergens.ask"), Role: role.Allergens}, {}}}
	}
	contains := t.Word("ticket.no-allergens")
	if len(f.Contains) > 0 {
		contains = t.names(f.Contains)
	}
	may := "–"
	if len(f.May) > 0 {
		may = t.names(f.May)
	}
	return list.Row{Src: f.Product.Pos, Cells: []list.Cell{name, {Strong: contains, Role: role.Allergens}, {Under: may, Role: role.Allergens}}}
}

// names are allergens in the language of the list, one below the other where
// there is no room.
func (t teller) names(ids []string) string {
	var out []string
	for _, id := range ids {
		out = append(out, strings.ReplaceAll(t.Allergen(id), " ", compose.NoBreak))
	}
	return strings.Join(out, ", ")
}
