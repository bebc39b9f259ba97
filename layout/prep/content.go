package prep

import (
	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/list"
)

// teller says the lists.
type teller struct {
	*compose.Teller
	Sheet
}

// list begins a list.
func (t teller) list(title, lead, foot string) list.List {
	l := list.New(t.Teller, t.Shop.Profile.Name.V, title, lead, t.Date)
	l.Tick, l.Foot = true, foot
	return l
}

// name is a text of the shop in the language of the lists.
func (t teller) name(w shop.Words, id string, at diag.Pos) string {
	return t.Own(w, "the name of "+id, at).V
}

func (t teller) grams(m unit.Mass) string { return list.Grams(t.Sheet.Lang, m) }
