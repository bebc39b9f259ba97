package trace

import (
	"context"
	"slices"
	"time"

	"chablon/labels/register"
	"chablon/labels/unit"
)

// Check refuses an event that cannot follow what r knows, with a
// [*register.Error] in words for whoever noted it. Books call it in the
// transaction in which they keep the event, so that two who note at once
// cannot both be right. e must be clean.
func Check(ctx context.Context, r Reader, e Event) error {
	c := &check{ctx: ctx, r: r, e: e}
	if e.Kind == Undo {
		return c.undo()
	}
	for _, rule := range []func() error{c.known, c.same, c.above, c.once, c.meant, c.amounts} {
		if err := rule(); err != nil {
			return err
		}
	}
	return nil
}

// check is one event held against a book.
type check struct {
	ctx context.Context
	r   Reader
	e   Event
}

func things(list []Part) []Thing {
	out := make([]Thing, len(list))
	for i, p := range list {
		out[i] = p.Thing
	}
	return out
}

func (c *check) with(side Side, list ...Thing) ([]Event, error) {
	if len(list) == 0 {
		return nil, nil
	}
	return c.r.With(c.ctx, side, list)
}

// known refuses what goes in and was never noted.
func (c *check) known() error {
	made, err := c.with(Out, things(c.e.In)...)
	if err != nil {
		return err
	}
	seen := map[Thing]bool{}
	for _, e := range made {
		for _, p := range e.Out {
			seen[p.Thing] = true
		}
	}
	for _, p := range c.e.In {
		if !seen[p.Thing] {
			return refuse("look at the code; if it is right, note first where it came from", "no %s was ever noted", p.Thing)
		}
	}
	return nil
}

// same refuses to open a batch a second time with another day, another date or
// another label.
func (c *check) same() error {
	if c.e.Kind != Make {
		return nil
	}
	before, err := c.with(Out, things(c.e.Out)...)
	for _, b := range before {
		for _, s := range []struct{ what, old, now string }{{"made on", b.Made, c.e.Made}, {"kept until", b.Until, c.e.Until}} {
			if s.old != "" && s.now != "" && s.old != s.now {
				return refuse("take another batch code", "%s is %s %s, not %s", c.e.Out[0].Thing, s.what, s.old, s.now)
			}
		}
		if b.Facts != "" && c.e.Facts != "" && b.Facts != c.e.Facts {
			return refuse("give what is made otherwise another batch code, such as another letter: in the plan",
				"%s has labels that say something else (%s, not %s)", c.e.Out[0].Thing, b.Facts, c.e.Facts)
		}
	}
	return err
}

// above refuses a batch that would be made of itself, and the use of what was
// withdrawn or is made of it.
func (c *check) above() error {
	if len(c.e.In) == 0 || c.e.Kind == Withdraw {
		return nil
	}
	tree, err := walk(c.ctx, c.r, things(c.e.In), Back)
	if err != nil {
		return err
	}
	for _, f := range tree.Found {
		if c.e.Kind == Make && f.Thing == c.e.Out[0].Thing {
			return refuse("look at the codes", "%s would be made of itself", f.Thing)
		}
	}
	return free(c.ctx, c.r, tree.Things())
}

// once refuses a carton that is packed twice, stands on two pallets, or goes to
// two customers.
func (c *check) once() error {
	switch c.e.Kind {
	case Pack:
		return c.first(Out, things(c.e.Out), Pack)
	case Load:
		if err := c.first(Out, things(c.e.Out), Load); err != nil {
			return err
		}
		return c.first(In, things(c.e.In), Load, Ship)
	case Ship:
		all, err := c.together()
		if err != nil {
			return err
		}
		return c.first(In, all, Ship)
	}
	return nil
}

// together is what is shipped: the cartons and pallets themselves, the cartons
// of those pallets, and the pallets under those cartons.
func (c *check) together() ([]Thing, error) {
	all := things(c.e.In)
	for _, side := range []Side{Out, In} {
		loads, err := c.with(side, things(c.e.In)...)
		if err != nil {
			return nil, err
		}
		for _, l := range loads {
			switch {
			case l.Kind == Load && side == Out:
				all = append(all, things(l.In)...)
			case l.Kind == Load:
				all = append(all, things(l.Out)...)
			}
		}
	}
	return all, nil
}

// meant refuses to load or ship cartons that were packed for another customer:
// the label on them names him and his order.
func (c *check) meant() error {
	if c.e.Kind != Load && c.e.Kind != Ship {
		return nil
	}
	all, err := c.together()
	if err != nil {
		return err
	}
	packed, err := c.with(Out, all...)
	if err != nil {
		return err
	}
	mine := map[Thing]bool{}
	for _, t := range all {
		mine[t] = true
	}
	for _, p := range packed {
		i := slices.IndexFunc(p.Out, func(o Part) bool { return mine[o.Thing] })
		if p.Partner != "" && p.Partner != c.e.Partner && (p.Kind == Pack || p.Kind == Load) && i >= 0 {
			return refuse("look at its label; for another customer it is labelled anew", "%s was %s for %s", p.Out[i].Thing, done(p.Kind), p.Partner)
		}
	}
	return nil
}

// first refuses the things that stand on that side of an earlier event of one
// of the kinds.
func (c *check) first(side Side, list []Thing, kinds ...EventKind) error {
	before, err := c.with(side, list...)
	if err != nil {
		return err
	}
	mine := map[Thing]bool{}
	for _, t := range list {
		mine[t] = true
	}
	for _, e := range before {
		for _, k := range kinds {
			if e.Kind != k {
				continue
			}
			for _, p := range e.side(side) {
				if mine[p.Thing] {
					return refuse("if that was a mistake, undo it first", "%s was %s on %s%s [event %d]", p.Thing, done(e.Kind), e.At.Format(time.DateOnly), to(e), e.Number)
				}
			}
		}
	}
	return nil
}

