package follow

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"time"

	"chablon/labels/trace"
	"chablon/labels/unit"
)

// Report is the answer to one question of a recall.
type Report struct {
	trace.Tree
	Goods    []Gone          // forth: what left the house, by customer
	Here     []trace.Part    // forth: cartons that did not leave, and what is left of lots and batches
	Lots     []Source        // back: the lots and whose they were
	Balances []trace.Balance // forth: of the lots and batches, in the order in which they were found
	Took     time.Duration   // how long the question took
}

// Gone is what left for one customer.
type Gone struct {
	Customer, Order string
	At              time.Time
	Things          []Box      // cartons and pallets
	Packs           unit.Count // in them, where it is known
}

// Box is a carton or pallet, the batch in it that the trace came through, and
// the day until which that keeps, as far as they are known.
type Box struct {
	trace.Part
	Batch, Until string
}

// Source is a lot that a trace came to, and how it came in.
type Source struct {
	trace.Part
	From, Order, Until string
	At                 time.Time
}

// Trace follows the one thing with a code; of says of what, where several bear
// it. clock gives the time, to say how long it took.
func (d *Desk) Trace(ctx context.Context, code, of string, way trace.Direction, clock func() time.Time) (*Report, error) {
	began := clock()
	t, err := d.Named(ctx, code, of)
	if err != nil {
		return nil, err
	}
	tree, err := trace.Walk(ctx, d.Book, t, way)
	if err != nil {
		return nil, err
	}
	r := &Report{Tree: tree}
	if way == trace.Forth {
		err = r.forth(ctx, d.Book)
	} else {
		err = r.back(ctx, d.Book)
	}
	r.Took = clock().Sub(began)
	return r, err
}

// forth sorts what was found into what left and what is still in the house.
func (r *Report) forth(ctx context.Context, b trace.Reader) error {
	until, err := r.dates(ctx, b)
	if err != nil {
		return err
	}
	at := make(map[trace.Thing]int, len(r.Found))
	for i, f := range r.Found {
		at[f.Thing] = i
	}
	inside := map[trace.Thing][]int{} // cartons by the pallets that they stand on
	gone := make([]bool, len(r.Found))
	for _, e := range r.Events {
		for _, p := range e.In {
			if i, found := at[p.Thing]; found && e.Kind == trace.Load {
				inside[e.Out[0].Thing] = append(inside[e.Out[0].Thing], i)
				gone[i] = true // to the pallet, which is asked for in its place
			}
		}
	}
	for _, e := range r.Events {
		if e.Kind != trace.Ship {
			continue
		}
		g := Gone{Customer: e.Partner, Order: e.Order, At: e.At}
		for _, p := range e.In {
			if i, found := at[p.Thing]; found {
				for _, i := range append([]int{i}, inside[p.Thing]...) {
					gone[i] = true
					g.add(box(r.Found[i], until))
				}
			}
		}
		r.Goods = append(r.Goods, g)
	}
	slices.SortStableFunc(r.Goods, func(a, b Gone) int { return strings.Compare(a.Customer, b.Customer) })
	return r.here(ctx, b, gone)
}

func (g *Gone) add(b Box) {
	g.Things = append(g.Things, b)
	g.Packs += b.Pieces
}

// box is a carton or pallet that was found, with the batch in it and its date.
func box(f trace.Found, until map[trace.Thing]string) Box {
	b := Box{Part: f.Part}
	if f.Kind == trace.Carton && f.Before.Kind == trace.Batch {
		b.Batch, b.Until = f.Before.Code, until[f.Before]
	}
	return b
}

// dates are the days until which the batches keep that were found.
func (r *Report) dates(ctx context.Context, b trace.Reader) (map[trace.Thing]string, error) {
	var batches []trace.Thing
	for _, f := range r.Of(trace.Batch) {
		batches = append(batches, f.Thing)
	}
	made, err := b.With(ctx, trace.Out, batches, trace.Make)
	until := map[trace.Thing]string{}
	for _, e := range made {
		if t := e.Out[0].Thing; e.Until != "" && (until[t] == "" || e.Until < until[t]) {
			until[t] = e.Until
		}
	}
	return until, err
}

