package print

import (
	"context"

	"chablon/cmd/internal/keep"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// RunState is how far a run of the day's plan has come.
type RunState struct {
	Product string
	Pack    string
	Pieces  unit.Count
	Batch   string
	Made    unit.Date
	Papers  []PaperState
	Good    unit.Count // good pieces that were noted; 0 where nobody noted any
	Faults  []string   // what keeps its paper from being printed
}

// PaperState is how much numbered paper of one kind a run has.
type PaperState struct {
	Kind            string
	Wanted, Printed unit.Count
	Numbers         []string
}

// PlanState tells how far the runs of the day's plan have come: what is printed
// by the print book, and what came out by the notes of the kitchen. The error is
// a [usage.Error] where there is no plan.
func (p *Press) PlanState(ctx context.Context) (out []RunState, err error) {
	defer p.hold(&err)()
	plan, err := p.plan()
	if err != nil {
		return nil, err
	}
	for i := range plan.Runs {
		s, err := p.runState(ctx, &plan.Runs[i])
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

func (p *Press) runState(ctx context.Context, r *shop.Run) (s RunState, err error) {
	s = RunState{Product: r.Product.V, Pack: r.Pack.V, Pieces: r.Pieces.V, Batch: p.Shop.BatchCode(*r, p.Today), Made: p.Today}
	for _, d := range p.touchesRun(r).All() {
		if !d.Warning {
			s.Faults = append(s.Faults, d.String())
		}
	}
	for _, k := range p.kinds {
		if k.Runs == nil || !k.SSCC && !k.Serial || !p.prints(k) || len(s.Faults) > 0 {
			continue
		}
		q, ok := k.Runs(p, *r)
		if !ok {
			continue
		}
		had, err := p.dueOf(k, s.Product, s.Batch, p.Today)
		if err != nil {
			return s, err
		}
		one := PaperState{Kind: k.Name, Wanted: q.Count, Printed: had.count(), Numbers: spans(had.have)}
		if k.SSCC {
			one.Numbers = nil
			for _, h := range had.have {
				one.Numbers = append(one.Numbers, p.ssccs(h)...)
			}
		}
		s.Papers = append(s.Papers, one)
	}
	s.Good, err = p.goodOf(ctx, s.Product, s.Batch)
	return s, err
}

// goodOf is how many good pieces of a batch were noted.
func (p *Press) goodOf(ctx context.Context, id, batch string) (n unit.Count, err error) {
	thing := trace.Thing{Kind: trace.Batch, ID: id, Code: batch}
	err = p.reads(ctx, func(book keep.Books) error {
		made, err := book.With(ctx, trace.Out, []trace.Thing{thing}, trace.Make)
		for _, e := range made {
			for _, o := range e.Out {
				if o.Thing == thing {
					n += o.Pieces
				}
			}
		}
		return err
	})
	return n, err
}

// Printed lists what was printed, the newest first, below a number of the print
// book; from the newest on with 0. At most n.
func (p *Press) Printed(ctx context.Context, below int64, n int) (out []register.Print, err error) {
	err = p.reads(ctx, func(book keep.Books) error {
		all, err := book.Prints(ctx, register.Query{})
		for i := len(all) - 1; i >= 0 && len(out) < n; i-- {
			if below == 0 || all[i].Number < below {
				out = append(out, all[i])
			}
		}
		return err
	})
	return out, err
}

// SSCCs are the carton numbers that a print bears.
func (p *Press) SSCCs(q register.Print) []string {
	if q.Series != p.series() {
		return nil
	}
	return p.ssccs(q)
}
