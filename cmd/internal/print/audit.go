package print

import (
	"chablon/labels/cost"
	"chablon/labels/margin"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/audit"
)

func auditKind() *Kind {
	return &Kind{
		Name: "audit", File: "audit", One: "audit sheet", Many: "audit sheets",
		Short:   "Print why a label says what it says, and who approved it",
		Long:    "Prints the audit sheet of a product: formulas and specifications used, the\ningredient list with masses and shares, where each allergen comes from, what the\nrules decided, and the approval. It says what was computed from what the tool was\ntold; a competent person approves, local law and the authority decide.",
		Example: "  chablon audit rye-shortbread-tin",
		Next:    "Read it against the suppliers' papers, then sign with chablon approve.",
		Inside:  true,
		Speaks:  Kitchen, Langs: 1, Usual: 1, Bears: DayMade, Form: "card", Places: true,
		Says:    func(j *Job) string { return j.approval(j.Facts).String() },
		Compose: composeAudit,
	}
}

// composeAudit sets the sheet. Cautions of the shop's files stand on it.
func composeAudit(j *Job) (Set, error) {
	a := audit.Audit{Shop: j.Shop, Facts: j.Facts, Lang: j.Langs[0], Today: j.Today, Told: words.Tell(j.Facts, j.Shop, j.Langs[0], j.Found)}
	if e, ok := j.Shop.Approvals.FindBatch(j.ID, j.Pack.ID.V, j.Market.Code, j.batchOf); ok {
		a.Approval = &e
	}
	if j.Found.Errors() > 0 {
		return Set{}, nil
	}
	if c, err := cost.Of(j.Shop, j.Product, j.atOnce()); err == nil {
		a.Cost = c
	}
	if !j.Request.onlyCheck && !j.Request.compare {
		a.Margins = margin.Of(margin.Question{Shop: j.Shop, Product: j.Product, Pack: j.Pack, Market: j.Market, Made: j.Made, Lang: j.Langs[0]},
			margin.Words(), margin.Tolerance(j.Market), margin.Whole())
	}
	a.Cautions = j.Found.All()
	return Set{Pages: audit.Compose(a, j.faces, j.Found)}, nil
}

// atOnce is how many pieces of the product are made at once: those of the first
// run of it in a plan, that of today before the others; else a tray of it.
func (j *Job) atOnce() unit.Count {
	plans := j.Shop.Plans
	if today, ok := j.Shop.PlanFor(j.Today); ok {
		plans = append([]*shop.Plan{today}, plans...)
	}
	for _, plan := range plans {
		for _, r := range plan.Runs {
			if r.Product.V == j.ID && r.Pieces.V > 0 {
				return r.Pieces.V
			}
		}
	}
	if t := j.Product.Tray; t != nil && t.Holds.V > 0 {
		return t.Holds.V
	}
	return 24
}
