package print

import (
	"fmt"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
)

// Check computes every declaration of the shop and sets every label, carton
// label and card, without printing. What is wrong is in Found; the result says
// in a few words what was looked at.
func (p *Press) Check() string {
	s := p.Shop
	said := fmt.Sprintf("%s, %s, %s, %s", counted(len(s.IngredientIDs), "ingredient", "ingredients"),
		counted(len(s.FormulaIDs), "formula", "formulas"), counted(len(s.ProductIDs), "product", "products"),
		counted(len(s.Plans), "plan", "plans"))
	if p.Found.Errors() > 0 {
		return said
	}
	for _, id := range s.ProductIDs {
		q := s.Products[id]
		for _, m := range s.Profile.Markets {
			for _, k := range q.Packs {
				p.try(k.Pos, func() error {
					l, err := p.label(LabelRequest{ID: id, Pack: k.ID.V, Market: m.V, Draft: true})
					if err == nil && l.draft {
						p.Found.Warnf(k.Pos, "not-approved", p.approveHint(l.facts), "%s in %s for %s may not be sold yet: %s", id, k.ID.V, code(l.market), p.approval(l.facts))
					}
					return err
				})
			}
		}
		if q.Carton != nil {
			p.try(q.Carton.Pos, func() error { _, err := p.Cartons(CartonRequest{ID: id, Draft: true}); return err })
		}
		p.try(q.Pos, func() error { _, err := p.Card(CardRequest{ID: id}); return err })
	}
	for _, id := range s.FormulaIDs {
		p.try(s.Formulas[id].Pos, func() error { _, err := p.Card(CardRequest{ID: id}); return err })
	}
	return said
}

// try looks at one thing by itself, so that what is wrong with the one before
// does not hide it. A name that nothing bears stands in the shop's own files
// here, so it is a finding.
func (p *Press) try(at diag.Pos, look func() error) {
	all := p.Found
	p.Found = &diag.List{}
	err := look()
	all.AddAll(p.Found)
	p.Found = all
	if unknown, ok := err.(*usage.Error); ok {
		p.Found.Errorf(at, "unknown", unknown.Hint, "%s", unknown.Msg)
	} else if err != nil {
		p.Found.Errorf(at, "machine", "", "%v", err)
	}
}
