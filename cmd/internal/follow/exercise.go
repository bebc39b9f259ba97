package follow

import (
	"context"
	"slices"
	"time"

	"chablon/labels/trace"
)

// Exercise is a mock recall: one thing followed both ways, how long that took,
// and whether it adds up.
type Exercise struct {
	Forth, Back  *Report
	Balances     []trace.Balance
	Proof        string // SSCC of a carton that leads back to the thing; "" where there is none
	Began, Ended time.Time
	Took         time.Duration
}

// Exercise follows the one thing with a code both ways. clock gives the time.
func (d *Desk) Exercise(ctx context.Context, code, of string, clock func() time.Time) (*Exercise, error) {
	x := &Exercise{Began: clock()}
	var err error
	if x.Forth, err = d.Trace(ctx, code, of, trace.Forth, clock); err != nil {
		return nil, err
	}
	if x.Back, err = d.Trace(ctx, code, of, trace.Back, clock); err != nil {
		return nil, err
	}
	back, err := trace.Balances(ctx, d.Book, x.Back.Things()[1:]) // the thing itself is among those forth
	if err != nil {
		return nil, err
	}
	x.Balances = slices.Concat(back, x.Forth.Balances)
	if err := x.prove(ctx, d.Book); err != nil {
		return nil, err
	}
	x.Ended = clock()
	x.Took = x.Ended.Sub(x.Began)
	return x, nil
}

// prove follows a carton that was found back to where the search began.
func (x *Exercise) prove(ctx context.Context, r trace.Reader) error {
	cartons := x.Forth.Of(trace.Carton)
	if len(cartons) == 0 || cartons[0].Depth == 0 {
		return nil
	}
	back, err := trace.Walk(ctx, r, cartons[0].Thing, trace.Back)
	if slices.ContainsFunc(back.Found, func(f trace.Found) bool { return f.Thing == x.Forth.From }) {
		x.Proof = cartons[0].Code
	}
	return err
}

// Why is why a thing, or what it is made of, is withdrawn: the note for the
// house; "" where it is not.
func (d *Desk) Why(ctx context.Context, t trace.Thing) (string, error) {
	e, _, err := trace.Withdrawn(ctx, d.Book, t)
	return trace.ReadReason(e.Why).Note, err
}
