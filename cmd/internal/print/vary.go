package print

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/labels/diag"
	"chablon/labels/heat"
	"chablon/labels/register"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// A batch that varies is made of something else, or of something older, than the
// files of its product say. Everything about it (card, label, carton, ticket,
// what is declared and why) is of a shop that is derived for that batch alone, so
// it goes the same road as all else.

// varied is the press for one batch: p itself where the batch is made as usual.
func (p *Press) varied(run *shop.Run, made unit.Date) (*Press, error) {
	if run == nil || !run.Varies() || p.Found.Errors() > 0 && p.touchesRun(run).Errors() > 0 {
		return p, nil
	}
	q := *p
	q.varies, q.batchOf = run, p.Shop.BatchCode(*run, made)
	q.Found = &diag.List{}
	q.Found.AddAll(p.Found)
	sh, err := scale.Vary(p.Shop, *run, made)
	if err != nil {
		q.Found.Errorf(run.Pos, "instead", "look at what the run says of its batch", "batch %s of %s cannot be made: %v", q.batchOf, run.Product.V, err)
		return &q, nil
	}
	q.Shop = sh
	found := &diag.List{}
	food := *sh
	food.Plans = nil // they speak of the shop as its files are
	food.Check(found)
	words.Named(sh, found)
	heat.Check(sh, found)
	words.Claims(sh, found)
	for _, d := range found.All() {
		if !slices.Contains(p.Found.All(), d) {
			q.Found.Add(d)
		}
	}
	return &q, nil
}

// ofRun adds what is wrong with the run by which a batch varies, whoever asks for
// it.
func (p *Press) ofRun(found *diag.List) {
	if p.varies == nil {
		return
	}
	have := found.All()
	for _, d := range p.Found.All() {
		if d.Pos.File == p.varies.Pos.File && runOf(p.planIn(d.Pos.File), d.Pos) == p.varies && !slices.Contains(have, d) {
			found.Add(d)
		}
	}
}

// runOfBatch is the run of a day's plan by which a batch of a product varies, or
// nil.
func (p *Press) runOfBatch(id, batch string, made unit.Date) *shop.Run {
	plan, ok := p.Shop.PlanFor(made)
	if !ok {
		return nil
	}
	for i := range plan.Runs {
		if r := &plan.Runs[i]; r.Product.V == id && r.Varies() && p.Shop.BatchCode(*r, made) == batch {
			return r
		}
	}
	return nil
}

// meant is the press for the batch that a request is about.
func (p *Press) meant(id string, run *shop.Run, batch string, made unit.Date) (*Press, error) {
	if p.varies != nil || p.Shop.Products[id] == nil {
		return p, nil
	}
	if made.IsZero() {
		made = p.Today
	}
	if run == nil {
		if batch == "" {
			batch = p.Shop.BatchCode(shop.Run{}, made)
		}
		run = p.runOfBatch(id, batch, made)
	}
	return p.varied(run, made)
}

// whyVaries says in one line how a run varies, for the book.
func whyVaries(r *shop.Run) string {
	var all []string
	for _, i := range r.Instead {
		all = append(all, fmt.Sprintf("%s instead of %s: %s", i.Use.V, i.Of.V, i.Because.V))
	}
	for _, w := range r.Rework {
		all = append(all, fmt.Sprintf("%s of %s %s in %s", w.Take.V, w.Use.V, w.Batch.V, w.In.V))
	}
	for _, e := range r.MadeBefore {
		all = append(all, fmt.Sprintf("%s %s, made on %s", e.Use.V, e.Batch.V, e.Made.V))
	}
	out := strings.Join(all, "; ")
	if len(out) > 190 { // as much as the book keeps
		out = strings.ToValidUTF8(out[:187], "") + "..."
	}
	return out
}

// older are the earlier batches that go into the batch, for the trace. Each is
// opened, in case nobody has noted it.
func (j *Job) older(now time.Time) (open []trace.Event, in []trace.Part) {
	if j.varies == nil {
		return nil, nil
	}
	add := func(id, code string, made unit.Date, mass unit.Mass) {
		t := trace.Thing{Kind: trace.Batch, ID: id, Code: code}
		open = append(open, trace.Event{Kind: trace.Make, At: now, Noted: now, Made: made.String(), Out: []trace.Part{{Thing: t}}})
		in = append(in, trace.Part{Thing: t, Mass: mass})
	}
	for _, w := range j.varies.Rework {
		add(w.Use.V, w.Batch.V, w.Made.V, w.Take.V)
	}
	for _, e := range j.varies.MadeBefore {
		add(e.Use.V, e.Batch.V, e.Made.V, 0)
	}
	return open, in
}

// asUsual refuses paper with the usual words for a batch of which the book says
// that it was made otherwise: the plan must say how.
func (j *Job) asUsual() error {
	if j.Kind.Bears != ItsBatch || !j.Kind.sold() || j.varies != nil || j.Request.compare {
		return nil
	}
	ctx := context.Background()
	return j.reads(ctx, func(book keep.Books) error {
		e, ok, err := trace.Differs(ctx, book, j.batchThing())
		var no *register.Error
		if errors.As(err, &no) && refusal(no.Rule) {
			return nil // nothing of it was ever noted
		}
		if ok {
			j.Found.Errorf(j.at(), "instead", "write what took whose place into the plan, under instead: of its run; its own declaration is then signed and printed",
				"the usual %s of batch %s is refused: %s was made otherwise: %s [event %d]", j.Kind.One, j.Batch, e.Out[0].Thing, e.Why, e.Number)
		}
		return err
	})
}

// addNew adds findings that p does not have yet.
func (p *Press) addNew(found *diag.List) {
	have := p.Found.All()
	for _, d := range found.All() {
		if !slices.Contains(have, d) {
			p.Found.Add(d)
		}
	}
}
