package print

import (
	"context"
	"errors"
	"fmt"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/labels/diag"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// old is how far the machine's clock may be ahead of all that is known to have
// happened before somebody is asked.
const old = 365 * 24 * time.Hour

// runs sees whether the machine's clock can be right: it is not before what
// somebody has signed or what the print book says was done. A clock that fell
// back to 1980 would print a use-by date that nobody can read as wrong. The day
// that a command names is not asked about: it is meant. One day is left for the
// hours between time zones.
func (p *Press) runs(ctx context.Context, found *diag.List) error {
	if p.Now.IsZero() {
		return nil
	}
	last, what, pos, err := p.latest(ctx)
	if err != nil || last.IsZero() {
		return err
	}
	switch now := p.Now; {
	case now.Add(24 * time.Hour).Before(last):
		return fmt.Errorf("the clock of this machine says %s, but %s was on %s: set the clock", unit.DateOf(now), what, unit.DateOf(last))
	case now.After(last.Add(old)):
		found.Warnf(pos, "clock", "see whether the clock of this machine is right", "it is %s by the clock, and %s, the last that is known, was on %s", unit.DateOf(now), what, unit.DateOf(last))
	}
	return nil
}

// latest is the last that is known to have happened: a signature, or an entry of
// the print book.
func (p *Press) latest(ctx context.Context) (at time.Time, what string, pos diag.Pos, err error) {
	pos = diag.Pos{File: shop.ApprovalsFile}
	for _, a := range p.Shop.Approvals.All {
		if t := a.On.V.Time(); a.On.Set() && t.After(at) {
			at, what, pos = t, "a signature of "+a.By.V, a.On.Pos
		}
	}
	if p.Name == "" {
		return at, what, pos, nil
	}
	book, err := keep.Book(ctx, p.Name)
	if register.RuleOf(err) == register.Missing {
		return at, what, pos, nil
	}
	if err != nil {
		return at, what, pos, err
	}
	defer func() { err = errors.Join(err, book.Close()) }()
	prints, err := book.Prints(ctx, register.Query{})
	if err != nil {
		return at, what, pos, err
	}
	copies, err := book.History(ctx, "")
	if err != nil {
		return at, what, pos, err
	}
	var times []time.Time
	for _, e := range prints {
		times = append(times, e.At)
	}
	for _, c := range copies {
		times = append(times, c.At)
	}
	for _, t := range times {
		if t.After(at) {
			at, what = t, "the last entry of the print book"
		}
	}
	return at, what, pos, nil
}

// lapsed finds specifications of what a job is made of that were to be asked for
// again, and longer ago than the shop lets pass. What rests on one is a draft.
func (j *Job) lapsed() {
	lapsed := j.Shop.Lapsed(j.ID, j.Today)
	for _, in := range j.Inside {
		lapsed = append(lapsed, j.Shop.Lapsed(in.Product.ID, j.Today)...)
	}
	for _, d := range lapsed {
		if !j.Request.Draft {
			j.Found.Add(d)
		}
		j.Draft = j.Draft || j.Request.Draft
	}
}

// before refuses paper of a day before the signature that it rests on.
func (j *Job) before() {
	if a := j.approval(j.Facts); a.Valid && j.Today.Before(a.On) {
		j.Found.Errorf(j.Product.Pos, "date", "see whether the day is right; print it with a day from then on",
			"%s cannot be printed for %s: %s signed what it says on %s", j.what(), j.Today, a.By, a.On)
	}
}