// here finds what did not leave: cartons, and of each lot and batch what is left
// by the book. Of one whose amounts nobody noted some may be left, so it is
// there without an amount.
func (r *Report) here(ctx context.Context, b trace.Reader, gone []bool) (err error) {
	if r.Balances, err = r.Tree.Balances(ctx, b); err != nil {
		return err
	}
	food := r.Balances // in the order of what was found, cartons and pallets left out
	for i, f := range r.Found {
		if f.Kind == trace.Carton || f.Kind == trace.Pallet {
			if !gone[i] {
				r.Here = append(r.Here, f.Part)
			}
			continue
		}
		x := food[0]
		food = food[1:]
		switch mass, pieces := x.Left(); {
		case mass > 0 || pieces > 0:
			r.Here = append(r.Here, trace.Part{Thing: f.Thing, Mass: mass, Pieces: pieces})
		case x.Unknown > 0 || x.Mass.In == 0 && x.Pieces.In == 0:
			r.Here = append(r.Here, trace.Part{Thing: f.Thing})
		}
	}
	return nil
}

// back looks up how each lot came in.
func (r *Report) back(ctx context.Context, b trace.Reader) error {
	for _, f := range r.Of(trace.Lot) {
		came, err := b.With(ctx, trace.Out, []trace.Thing{f.Thing})
		if err != nil {
			return err
		}
		for _, e := range came {
			i := slices.IndexFunc(e.Out, func(p trace.Part) bool { return p.Thing == f.Thing })
			r.Lots = append(r.Lots, Source{Part: e.Out[i], From: e.Partner, Order: e.Order, Until: e.Until, At: e.At})
		}
	}
	return nil
}

// Text says the answer in lines for a terminal.
func (r *Report) Text() string {
	var b strings.Builder
	if r.Way == trace.Back {
		fmt.Fprintf(&b, "%s was made of:\n", r.From)
		for _, l := range r.Lots {
			fmt.Fprintf(&b, "  %s, %s from %s on %s%s\n", l.Thing, l.Mass, l.From, l.At.Format(time.DateOnly), behind(", order ", l.Order))
		}
		for _, f := range r.Of(trace.Batch) {
			if f.Depth > 0 {
				fmt.Fprintf(&b, "  %s\n", f.Thing)
			}
		}
		return b.String()
	}
	fmt.Fprintf(&b, "%s went into:\n", r.From)
	for _, f := range r.Of(trace.Batch) {
		if f.Depth > 0 {
			fmt.Fprintf(&b, "  %s\n", f.Thing)
		}
	}
	for _, g := range r.Goods {
		fmt.Fprintf(&b, "%s, %s%s: %s\n", g.Customer, g.At.Format(time.DateOnly), behind(", order ", g.Order), counts(g))
		for _, p := range g.Things {
			fmt.Fprintf(&b, "  %s%s%s\n", p.Thing, behind(", batch ", p.Batch), behind(", keeps until ", p.Until))
		}
	}
	fmt.Fprintf(&b, "still in the house, or not noted as gone: %d\n", len(r.Here))
	for _, p := range r.Here {
		held := ", pieces "
		if p.Kind == trace.Carton {
			held = ", packs "
		}
		fmt.Fprintf(&b, "  %s%s%s\n", p.Thing, behind(held, count(p.Pieces)), behind(", ", mass(p.Mass)))
	}
	return b.String()
}

func counts(g Gone) string {
	n := 0
	for _, p := range g.Things {
		if p.Kind == trace.Carton {
			n++
		}
	}
	s := strconv.Itoa(n) + " cartons"
	if n == 1 {
		s = "1 carton"
	}
	if g.Packs > 0 {
		s += fmt.Sprintf(", %d packs", g.Packs)
	}
	return s
}

func behind(word, s string) string {
	if s == "" {
		return ""
	}
	return word + s
}

// CSV writes the answer as a table, one line for each carton or lot.
func (r *Report) CSV(w io.Writer) error {
	c := csv.NewWriter(w)
	if r.Way == trace.Back {
		rows := [][]string{{"lot", "of", "mass", "supplier", "order", "day", "until"}}
		for _, l := range r.Lots {
			rows = append(rows, []string{l.Code, l.ID, mass(l.Mass), l.From, l.Order, l.At.Format(time.DateOnly), l.Until})
		}
		return c.WriteAll(rows)
	}
	rows := [][]string{{"customer", "order", "day", "what", "of", "code", "packs", "mass", "batch", "until"}}
	for _, g := range r.Goods {
		for _, p := range g.Things {
			rows = append(rows, []string{g.Customer, g.Order, g.At.Format(time.DateOnly), string(p.Kind), p.ID, p.Code, count(p.Pieces), "", p.Batch, p.Until})
		}
	}
	for _, p := range r.Here {
		rows = append(rows, []string{"", "", "", string(p.Kind), p.ID, p.Code, count(p.Pieces), mass(p.Mass), "", ""})
	}
	return c.WriteAll(rows)
}
