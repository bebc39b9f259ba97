package print

import (
	"errors"
	"fmt"

	"chablon/cmd/internal/usage"
	"chablon/labels/diag"
)

// Check makes every paper of every kind that the shop's files are good for,
// without printing. What is wrong is in Found; the result says in a few words
// what was looked at.
func (p *Press) Check() (_ string, _ Batch, err error) {
	defer p.hold(&err)()
	s := p.Shop
	said := fmt.Sprintf("%s, %s, %s, %s", counted(len(s.IngredientIDs), "ingredient", "ingredients"),
		counted(len(s.FormulaIDs), "formula", "formulas"), counted(len(s.ProductIDs), "product", "products"),
		counted(len(s.Plans), "plan", "plans"))
	b := Batch{Found: &diag.List{}}
	b.Found.AddAll(p.Found)
	for _, k := range p.kinds {
		for _, r := range p.all(k) {
			r.Draft, r.onlyCheck = true, true
			if err := p.try(k, r, b.Found); err != nil {
				return said, b, err
			}
		}
	}
	for _, of := range p.Shop.Plans {
		p.strained(of, b.Found)
	}
	return said, b, nil
}

// all lists a request for every paper of one kind that the shop's files are
// good for: each product in each pack for each market, each formula, each plan.
// Of the shop as a whole there is none: what hangs is not in its files.
func (p *Press) all(k *Kind) (out []Request) {
	if k.Of == Plan {
		for _, plan := range p.Shop.Plans {
			out = append(out, Request{plan: plan})
		}
		return out
	}
	for _, id := range k.IDs(p) {
		q := p.Shop.Products[id]
		if q == nil {
			out = append(out, Request{IDs: []string{id}})
			continue
		}
		if k.Wanted != nil && !k.Wanted(q) {
			continue
		}
		for _, pack := range k.packs(q) {
			for _, m := range p.marketCodes() {
				out = append(out, Request{IDs: []string{id}, Pack: pack, Market: m, Weight: usualWeight(k, q, pack)})
			}
		}
	}
	return out
}

// try makes one paper. What the command line would be told stands in the shop's
// own files here, so it is a finding.
func (p *Press) try(k *Kind, r Request, found *diag.List) error {
	j, err := p.make(k, r, subjects(k, r)[0])
	var bad *usage.Error
	switch {
	case errors.As(err, &bad):
		found.Errorf(p.placeOf(r), "unknown", bad.Hint, "%s", bad.Msg)
		return nil
	case err != nil:
		return err
	}
	if j.Draft && !p.approval(j.Facts).Valid {
		j.Found.Warnf(j.Pack.Pos, "not-approved", p.approveHint(j.Facts), "%s in %s for %s may not be sold yet: %s", j.ID, j.Pack.ID.V, code(j.Market), p.approval(j.Facts))
	}
	found.AddAll(j.Found)
	return nil
}

// placeOf is the file of what a request is about.
func (p *Press) placeOf(r Request) diag.Pos {
	switch {
	case r.plan != nil:
		return r.plan.Pos
	case p.Shop.Products[r.IDs[0]] != nil:
		return p.Shop.Products[r.IDs[0]].Pos
	}
	return p.Shop.Formulas[r.IDs[0]].Pos
}
