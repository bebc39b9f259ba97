package notice

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// content is what the notice says in one language.
type content struct {
	title, head string
	foods       []food
	why, do     string
	rest        []string
	page        func(n, of int) string
	at          diag.Pos
}

// food is a batch, said.
type food struct{ name, batch, date, packs string }

type teller struct {
	*compose.Teller
	Sheet
}

func (t teller) content() content {
	code := t.Lang().Code()
	c := content{title: compose.Capital(t.Word("recall.title")) + " · " + t.Shop.Profile.Name.V, head: t.Word("recall.head"),
		why: t.Why[code], do: t.Word("recall.do"), page: t.Page, at: t.At()}
	c.rest = []string{t.Word("recall.ill"), t.Fill("recall.known", map[string]string{"date": t.Lang().Date(t.Day, words.Long)}),
		t.Fill("recall.ask", map[string]string{"contact": t.Contact}), t.Word("recall.authority")}
	for _, f := range t.Foods {
		c.foods = append(c.foods, food{name: t.name(f.Product), batch: compose.Capital(t.Word("sheet.batch")) + " " + f.Batch, date: f.Dates[code], packs: t.packs(f.Product)})
	}
	return c
}

// name is that of a product in the language, or in another, or its id: a recall
// does not wait for a translation.
func (t teller) name(p *shop.Product) string {
	if n, ok := shop.In(p.Name, t.Lang().Code()); ok {
		return n.V
	}
	if len(p.Name) > 0 {
		return p.Name[0].V.V
	}
	return p.ID
}

// packs says the packs that a buyer may have: "170 g (2 pieces), 9520001000010".
func (t teller) packs(p *shop.Product) string {
	var out []string
	for _, k := range p.Packs {
		s := t.Lang().Mass(k.Net.V)
		if n := int64(k.Pieces.V); n > 1 {
			s += " (" + t.Count("count.pieces", n) + ")"
		}
		if k.GTIN.Set() {
			s += ", " + k.GTIN.V
		}
		out = append(out, s)
	}
	return strings.Join(out, " · ")
}
