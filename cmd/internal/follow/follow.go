// Package follow answers: what came in, what was made of it, and where did it go?
//
// A [Desk] turns what a cook or a packer says into events of labels/trace: ids
// are held against the shop, codes and days are filled in where the shop's
// rules give them, and what the plan of the day used is proposed instead of
// typed. It answers the question of a recall, from a lot forth to the customers
// and from a carton back to the lots.
package follow

import (
	"context"
	"slices"
	"strings"
	"time"

	"chablon/cmd/internal/usage"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
)

// Desk is where things are noted: the shop, its book, and the clock.
type Desk struct {
	Shop  *shop.Shop
	Book  trace.Book
	Today unit.Date // the day that is meant where none is named
	Now   time.Time // what the clock of the machine says, with its zone
	Who   string
}

// event is an event of the day, noted now.
func (d *Desk) event(kind trace.EventKind, day unit.Date) (trace.Event, error) {
	at := d.Now
	if day.IsZero() {
		day = d.Today
	}
	if day != unit.DateOf(d.Now) {
		at = day.Time().Add(12 * time.Hour)
	}
	if at.After(d.Now.Add(24 * time.Hour)) {
		return trace.Event{}, usage.Errorf("look at the day, and at the clock of this machine", "%s has not come yet", day)
	}
	return trace.Event{Kind: kind, At: at, Noted: d.Now, Zone: d.Now.Format("-07:00"), Who: d.Who}, nil
}

// Lot is a delivery: so much of an ingredient under the supplier's code.
type Lot struct {
	Ingredient, Code string
	Mass             unit.Mass
	From             string // supplier; the specification's when left out
	Order            string
	Until, Day       unit.Date
}

// Lot is the event of a delivery.
func (d *Desk) Lot(l Lot) (trace.Event, error) {
	e, err := d.event(trace.Receive, l.Day)
	if err != nil {
		return e, err
	}
	in := d.Shop.Ingredients[l.Ingredient]
	if in == nil {
		return e, usage.Unknown("ingredient", l.Ingredient, d.Shop.IngredientIDs)
	}
	if l.From == "" {
		l.From = in.Supplier.V
	}
	e.Partner, e.Order = l.From, l.Order
	if !l.Until.IsZero() {
		e.Until = l.Until.String()
	}
	e.Out = []trace.Part{{Thing: trace.Thing{Kind: trace.Lot, ID: l.Ingredient, Code: l.Code}, Mass: l.Mass}}
	return e, nil
}

// Use is how much of a lot or batch went in; the mass may be unknown.
type Use struct {
	ID, Code string
	Mass     unit.Mass
	Pieces   unit.Count
}

// Batch is a batch being made: what went in so far, and what came out.
type Batch struct {
	ID     string // formula or product
	Code   string // by the shop's rule when left out
	Made   unit.Date
	Used   []Use
	Mass   unit.Mass  // that came out
	Pieces unit.Count // good pieces that came out
	Why    string     // why it differs from its formula, where it does
}

// Batch is the event of making, or of another part of it: a batch may be
// opened, used into and closed in as many steps as the work has.
func (d *Desk) Batch(b Batch) (trace.Event, error) {
	if b.Made.IsZero() {
		b.Made = d.Today
	}
	e, err := d.event(trace.Make, b.Made)
	if err != nil {
		return e, err
	}
	if err := d.makes(b.ID); err != nil {
		return e, err
	}
	if b.Code == "" {
		b.Code = d.Shop.BatchCode(shop.Run{}, b.Made)
	}
	e.Made, e.Why = b.Made.String(), b.Why
	for _, u := range b.Used {
		kind, err := d.kind(u.ID)
		if err != nil {
			return e, err
		}
		if b.Why == "" && !slices.Contains(d.parts(b.ID), u.ID) {
			return e, usage.Errorf("if it was taken in place of something, say why: --because \"butter did not come\"; the usual label of that batch is then refused",
				"%s is no part of %s", u.ID, b.ID)
		}
		e.In = append(e.In, trace.Part{Thing: trace.Thing{Kind: kind, ID: u.ID, Code: u.Code}, Mass: u.Mass, Pieces: u.Pieces})
	}
	e.Out = []trace.Part{{Thing: trace.Thing{Kind: trace.Batch, ID: b.ID, Code: b.Code}, Mass: b.Mass, Pieces: b.Pieces}}
	return e, nil
}

// makes refuses an id that nothing is made under.
func (d *Desk) makes(id string) error {
	if d.Shop.Formulas[id] == nil && d.Shop.Products[id] == nil {
		return usage.Unknown("formula or product", id, slices.Concat(d.Shop.FormulaIDs, d.Shop.ProductIDs))
	}
	return nil
}

// kind is lot for an ingredient and batch for what is made here.
func (d *Desk) kind(id string) (trace.Kind, error) {
	switch {
	case d.Shop.Ingredients[id] != nil:
		return trace.Lot, nil
	case d.Shop.Formulas[id] != nil || d.Shop.Products[id] != nil:
		return trace.Batch, nil
	}
	return "", usage.Unknown("ingredient, formula or product", id, d.Shop.Known())
}

