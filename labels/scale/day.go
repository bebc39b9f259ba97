package scale

import (
	"cmp"
	"fmt"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Day is all that a plan asks for.
type Day struct {
	Plan  *shop.Plan
	Runs  []*Batch // one for each run
	Works []*Work  // of each run
	Prep  []Prep   // in the order in which they are needed
	Buy   []Buy    // by the ids of the ingredients
	Picks []Pick   // what assortments take of other products
}

// Prep is one formula made once for the whole day. Its Make.For says what goes
// where: the weights to split it into.
type Prep struct {
	Make
	Lead unit.Span // how long before all is ready it must be begun
}

// Pick is how many pieces the day's assortments take of a product, and how
// many the day makes of it.
type Pick struct {
	Product      *shop.Product
	Taken, Makes unit.Count
}

// Short reports whether the assortments take more than is made; the rest must
// come from another day.
func (p Pick) Short() bool { return p.Taken > p.Makes }

// PlanDay works out a plan: each run by itself, and what they share together.
func PlanDay(sh *shop.Shop, plan *shop.Plan) (*Day, error) {
	d := &Day{Plan: plan}
	t := newTally(sh)
	for _, r := range plan.Runs {
		p := sh.Products[r.Product.V]
		if p == nil {
			return nil, fmt.Errorf("there is no product %q", r.Product.V)
		}
		b, err := Pieces(sh, p, r.Pieces.V)
		if err != nil {
			return nil, fmt.Errorf("work out %s: %w", p.ID, err)
		}
		w, err := Order(sh, b)
		if err != nil {
			return nil, fmt.Errorf("put %s into order: %w", p.ID, err)
		}
		if err := t.product(p, rat(r.Pieces.V, 1)); err != nil {
			return nil, err
		}
		d.Runs, d.Works = append(d.Runs, b), append(d.Works, w)
	}
	if err := t.settle(); err != nil {
		return nil, err
	}
	d.prep(sh, t)
	d.Buy = Together(d)
	d.pick()
	return d, nil
}

// prep lists what is made, what must be begun first in front. What a formula
// is made of is never begun later than the formula.
func (d *Day) prep(sh *shop.Shop, t *tally) {
	lead := map[*shop.Formula]unit.Span{}
	for _, w := range d.Works {
		for _, task := range w.Tasks {
			if task.Formula != nil {
				lead[task.Formula] = max(lead[task.Formula], w.Elapsed-task.Latest())
			}
		}
	}
	for i := len(t.order) - 1; i >= 0; i-- {
		for _, f := range parts(sh, t.order[i]) {
			lead[f] = max(lead[f], lead[t.order[i]])
		}
	}
	for _, m := range t.makes(sh) {
		d.Prep = append(d.Prep, Prep{m, lead[m.Formula]})
	}
	slices.SortStableFunc(d.Prep, func(a, b Prep) int { return cmp.Compare(b.Lead, a.Lead) })
}

func (d *Day) pick() {
	makes := map[*shop.Product]unit.Count{}
	for _, b := range d.Runs {
		makes[b.Product] += b.Pieces
	}
	for _, b := range d.Runs {
		for _, part := range b.Parts {
			i := slices.IndexFunc(d.Picks, func(p Pick) bool { return p.Product == part.Product })
			if i < 0 {
				i = len(d.Picks)
				d.Picks = append(d.Picks, Pick{Product: part.Product, Makes: makes[part.Product]})
			}
			d.Picks[i].Taken += part.Pieces
		}
	}
}

// Jobs lays the runs of the day out so that all are ready at the same time,
// for [Clashes].
func (d *Day) Jobs(ready unit.Span) []Job {
	var all []Job
	for i, b := range d.Runs {
		all = append(all, Job{Name: b.Product.ID, Work: d.Works[i], Start: ReadyBy(d.Works[i], ready)})
	}
	return all
}
