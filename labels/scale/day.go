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
	// Batch is the code of the one batch that it is made for, which varies; "" for
	// what all share. Its formula's name then ends with the code.
	Batch string
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

// PlanDay works out a plan: each run by itself, and what they share together. A
// run that varies ([Vary]) shares nothing: what goes into it is not what goes
// into the others.
func PlanDay(sh *shop.Shop, plan *shop.Plan) (*Day, error) {
	d := &Day{Plan: plan}
	t := newTally(sh)
	for _, r := range plan.Runs {
		in, of := sh, t
		if r.Varies() {
			var err error
			if in, err = Vary(sh, r, plan.Day.V.Date); err != nil {
				return nil, err
			}
			of = newTally(in)
		}
		if err := d.run(in, r, of); err != nil {
			return nil, err
		}
		if of != t {
			if err := of.settle(); err != nil {
				return nil, err
			}
			d.prep(in, of, r)
		}
	}
	if err := t.settle(); err != nil {
		return nil, err
	}
	d.prep(sh, t, shop.Run{})
	d.Buy = Together(d)
	d.pick()
	return d, nil
}

// run works out one run, and asks a tally for what it takes.
func (d *Day) run(sh *shop.Shop, r shop.Run, t *tally) error {
	p := sh.Products[r.Product.V]
	if p == nil {
		return fmt.Errorf("there is no product %q", r.Product.V)
	}
	b, err := Pieces(sh, p, r.Pieces.V)
	if err != nil {
		return fmt.Errorf("work out %s: %w", p.ID, err)
	}
	w, err := Order(sh, b)
	if err != nil {
		return fmt.Errorf("put %s into order: %w", p.ID, err)
	}
	if err := t.product(p, rat(r.Pieces.V, 1)); err != nil {
		return err
	}
	d.Runs, d.Works = append(d.Runs, b), append(d.Works, w)
	return nil
}

// prep lists what is made, what must be begun first in front. What a formula
// is made of is never begun later than the formula. What a run takes from an
// earlier batch is not made.
func (d *Day) prep(sh *shop.Shop, t *tally, r shop.Run) {
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
		if r.There(m.Formula.ID) {
			continue
		}
		one := Prep{Make: m, Lead: lead[m.Formula]}
		if r.Varies() {
			one.Batch = sh.BatchCode(r, d.Plan.Day.V.Date)
			one.Formula = called(m.Formula, one.Batch)
		}
		d.Prep = append(d.Prep, one)
	}
	slices.SortStableFunc(d.Prep, func(a, b Prep) int { return cmp.Compare(b.Lead, a.Lead) })
}

// called is a formula whose name ends with a batch code, so that nobody takes it
// for the usual one.
func called(f *shop.Formula, batch string) *shop.Formula {
	g := *f
	g.Name = slices.Clone(f.Name)
	for n := range g.Name {
		g.Name[n].V.V += " " + batch
	}
	return &g
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

// Joint is the work of the runs that share a formula, which is made once for
// all of them; a run that shares none is alone.
type Joint struct {
	Runs []int // indices into Day.Runs, in order
	Work *Work // its tasks say of which run they are: a shared formula is of the first
}

// Joints gives the work of the day with every formula made once.
func (d *Day) Joints(sh *shop.Shop) ([]Joint, error) {
	makes := &Batch{}
	for _, p := range d.Prep {
		makes.Makes = append(makes.Makes, p.Make)
	}
	var all []Joint
	for _, runs := range d.sharing() {
		g := &graph{shop: sh, batch: makes, last: map[*shop.Formula][]int{}, made: map[*shop.Product][]int{}}
		for _, r := range d.partsFirst(runs) {
			g.run = r
			if err := g.addRun(d.Runs[r], makes); err != nil {
				return nil, err
			}
		}
		w, err := g.work()
		if err != nil {
			return nil, err
		}
		all = append(all, Joint{runs, w})
	}
	return all, nil
}

// addRun adds the steps of a run, and those of its formulas that no run before it
// has added.
func (g *graph) addRun(b, makes *Batch) error {
	formulas, err := dependencies(g.shop, formulasOf(g.shop, b.Product))
	if err != nil {
		return err
	}
	g.batch = makes
	for _, f := range formulas {
		if _, done := g.last[f]; !done {
			g.add(f, f.Steps, lineRefs(f))
		}
	}
	g.batch = b
	first := len(g.tasks)
	g.add(nil, b.Product.Steps, refs(b.Product.Lines()))
	own := g.tasks[first:]
	for i := range own {
		for _, part := range b.Parts { // made that day too: the first steps wait for it
			if len(own[i].Needs) == 0 {
				own[i].Needs = append(own[i].Needs, g.made[part.Product]...)
			}
		}
	}
	for i := range own {
		if !slices.ContainsFunc(own, func(t Task) bool { return slices.Contains(t.Needs, first+i) }) {
			g.made[b.Product] = append(g.made[b.Product], first+i)
		}
	}
	return nil
}

// partsFirst puts assortments behind what they are made of.
func (d *Day) partsFirst(runs []int) []int {
	all := slices.Clone(runs)
	slices.SortStableFunc(all, func(a, b int) int { return cmp.Compare(d.deep(a, 0), d.deep(b, 0)) })
	return all
}

// deep is how many assortments are in each other in a run.
func (d *Day) deep(run, seen int) int {
	most := 0
	for _, part := range d.Runs[run].Parts {
		for r, b := range d.Runs {
			if b.Product == part.Product && seen < len(d.Runs) {
				most = max(most, 1+d.deep(r, seen+1))
			}
		}
	}
	return most
}

// sharing gathers the runs that use the same formulas, directly or through
// others, and assortments with what they are made of.
func (d *Day) sharing() [][]int {
	of := make([]int, len(d.Runs))
	first := map[*shop.Formula]int{}
	root := func(r int) int {
		for of[r] != r {
			r = of[r]
		}
		return r
	}
	join := func(a, b int) {
		x, y := root(a), root(b)
		of[max(x, y)] = min(x, y)
	}
	for r, b := range d.Runs {
		of[r] = r
		for _, m := range b.Makes {
			if other, ok := first[m.Formula]; ok {
				join(other, r)
			} else {
				first[m.Formula] = r
			}
		}
	}
	for r, b := range d.Runs {
		for _, part := range b.Parts {
			for other, c := range d.Runs {
				if c.Product == part.Product {
					join(other, r)
				}
			}
		}
	}
	var all [][]int
	place := map[int]int{}
	for r := range d.Runs {
		x := root(r)
		if _, ok := place[x]; !ok {
			place[x] = len(all)
			all = append(all, nil)
		}
		all[place[x]] = append(all[place[x]], r)
	}
	return all
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
