// Package order answers: what is made before what, so that least must be
// cleaned?
//
// [Compose] sets the order of production of one day by allergens: the runs in
// the order of [scale.Cleanest], and between two of them, where an allergen of
// the first is not in the next, a line for cleaning with its check. It is a
// proposal, and says so: it knows what the products contain, and nothing of what
// suppliers or the kitchen cannot keep out, nor of ovens and hours.
package order

import (
	"slices"
	"strings"

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

// Sheet is the order of one day.
type Sheet struct {
	Shop  *shop.Shop
	Lang  *words.Lang
	Day   unit.Date
	Runs  []Run // as the plan has them
	Stock *stock.Stock
	Dots  unit.Dots
}

// Run is one run of the plan, and what it contains.
type Run struct {
	Product  *shop.Product
	Pieces   unit.Count
	Contains []string // ids of allergens
}

// Heights gives the least x-height of the words of the sheet, for checking the
// finished pages.
func Heights() map[role.Role]unit.Length {
	h := list.Heights()
	h[role.Allergens] = h[role.Note]
	return h
}

// Compose sets the pages; a day without runs has none. What goes wrong is a
// finding; the pages are then nil.
func Compose(s Sheet, faces *text.Faces, found *diag.List) []*page.Page {
	t := teller{compose.Tell("order by allergens", s.Shop.Profile.Pos, found, s.Lang), s}
	if !t.Speaks("begin card-languages with", "sheet") {
		return nil
	}
	return list.Pages(t.Teller, compose.On(s.Stock, s.Dots, faces), t.list())
}

// Turns is what the order follows from: what each run contains, and that an
// assortment is made behind all that it is made of.
func (s Sheet) Turns() (out []scale.Turn) {
	for _, r := range s.Runs {
		one := scale.Turn{Contains: r.Contains}
		for i, other := range s.Runs {
			if slices.ContainsFunc(r.Product.Lines(), func(l shop.Line) bool { return l.Use.V == other.Product.ID }) {
				one.After = append(one.After, i)
			}
		}
		out = append(out, one)
	}
	return out
}

// teller says the sheet.
type teller struct {
	*compose.Teller
	Sheet
}

func (t teller) list() list.List {
	l := list.New(t.Teller, t.Shop.Profile.Name.V, "order.title", "order.do", t.Day)
	l.Tick = true
	l.Cols = []list.Col{{Head: t.Word("prep.make"), Share: 45}, {Head: t.Word("order.contains"), Share: 55}, {Head: t.Word("order.done"), Kind: list.Write}}
	turns := t.Turns()
	order := scale.Cleanest(turns)
	given := make([]int, len(turns))
	for i := range given {
		given[i] = i
	}
	for i, at := range order {
		if i == 0 {
			l.Rows = append(l.Rows, t.clean(t.Word("order.before")))
		} else if gone := turns[order[i-1]].Leaves(turns[at]); len(gone) > 0 {
			l.Rows = append(l.Rows, t.clean(t.Fill("order.clean", map[string]string{"list": t.names(gone)})))
		}
		l.Rows = append(l.Rows, t.run(t.Runs[at]))
	}
	l.Foot = t.Fill("order.cleanings", map[string]string{"n": t.Plain(int64(scale.Cleanings(turns, order))), "m": t.Plain(int64(scale.Cleanings(turns, given)))})
	return l
}

// clean is a line for cleaning, with who looked, what a test said, and when.
func (t teller) clean(say string) list.Row {
	return list.Row{Say: say, Fields: t.Words("order.looked", "order.swab", "order.by", "sheet.time"), Tied: true}
}

func (t teller) run(r Run) list.Row {
	contains := t.Word("ticket.no-allergens")
	if len(r.Contains) > 0 {
		contains = t.names(r.Contains)
	}
	return list.Row{Src: r.Product.Pos, Cells: []list.Cell{
		{Strong: t.Own(r.Product.Name, "the name of "+r.Product.ID, r.Product.Pos).V, Under: t.Count("count.pieces", int64(r.Pieces)), Role: role.Name},
		{Strong: contains, Role: role.Allergens}, {Write: true}}}
}

// names are allergens in the language of the sheet.
func (t teller) names(ids []string) string {
	var out []string
	for _, id := range ids {
		out = append(out, strings.ReplaceAll(t.Allergen(id), " ", compose.NoBreak))
	}
	return strings.Join(out, ", ")
}
