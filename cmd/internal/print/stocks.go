package print

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/layout/stock"
)

// stocks finds every stock that the shop's files name and that there is not.
// The shop cannot: paper is not its matter.
func (p *Press) stocks() {
	for _, e := range p.Shop.Profile.Printers {
		for _, t := range e.V.Papers {
			p.stockAt(t)
		}
	}
	for _, id := range p.Shop.ProductIDs {
		q := p.Shop.Products[id]
		for _, k := range q.Packs {
			p.stockAt(k.Paper)
		}
		if q.Carton != nil {
			p.stockAt(q.Carton.Paper)
		}
	}
	for _, plan := range p.Shop.Plans {
		for _, r := range plan.Runs {
			p.stockAt(r.Paper)
		}
	}
}

func (p *Press) stockAt(t shop.Text) {
	if _, ok := stock.Get(t.V); ok || !t.Set() {
		return
	}
	hint := "papers are " + strings.Join(stock.IDs(), ", ")
	if near := diag.Nearest(t.V, stock.IDs()); near != "" {
		hint = "did you mean " + near + "?"
	}
	p.Found.Errorf(t.Pos, "paper", hint, "there is no paper %q", t.V)
}