func (e Event) side(s Side) []Part {
	if s == In {
		return e.In
	}
	return e.Out
}

func done(k EventKind) string {
	return map[EventKind]string{Pack: "packed", Load: "loaded", Ship: "shipped", Make: "made", Receive: "received"}[k]
}

func to(e Event) string {
	if e.Kind == Ship {
		return " to " + e.Partner
	}
	return ""
}

// amounts refuses to use more of a thing than there is, where it is known how
// much that is.
func (c *check) amounts() error {
	if c.e.Kind != Make && c.e.Kind != Pack {
		return nil
	}
	came, err := c.with(Out, things(c.e.In)...)
	if err != nil {
		return err
	}
	went, err := c.with(In, things(c.e.In)...)
	if err != nil {
		return err
	}
	for _, p := range c.e.In {
		have, sure := total(came, Out, p.Thing)
		used, _ := total(went, In, p.Thing)
		switch {
		case sure.mass && used.Mass+p.Mass > have.Mass:
			return refuse("note what came in, or correct the amount", "%s of %s would be used, but only %s is left of %s",
				p.Mass, p.Thing, have.Mass-min(used.Mass, have.Mass), have.Mass)
		case sure.pieces && used.Pieces+p.Pieces > have.Pieces:
			return refuse("count again, or close the batch with what was made", "%d pieces of %s would be packed, but only %d are left of %d",
				p.Pieces, p.Thing, have.Pieces-min(used.Pieces, have.Pieces), have.Pieces)
		}
	}
	return nil
}

// total adds up what stands of t on one side of events, and says whether it is
// known.
func total(list []Event, side Side, t Thing) (sum Part, sure struct{ mass, pieces bool }) {
	for _, e := range list {
		if e.Kind == Withdraw {
			continue
		}
		for _, p := range e.side(side) {
			if p.Thing == t {
				sum.Mass += p.Mass
				sum.Pieces += p.Pieces
			}
		}
	}
	sure.mass, sure.pieces = sum.Mass > unit.Mass(0), sum.Pieces > 0
	return sum, sure
}

// undo refuses to undo what others rest on.
func (c *check) undo() error {
	e, undone, err := c.r.Event(c.ctx, c.e.Undoes)
	switch {
	case err != nil:
		return err
	case undone || e.Kind == Undo:
		return refuse("look at the list of events", "event %d was undone before, or is an undoing itself", e.Number)
	}
	used, err := c.with(In, things(e.Out)...)
	if err != nil {
		return err
	}
	from, err := c.with(Out, things(e.Out)...)
	if err != nil {
		return err
	}
	others := map[Thing]bool{}
	for _, f := range from {
		if f.Number != e.Number {
			for _, p := range f.Out {
				others[p.Thing] = true
			}
		}
	}
	mine := map[Thing]bool{}
	for _, p := range e.Out {
		mine[p.Thing] = !others[p.Thing]
	}
	for _, u := range used {
		for _, p := range u.In {
			if mine[p.Thing] {
				return refuse("undo that first", "%s is used by event %d of %s", p.Thing, u.Number, u.At.Format(time.DateOnly))
			}
		}
	}
	return stillEnough(e, from, used)
}

// stillEnough refuses to take back so much of a thing that what was used of it
// is more than what stays. Where nothing of known amount stays, it is as before
// anybody counted.
func stillEnough(e Event, from, used []Event) error {
	for _, p := range e.Out {
		have, _ := total(from, Out, p.Thing)
		went, _ := total(used, In, p.Thing)
		mass, pieces := have.Mass-p.Mass, have.Pieces-p.Pieces
		if p.Mass > 0 && mass > 0 && mass < went.Mass || p.Pieces > 0 && pieces > 0 && pieces < went.Pieces {
			return refuse("undo first what used it", "more of %s was used than there would be left", p.Thing)
		}
	}
	return nil
}

// Opens reports whether e opens a batch that the book knows already with the
// same day, date and label, and made of the same: then it says nothing new and
// need not be kept.
func Opens(ctx context.Context, r Reader, e Event) (known bool, err error) {
	if e.Kind != Make || len(e.Out) != 1 || e.Out[0].Mass > 0 || e.Out[0].Pieces > 0 {
		return false, nil
	}
	before, err := r.With(ctx, Out, things(e.Out))
	for _, b := range before {
		same := len(e.In) == 0 && e.Why == "" || slices.Equal(b.In, e.In) && b.Why == e.Why
		known = known || same && b.Made == e.Made && b.Until == e.Until && b.Facts == e.Facts
	}
	return known, err
}

// NoEvent is the refusal of an event that is not in the book.
func NoEvent(number int64) error {
	return register.Refuse(register.Input, "chablon events lists them", "there is no event %d", number)
}

// RefusedError is the refusal of one event of several; nothing of them was kept.
type RefusedError struct {
	Place int // in the list, from 0
	Err   error
}

// Error says what is wrong with it.
func (e *RefusedError) Error() string { return e.Err.Error() }

// Unwrap gives the refusal itself.
func (e *RefusedError) Unwrap() error { return e.Err }

// Which gives an error the place in a list of n events; for implementations.
func Which(place, n int, err error) error {
	if n == 1 || err == nil {
		return err
	}
	return &RefusedError{place, err}
}
