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
	Goods []Gone        // forth: what left the house, by customer
	Here  []trace.Found // forth: cartons and batches that did not leave
	Lots  []Source      // back: the lots and whose they were
	Took  time.Duration // how long the question took
}

// Gone is what left for one customer.
type Gone struct {
	Customer, Order string
	At              time.Time
	Things          []trace.Part // cartons and pallets
	Packs           unit.Count   // in them, where it is known
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
	t, err := d.named(ctx, code, of)
	if err != nil {
		return nil, err
	}
	tree, err := trace.Walk(ctx, d.Book, t, way)
	if err != nil {
		return nil, err
	}
	r := &Report{Tree: tree}
	if way == trace.Forth {
		r.forth()
	} else {
		err = r.back(ctx, d.Book)
	}
	r.Took = clock().Sub(began)
	return r, err
}

// forth sorts what was found into what left and what is still in the house.
func (r *Report) forth() {
	packs := map[trace.Thing]unit.Count{}
	found := map[trace.Thing]bool{}
	for _, f := range r.Found {
		packs[f.Thing], found[f.Thing] = f.Pieces, true
	}
	left, inside := map[trace.Thing]bool{}, map[trace.Thing][]trace.Thing{}
	used := map[trace.Thing]bool{}
	for _, e := range r.Events {
		for _, p := range e.In {
			used[p.Thing] = true
			if e.Kind == trace.Load && found[p.Thing] {
				inside[e.Out[0].Thing] = append(inside[e.Out[0].Thing], p.Thing)
			}
		}
	}
	for _, e := range r.Events {
		if e.Kind != trace.Ship {
			continue
		}
		g := Gone{Customer: e.Partner, Order: e.Order, At: e.At}
		for _, p := range e.In {
			if !found[p.Thing] {
				continue
			}
			left[p.Thing] = true
			g.Things = append(g.Things, trace.Part{Thing: p.Thing, Pieces: packs[p.Thing]})
			g.Packs += packs[p.Thing]
			for _, c := range inside[p.Thing] {
				left[c] = true
				g.Things = append(g.Things, trace.Part{Thing: c, Pieces: packs[c]})
				g.Packs += packs[c]
			}
		}
		r.Goods = append(r.Goods, g)
	}
	for _, f := range r.Found {
		if !left[f.Thing] && !used[f.Thing] {
			r.Here = append(r.Here, f)
		}
	}
	slices.SortStableFunc(r.Goods, func(a, b Gone) int { return strings.Compare(a.Customer, b.Customer) })
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

// Customers lists those who got any of it, each once.
func (r *Report) Customers() (out []string) {
	for _, g := range r.Goods {
		if !slices.Contains(out, g.Customer) {
			out = append(out, g.Customer)
		}
	}
	return out
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
			fmt.Fprintf(&b, "  %s\n", p.Thing)
		}
	}
	fmt.Fprintf(&b, "still in the house, or not noted as gone: %d\n", len(r.Here))
	for _, f := range r.Here {
		fmt.Fprintf(&b, "  %s%s\n", f.Thing, behind(", pieces ", count(f.Pieces)))
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
	rows := [][]string{{"customer", "order", "day", "what", "of", "code", "packs"}}
	for _, g := range r.Goods {
		for _, p := range g.Things {
			rows = append(rows, []string{g.Customer, g.Order, g.At.Format(time.DateOnly), string(p.Kind), p.ID, p.Code, count(p.Pieces)})
		}
	}
	for _, f := range r.Here {
		rows = append(rows, []string{"", "", "", string(f.Kind), f.ID, f.Code, count(f.Pieces)})
	}
	return c.WriteAll(rows)
}
