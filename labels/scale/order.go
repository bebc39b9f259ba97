package scale

import (
	"cmp"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Work is the steps of a batch in an order that can be followed, with the times
// that follow from what each step needs. Times count from the start. A step is
// so many minutes of hands, then so many of waiting, once for each load of the
// oven and for each bowl.
type Work struct {
	Tasks   []Task // in the order of work
	Lanes   []Lane // one for each formula with steps, then the product's own
	Hands   unit.Span
	Elapsed unit.Span // with as many hands as it takes, and without the nights between its days
	Alone   unit.Span // with one pair of hands, by a good plan, not always the best
}

// Task is one step in its place.
type Task struct {
	Step     *shop.Step
	Formula  *shop.Formula // whose step it is; nil for the product's own
	Lane     int           // index into Work.Lanes
	Needs    []int         // indices into Work.Tasks of what must be done before
	With     []int         // indices into Work.Tasks of a step that must have begun: at most one
	Run      int           // index of the run of a plan; 0 in the work of one batch
	Day      int           // 0 for the day on which all is ready, -1 for the day before
	Timing                 // for this batch
	Start    unit.Span     // earliest
	Slack    unit.Span     // how long it can wait without making the whole later
	Critical bool          // it cannot wait
	Alone    unit.Span     // start with one pair of hands
}

// End is when the task is over at the earliest, waiting included.
func (t Task) End() unit.Span { return t.Start + t.long() }

func (t Task) long() unit.Span { return t.Long() }

// Behind are the tasks that it comes behind in the order of work.
func (t Task) Behind() []int { return slices.Concat(t.Needs, t.With) }

// Latest is the latest start that does not make the whole later.
func (t Task) Latest() unit.Span { return t.Start + t.Slack }

// Lane is the steps of one formula, or the product's own.
type Lane struct {
	Formula *shop.Formula // nil for the product's own
	Tasks   []int         // indices into Work.Tasks
}

// EnoughHands reports whether the plan for one pair of hands is as quick as
// several pairs could be. Where it is not, a cleverer plan may still be.
func (w *Work) EnoughHands() bool { return w.Alone <= w.Elapsed }

// Critical gives the tasks that cannot wait, in order.
func (w *Work) Critical() []int {
	var all []int
	for i, t := range w.Tasks {
		if t.Critical {
			all = append(all, i)
		}
	}
	return all
}

// Order puts the steps of a batch, those of its product and of all its
// formulas, into an order of work. A step that uses a formula needs that
// formula's last steps. The order is stable: formulas before what uses them,
// and within a file as written wherever the needs allow. The error names the
// steps that need each other.
func Order(sh *shop.Shop, b *Batch) (*Work, error) {
	if b.Product == nil {
		return order(sh, []*shop.Formula{b.Formula}, b)
	}
	return order(sh, formulasOf(sh, b.Product), b)
}

// formulasOf gives the formulas that a product is made of, as they are named.
func formulasOf(sh *shop.Shop, p *shop.Product) []*shop.Formula {
	var first []*shop.Formula
	for _, l := range p.Lines() {
		if f := sh.Formulas[l.Use.V]; f != nil {
			first = append(first, f)
		}
	}
	return first
}

// OrderFormula is the order of one formula and of what it is made of, with the
// times as they are written: for what depends on no batch.
func OrderFormula(sh *shop.Shop, f *shop.Formula) (*Work, error) {
	return order(sh, []*shop.Formula{f}, &Batch{Formula: f})
}

func order(sh *shop.Shop, first []*shop.Formula, b *Batch) (*Work, error) {
	formulas, err := dependencies(sh, first)
	if err != nil {
		return nil, err
	}
	g := &graph{shop: sh, batch: b, last: map[*shop.Formula][]int{}}
	for _, f := range formulas {
		g.add(f, f.Steps, lineRefs(f))
	}
	if p := b.Product; p != nil {
		g.add(nil, p.Steps, refs(p.Lines()))
	}
	return g.work()
}

// work puts what was gathered into order, and times it.
func (g *graph) work() (*Work, error) {
	if err := g.sort(); err != nil {
		return nil, err
	}
	g.early()
	w := &Work{Tasks: g.tasks, Lanes: g.lanes}
	w.times()
	w.alone()
	return w, nil
}

// times finds earliest starts, slack and the critical path by a forward and a
// backward pass (critical path method; Kelley and Walker, 1959).
func (w *Work) times() {
	for i := range w.Tasks {
		t := &w.Tasks[i]
		for _, n := range t.Needs {
			t.Start = max(t.Start, w.Tasks[n].End())
		}
		for _, n := range t.With {
			t.Start = max(t.Start, w.Tasks[n].Start)
		}
		w.Hands += t.Hands
		w.Elapsed = max(w.Elapsed, t.End())
	}
	latestEnd := make([]unit.Span, len(w.Tasks))
	for i := range latestEnd {
		latestEnd[i] = w.Elapsed
	}
	for i := len(w.Tasks) - 1; i >= 0; i-- {
		t := &w.Tasks[i]
		t.Slack = latestEnd[i] - t.End()
		t.Critical = t.Slack == 0
		for _, n := range t.Needs {
			latestEnd[n] = min(latestEnd[n], t.Latest())
		}
		for _, n := range t.With {
			latestEnd[n] = min(latestEnd[n], t.Latest()+w.Tasks[n].long())
		}
	}
}

// alone lays the work out for one pair of hands: whenever the hands are free,
// they take, of the steps that can begin first, the one that can wait least.
func (w *Work) alone() {
	end := make([]unit.Span, len(w.Tasks))
	done := make([]bool, len(w.Tasks))
	var free unit.Span
	for range w.Tasks {
		next, at := w.next(done, end, free)
		t := &w.Tasks[next]
		t.Alone, done[next] = at, true
		end[next] = at + t.long()
		if h := t.Hands; h > 0 {
			free = at + h
		}
		w.Alone = max(w.Alone, end[next])
	}
}

// next picks the step to begin next and says when.
func (w *Work) next(done []bool, end []unit.Span, free unit.Span) (next int, at unit.Span) {
	next = -1
	for i, t := range w.Tasks {
		if done[i] || slices.ContainsFunc(t.Behind(), func(n int) bool { return !done[n] }) {
			continue
		}
		var start unit.Span
		if t.Hands > 0 {
			start = free
		}
		for _, n := range t.Needs {
			start = max(start, end[n])
		}
		for _, n := range t.With {
			start = max(start, w.Tasks[n].Alone)
		}
		if next < 0 || cmp.Or(cmp.Compare(start, at), cmp.Compare(t.Latest(), w.Tasks[next].Latest())) < 0 {
			next, at = i, start
		}
	}
	return next, at
}
