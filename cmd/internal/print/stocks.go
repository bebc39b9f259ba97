package print

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
)

// stocks finds every paper that the shop's files name and that there is not.
// The shop cannot: paper is not its matter.
func (p *Press) stocks() {
	for _, e := range p.Shop.Profile.Printers {
		for _, t := range e.V.Papers {
			p.stockAt(t)
		}
	}
	for _, t := range p.papersNamed() {
		p.stockAt(t)
	}
}

// papersNamed are the papers that packs, cartons and runs are printed on.
func (p *Press) papersNamed() (out []shop.Text) {
	for _, id := range p.Shop.ProductIDs {
		q := p.Shop.Products[id]
		for _, k := range q.Packs {
			out = append(out, k.Paper)
		}
		if q.Carton != nil {
			out = append(out, q.Carton.Paper)
		}
	}
	for _, plan := range p.Shop.Plans {
		for _, r := range plan.Runs {
			out = append(out, r.Paper)
		}
	}
	return out
}

func (p *Press) stockAt(t shop.Text) {
	if _, ok := p.shelf.Get(t.V); ok || !t.Set() || p.shelf.Broken(t.V) {
		return
	}
	hint := "papers are " + strings.Join(p.shelf.IDs(), ", ") + "; one of your own is a file papers/ID.yaml"
	if near := diag.Nearest(t.V, p.shelf.IDs()); near != "" {
		hint = "did you mean " + near + "?"
	}
	p.Found.Errorf(t.Pos, "paper", hint, "there is no paper %q", t.V)
}
