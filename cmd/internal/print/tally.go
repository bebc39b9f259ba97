package print

import (
	"context"
	"fmt"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/register"
	"chablon/labels/unit"
)

// TallyRequest says where the labels of one batch went.
type TallyRequest struct {
	ID      string
	Batch   string     `flag:"batch" help:"batch code; by the shop's rule when left out"`
	Made    unit.Date  `flag:"made" is:"day" help:"the day made; today when left out"`
	Applied unit.Count `flag:"applied" is:"number" help:"how many labels are on packs, counted"`
	Spoilt  string     `flag:"spoilt" help:"numbers of labels that were destroyed, such as 0007,0012"`
	Left    string     `flag:"left" help:"numbers of labels that are left over and kept for this batch"`
	Because string     `flag:"because" help:"why labels were spoilt; torn when left out"`
}

// Tally is where the labels of one batch went.
type Tally struct {
	ID, Batch                      string
	Printed, Applied, Spoilt, Left int64
	Spans                          []register.Span
}

// Tally notes where the labels of a batch went, where the request says it, and
// counts them. Printed must be applied, spoilt and left: a label that nobody can
// account for may be on another product.
func (p *Press) Tally(ctx context.Context, r TallyRequest) (t Tally, err error) {
	defer p.hold(&err)()
	batch, err := p.batchMeant(r.ID, Request{Batch: r.Batch, Made: r.Made})
	if err != nil {
		return t, err
	}
	s, err := p.labelsOf(ctx, r.ID, batch)
	if err != nil {
		return t, err
	}
	if len(s.given) == 0 {
		return t, usage.Errorf("look at the batch code; --batch names another one", "no label of %s, batch %s, was ever printed", r.ID, batch)
	}
	ends, err := p.accounts(r, batch, s)
	if err != nil || len(ends) == 0 {
		return tallied(r.ID, batch, s), err
	}
	if err := p.end(ctx, Batch{ends: ends}); err != nil {
		return t, err
	}
	s.ended = append(s.ended, ends...)
	return tallied(r.ID, batch, s), nil
}

// tallied counts the labels of a batch.
func tallied(id, batch string, s seriesRead) Tally {
	t := Tally{ID: id, Batch: batch, Spans: register.Spans(s.given, s.prints, s.ended)}
	for _, q := range register.Spans(s.given, s.prints, nil) {
		if q.State == register.Written {
			t.Printed += q.Count()
		}
	}
	for _, q := range t.Spans {
		switch q.State {
		case register.Applied:
			t.Applied += q.Count()
		case register.Written:
			t.Left += q.Count()
		}
	}
	t.Spoilt = t.Printed - t.Applied - t.Left
	return t
}

// accounts are the ends that a request means. What is neither spoilt nor left is
// applied, where it is as much as was counted.
func (p *Press) accounts(r TallyRequest, batch string, s seriesRead) (out []register.End, err error) {
	name := register.Labels(r.ID, batch).Name
	end := func(q register.Span, state register.State, why string) {
		out = append(out, register.End{Series: name, From: q.From, To: q.To, State: state, Why: why, At: p.Clock})
	}
	if r.Spoilt != "" {
		spoilt, err := spanned(r.Spoilt)
		if err != nil {
			return nil, err
		}
		why := r.Because
		if why == "" {
			why = "torn"
		}
		for _, q := range spoilt {
			end(q, register.Void, why)
		}
	}
	if r.Applied == 0 {
		return out, nil
	}
	kept := append(s.ended[:len(s.ended):len(s.ended)], out...)
	if r.Left != "" {
		left, err := spanned(r.Left)
		if err != nil {
			return nil, err
		}
		for _, q := range left { // as if they had ended, so that they are not among the applied
			kept = append(kept, register.End{Series: name, From: q.From, To: q.To, State: register.Void})
		}
	}
	before := tallied(r.ID, batch, s)
	var n int64
	for _, q := range register.Spans(s.given, s.prints, kept) {
		if q.State == register.Written {
			n += q.Count()
			end(q, register.Applied, "")
		}
	}
	if n != int64(r.Applied) {
		return nil, usage.Errorf("count again; name the spoilt ones with --spoilt, those that are left over with --left; one that is missing may be on another product",
			"of %d labels of %s, batch %s, %s should be applied, and %d were counted", before.Printed, r.ID, batch, fmt.Sprint(n), r.Applied)
	}
	return out, nil
}

// Text is the tally for a terminal: printed = applied + spoilt + left, and which
// those are.
func (t Tally) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, batch %s: %d printed = %d applied + %d spoilt + %d left\n", t.ID, t.Batch, t.Printed, t.Applied, t.Spoilt, t.Left)
	for _, s := range []struct {
		state register.State
		what  string
	}{{register.Applied, "applied"}, {register.Void, "void"}, {register.Written, "left"}, {register.Taken, "given, and on no paper"}} {
		var all []string
		for _, q := range t.Spans {
			if q.State == s.state {
				all = append(all, q.String())
			}
		}
		if len(all) > 0 {
			fmt.Fprintf(&b, "  %s: %s\n", s.what, strings.Join(all, ", "))
		}
	}
	return b.String()
}
