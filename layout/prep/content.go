package prep

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// list is one of the two lists, said but not yet set.
type list struct {
	title, lead string
	shop        string
	page        func(n, of int) string
	again       func(head string) string // a heading, continued
	decimal     string
	at          diag.Pos
	cols        []col
	rows        []row
	foot        string
}

// col is a column, with its share in percent of what the others leave.
type col struct {
	head  string
	kind  kind
	share int64
}

// kind says how wide a column is, and how its cells are set.
type kind int

const (
	isWords  kind = iota // by its share
	isParts              // by its share
	isFigure             // as wide as its amounts, under each other by their decimals
	isRight              // as wide as its words, at the right
	isFit                // as wide as its words
	isWrite              // as wide as a hand needs
)

// row is one line of a list: a heading over the rows below it, or a box to tick
// with cells.
type row struct {
	head  string
	cells []cell
	src   diag.Pos
}

// cell is what stands in a column: strong words with plain ones under them, or
// lines with a box to tick each. A cell with write is a box to write in.
type cell struct {
	strong, under string
	role          role.Role
	parts         []part
	write         bool
}

// part is a weight and what it is for.
type part struct{ mass, what string }

// empty reports that there is nothing on the list but headings.
func (l list) empty() bool {
	return !slices.ContainsFunc(l.rows, func(r row) bool { return r.head == "" })
}

// teller says the lists.
type teller struct {
	*compose.Teller
	Sheet
}

// list begins a list.
func (t teller) list(title, lead, foot string) list {
	return list{title: compose.Capital(t.Word(title)) + " · " + t.Sheet.Lang.Date(t.Date, words.Long), lead: t.Word(lead), foot: foot,
		shop: t.Shop.Profile.Name.V, page: t.Page, decimal: t.Decimal(), at: t.At(),
		again: func(head string) string { return t.Fill("sheet.more", map[string]string{"name": head}) }}
}

// name is a text of the shop in the language of the lists.
func (t teller) name(w shop.Words, id string, at diag.Pos) string {
	return t.Own(w, "the name of "+id, at).V
}

// step is how fine a mass is shown: grams, and tenths below 100 g.
func step(m unit.Mass) unit.Mass {
	if m < 100*unit.Gram {
		return unit.Gram / 10
	}
	return unit.Gram
}

func (t teller) grams(m unit.Mass) string { return t.gramsIn(m.Round(step(m)), step(m)) }

func (t teller) gramsIn(m, step unit.Mass) string {
	decimals := 0
	if step < unit.Gram {
		decimals = 1
	}
	return t.Sheet.Lang.MassIn(m, "g", decimals)
}
