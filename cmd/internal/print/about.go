package print

import (
	"path"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/layout/stock"
)

// about is the press for one request: its Found holds what is wrong in the
// shop's files and touches the request, and takes what is found on the way. A
// fault touches what is made of the thing whose file it stands in; one of the
// shop itself touches everything, one of the approvals what is sold, one of a
// plan the paper that the plan asks for.
func (p *Press) about(k *Kind, r Request, id string) *Press {
	q := *p
	q.Found = &diag.List{}
	ids := map[string]bool{}
	for _, of := range p.roots(k, r, id) {
		for _, part := range p.Shop.MadeOf(of) {
			ids[part] = true
		}
	}
	for _, d := range p.Found.All() {
		if p.touches(d, k, r, ids) {
			q.Found.Add(d)
		}
	}
	return &q
}

// About is the press for a question about one product: its Found holds what is
// wrong in the shop's files and touches that product, and no other.
func (p *Press) About(id string) *Press { return p.about(&Kind{}, Request{}, id) }

// touchesRun lists what is wrong in the shop's files and touches a run of a plan.
func (p *Press) touchesRun(r *shop.Run) *diag.List {
	return p.about(&Kind{Inside: true}, Request{run: r}, r.Product.V).Found
}

// roots are the products and formulas that a request is about. Those of a plan
// are looked at run by run.
func (p *Press) roots(k *Kind, r Request, id string) []string {
	if o, ok := r.Own.(*CartonOptions); ok && o != nil {
		ids := []string{id}
		all, _ := o.inside() // what is written wrongly is told where it is looked up
		for _, w := range all {
			ids = append(ids, w.id)
		}
		return ids
	}
	if k.ofID() {
		return []string{id}
	}
	return nil
}

// touches reports whether a finding of the shop's files has to do with a
// request that is about ids.
func (p *Press) touches(d diag.Diag, k *Kind, r Request, ids map[string]bool) bool {
	if id, ok := shop.IDOf(d.Pos.File); ok {
		return ids[id]
	}
	switch {
	case path.Dir(d.Pos.File) == "customers":
		to, ok := p.Shop.CustomerNamed(r.For)
		return ok && d.Pos.File == to.Pos.File
	case path.Dir(d.Pos.File) == stock.OwnFolder:
		return p.onPaper(r, strings.TrimSuffix(path.Base(d.Pos.File), ".yaml"))
	case d.Pos.File == shop.ApprovalsFile:
		return k.sold()
	case path.Dir(d.Pos.File) == "plans":
		plan := p.planIn(d.Pos.File)
		run := runOf(plan, d.Pos)
		return r.run != nil && run == r.run || k.Of == Plan && run == nil && p.asks(r, plan)
	}
	return true
}

// onPaper reports whether a request may be printed on a paper: it names it, or
// it names none and the shop's files do.
func (p *Press) onPaper(r Request, id string) bool {
	if r.Paper != "" {
		return r.Paper == id
	}
	return slices.ContainsFunc(p.papersNamed(), func(t shop.Text) bool { return t.V == id })
}

// asks reports whether a request is about a plan: the one it names, or that of
// today.
func (p *Press) asks(r Request, plan *shop.Plan) bool {
	if r.plan != nil {
		return r.plan == plan
	}
	today, ok := p.Shop.PlanFor(p.Today)
	return !ok || today == plan
}

// planIn is the plan that a file holds.
func (p *Press) planIn(file string) *shop.Plan {
	for _, plan := range p.Shop.Plans {
		if plan.Pos.File == file {
			return plan
		}
	}
	return nil
}

// runOf is the run of a plan that a place lies in; nil before the first.
func runOf(plan *shop.Plan, at diag.Pos) *shop.Run {
	var in *shop.Run
	if plan == nil {
		return nil
	}
	for i := range plan.Runs {
		if r := &plan.Runs[i]; r.Pos.Line <= at.Line {
			in = r
		}
	}
	return in
}

// elsewhere counts the errors in the shop's files that are not among found.
func (p *Press) elsewhere(found *diag.List) int {
	have := map[diag.Diag]bool{}
	for _, d := range found.All() {
		have[d] = true
	}
	n := 0
	for _, d := range p.Found.All() {
		if !d.Warning && !have[d] {
			n++
		}
	}
	return n
}
