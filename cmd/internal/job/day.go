package job

import (
	"chablon/labels/shop"
)

// Day makes all paper of the day: for each run of the plan the bench card, the
// sale labels and the carton labels, and one run sheet over all.
func (p *Press) Day() ([]Paper, error) {
	if p.Found.Errors() > 0 {
		return nil, nil
	}
	plan, ok := p.Shop.PlanFor(p.Today)
	if !ok {
		return nil, &UnknownError{What: "plan for", Name: p.Today.String(), Say: "write plans/" + p.Today.String() + ".yaml, or one for: every day"}
	}
	var out []Paper
	for _, r := range plan.Runs {
		for _, paper := range []func(shop.Run) ([]Paper, error){p.runCard, p.runLabels, p.runCartons} {
			papers, err := paper(r)
			if err != nil {
				return nil, err
			}
			out = append(out, papers...)
		}
	}
	return out, nil
}

func (p *Press) runCard(r shop.Run) ([]Paper, error) {
	c := CardRequest{ID: r.Product.V, Pieces: r.Pieces.V}
	for _, s := range r.Sizes {
		c.Sizes = append(c.Sizes, s.V)
	}
	return p.Card(c)
}

// labelsOf is the request for the labels of a run.
func (p *Press) labelsOf(r shop.Run) (LabelRequest, error) {
	q, err := p.product(r.Product.V)
	if err != nil {
		return LabelRequest{}, err
	}
	k, err := pack(q, r.Pack.V)
	if err != nil {
		return LabelRequest{}, err
	}
	l := LabelRequest{ID: q.ID, Pack: k.ID.V, Count: r.Labels.V, Batch: p.Shop.BatchCode(r, p.Today),
		Stock: r.Stock.V, FirstPlace: r.FirstPlace.V, batched: r.Pos}
	if l.Count == 0 {
		l.Count = r.Pieces.V / max(1, k.Pieces.V)
	}
	for _, s := range r.Skip {
		l.Skip = append(l.Skip, int(s.V))
	}
	return l, nil
}

func (p *Press) runLabels(r shop.Run) ([]Paper, error) {
	l, err := p.labelsOf(r)
	if err != nil {
		return nil, err
	}
	return p.Labels(l)
}

func (p *Press) runCartons(r shop.Run) ([]Paper, error) {
	if r.Cartons.V == 0 {
		return nil, nil
	}
	return p.Cartons(CartonRequest{ID: r.Product.V, Count: r.Cartons.V, Batch: p.Shop.BatchCode(r, p.Today),
		SSCCFrom: p.Shop.SSCCFrom(r, p.Today), batched: r.Pos, numbered: r.SSCCFrom.Pos})
}