// Parts are the ids of what goes into a formula or product, without itself.
func (d *Desk) Parts(id string) (out []string) {
	for _, p := range d.parts(id)[1:] {
		if p != "" && !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	return out
}

// parts are the ids that a formula or product is made of, itself among them:
// yesterday's rest of it may go in again.
func (d *Desk) parts(id string) []string {
	out := []string{id}
	var lines []shop.Line
	if f := d.Shop.Formulas[id]; f != nil {
		lines = f.Lines
		if f.CookedIn != nil {
			out = append(out, f.CookedIn.Use.V)
		}
	}
	if p := d.Shop.Products[id]; p != nil {
		lines = append(lines, p.Lines()...)
	}
	for _, l := range lines {
		out = append(out, l.Use.V, l.Or.V)
	}
	return out
}

// Ship is cartons and pallets that leave for a customer.
type Ship struct {
	SSCCs     []string
	To, Order string
	Day       unit.Date
}

// Ship is the event of shipping.
func (d *Desk) Ship(ctx context.Context, s Ship) (trace.Event, error) {
	e, err := d.event(trace.Ship, s.Day)
	if err != nil {
		return e, err
	}
	if e.Partner, err = d.customer(s); err != nil {
		return e, err
	}
	e.Order = s.Order
	for _, code := range s.SSCCs {
		t, err := d.Named(ctx, code, "", trace.Carton, trace.Pallet)
		if err != nil {
			return e, err
		}
		e.In = append(e.In, trace.Part{Thing: t})
	}
	return e, nil
}

// customer is the name of the one that goods go to: one of the shop's, where it
// names any.
func (d *Desk) customer(s Ship) (string, error) {
	if len(d.Shop.CustomerIDs) == 0 {
		return s.To, nil
	}
	c, ok := d.Shop.CustomerNamed(s.To)
	switch {
	case !ok:
		return "", d.stranger(s.To)
	case s.Order == "" && c.Want("order-number"):
		return "", usage.Errorf("give it: --order", "%s takes nothing without the number of its order", c.Name.V)
	}
	return c.Name.V, nil
}

// stranger is a customer that the shop does not know. The hint names the one
// that may have been meant by its id, as it is typed the quickest.
func (d *Desk) stranger(name string) error {
	if name == "" {
		return usage.Errorf("name one of "+strings.Join(d.Shop.CustomerIDs, ", "), "the customer is missing")
	}
	var names []string
	for _, id := range d.Shop.CustomerIDs {
		names = append(names, id, d.Shop.Customers[id].Name.V)
	}
	e := usage.Unknown("customer", name, names)
	if !strings.HasPrefix(e.Hint, "did you mean") {
		e.Hint = "customers are " + strings.Join(d.Shop.CustomerIDs, ", ") + "; for another one write customers/ID.yaml with its name and address"
	}
	return e
}

// Withdraw is that a lot or batch may no longer be used or sold: one event with
// the reason for the house, and one for each language in which buyers are told.
func (d *Desk) Withdraw(ctx context.Context, code, of string, why trace.Reason) ([]trace.Event, error) {
	t, err := d.Named(ctx, code, of, trace.Lot, trace.Batch)
	if err != nil {
		return nil, err
	}
	reasons := []trace.Reason{{Note: why.Note, Undeclared: why.Undeclared}}
	for _, s := range why.Said {
		reasons = append(reasons, trace.Reason{Said: []trace.Saying{s}})
	}
	if why.Note == "" && len(why.Undeclared) == 0 && len(why.Said) > 0 {
		reasons = reasons[1:]
	}
	var out []trace.Event
	for _, r := range reasons {
		e, err := d.event(trace.Withdraw, unit.Date{})
		if err != nil {
			return nil, err
		}
		e.In = []trace.Part{{Thing: t}}
		if e.Why, err = r.Text(); err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, nil
}

// Undo is the event that another was noted wrongly.
func (d *Desk) Undo(number int64, why string) (trace.Event, error) {
	e, err := d.event(trace.Undo, unit.Date{})
	e.Undoes, e.Why = number, why
	return e, err
}

// Named finds the one thing with a code, of one of the kinds where any are
// given. Many products may share a batch code: then of says which is meant.
func (d *Desk) Named(ctx context.Context, code, of string, kinds ...trace.Kind) (trace.Thing, error) {
	all, err := d.Book.Named(ctx, code)
	if err != nil {
		return trace.Thing{}, err
	}
	var got []trace.Thing
	var ids []string
	for _, t := range all {
		if (of == "" || t.ID == of) && (len(kinds) == 0 || slices.Contains(kinds, t.Kind)) {
			got, ids = append(got, t), append(ids, t.ID)
		}
	}
	switch len(got) {
	case 0:
		return trace.Thing{}, usage.Errorf("look at the code; chablon events lists all that was noted", "nothing with the code %q was ever noted%s", code, ofID(of))
	case 1:
		return got[0], nil
	}
	return trace.Thing{}, usage.Errorf("say which: --of "+strings.Join(ids, ", or --of "), "%d things bear the code %s", len(ids), code)
}

func ofID(of string) string {
	if of == "" {
		return ""
	}
	return " of " + of
}
