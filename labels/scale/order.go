package scale

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Work is the steps of a product or formula in an order that can be followed,
// with the times that follow from what each step needs. Times count from the
// start. A step is so many minutes of hands, then so many of waiting.
type Work struct {
	Tasks   []Task // in the order of work
	Lanes   []Lane // one for each formula with steps, then the product's own
	Hands   unit.Span
	Elapsed unit.Span // with as many hands as it takes
	Alone   unit.Span // with one pair of hands
}

// Task is one step in its place.
type Task struct {
	Step     *shop.Step
	Formula  *shop.Formula // whose step it is; nil for the product's own
	Lane     int           // index into Work.Lanes
	Needs    []int         // indices into Work.Tasks of what must be done before
	Start    unit.Span     // earliest
	Slack    unit.Span     // how long it can wait without making the whole later
	Critical bool          // it cannot wait
	Alone    unit.Span     // start with one pair of hands
}

// End is when the task is over at the earliest, waiting included.
func (t Task) End() unit.Span { return t.Start + t.long() }

func (t Task) long() unit.Span { return hands(t.Step) + wait(t.Step) }

// Latest is the latest start that does not make the whole later.
func (t Task) Latest() unit.Span { return t.Start + t.Slack }

// Lane is the steps of one formula, or the product's own.
type Lane struct {
	Formula *shop.Formula // nil for the product's own
	Tasks   []int         // indices into Work.Tasks
}

// EnoughHands reports whether one pair of hands is as quick as several.
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

// maxTime keeps sums of times far from overflowing: one year.
const maxTime = 365 * 24 * unit.Hour

func hands(s *shop.Step) unit.Span { return min(max(s.Hands.V, 0), maxTime) }
func wait(s *shop.Step) unit.Span  { return min(max(s.Wait.V, 0), maxTime) }

// Order puts the steps of a product and of all its formulas into an order of
// work. A step that uses a formula needs that formula's last steps. The order
// is stable: formulas before what uses them, and within a file as written
// wherever the needs allow. The error names the steps that need each other.
func Order(sh *shop.Shop, p *shop.Product) (*Work, error) {
	var first []*shop.Formula
	for _, l := range p.Lines() {
		if f := sh.Formulas[l.Use.V]; f != nil {
			first = append(first, f)
		}
	}
	return order(sh, first, p)
}

// OrderFormula is Order for one formula and what it is made of.
func OrderFormula(sh *shop.Shop, f *shop.Formula) (*Work, error) {
	return order(sh, []*shop.Formula{f}, nil)
}

func order(sh *shop.Shop, first []*shop.Formula, p *shop.Product) (*Work, error) {
	formulas, err := dependencies(sh, first)
	if err != nil {
		return nil, err
	}
	g := &graph{shop: sh, last: map[*shop.Formula][]int{}}
	for _, f := range formulas {
		g.add(f, f.Steps, lineRefs(f))
	}
	if p != nil {
		g.add(nil, p.Steps, refs(p.Lines()))
	}
	if err := g.sort(); err != nil {
		return nil, err
	}
	w := &Work{Tasks: g.tasks, Lanes: g.lanes}
	w.times()
	w.alone()
	return w, nil
}

// A graph gathers tasks with what they need.
type graph struct {
	shop  *shop.Shop
	tasks []Task
	lanes []Lane
	last  map[*shop.Formula][]int // the steps that end each formula
}

// refs gives what each line is called in steps, and the id that it uses.
func refs(lines []shop.Line) map[string]string {
	m := map[string]string{}
	for _, l := range lines {
		m[l.Ref()] = l.Use.V
	}
	return m
}

func lineRefs(f *shop.Formula) map[string]string {
	m := refs(f.Lines)
	if f.Medium != nil {
		m[f.Medium.Use.V] = f.Medium.Use.V
	}
	return m
}

// add appends the steps of f (nil for the product's own).
func (g *graph) add(f *shop.Formula, steps []shop.Step, lines map[string]string) {
	ids := map[string]int{}
	for i := range steps {
		if _, twice := ids[steps[i].ID.V]; !twice {
			ids[steps[i].ID.V] = len(g.tasks) + i
		}
	}
	lane := Lane{Formula: f}
	for i := range steps {
		t := Task{Step: &steps[i], Formula: f, Lane: len(g.lanes)}
		for _, n := range steps[i].Needs {
			if j, ok := ids[n.V]; ok {
				t.Needs = append(t.Needs, j)
			}
		}
		for _, u := range steps[i].Uses {
			if sub := g.shop.Formulas[lines[u.V]]; sub != nil {
				t.Needs = append(t.Needs, g.last[sub]...)
			}
		}
		slices.Sort(t.Needs)
		t.Needs = slices.Compact(t.Needs)
		lane.Tasks = append(lane.Tasks, len(g.tasks))
		g.tasks = append(g.tasks, t)
	}
	if len(steps) > 0 {
		g.lanes = append(g.lanes, lane)
	}
	if f != nil {
		g.last[f] = g.ends(f, lane.Tasks)
	}
}

// ends gives the tasks of a formula that none of its other tasks needs; of a
// formula without steps, those that end what it is made of.
func (g *graph) ends(f *shop.Formula, own []int) []int {
	var all []int
	if len(own) == 0 {
		for _, sub := range parts(g.shop, f) {
			all = append(all, g.last[sub]...)
		}
		slices.Sort(all)
		return slices.Compact(all)
	}
	for _, i := range own {
		if !slices.ContainsFunc(own, func(j int) bool { return slices.Contains(g.tasks[j].Needs, i) }) {
			all = append(all, i)
		}
	}
	return all
}

// sort puts each task after what it needs, the earliest written first.
func (g *graph) sort() error {
	place := make([]int, len(g.tasks)) // old index → new index, plus 1
	var sorted []int
	for len(sorted) < len(g.tasks) {
		i := g.ready(place)
		if i < 0 {
			return fmt.Errorf("steps in a circle: %s", g.cycle(place))
		}
		sorted = append(sorted, i)
		place[i] = len(sorted)
	}
	old := g.tasks
	g.tasks = make([]Task, len(old))
	for i, t := range old {
		t.Needs = slices.Clone(t.Needs)
		for j, n := range t.Needs {
			t.Needs[j] = place[n] - 1
		}
		slices.Sort(t.Needs)
		g.tasks[place[i]-1] = t
	}
	for _, l := range g.lanes {
		for j, i := range l.Tasks {
			l.Tasks[j] = place[i] - 1
		}
		slices.Sort(l.Tasks)
	}
	return nil
}

// ready gives the first task that has no place yet while all its needs have.
func (g *graph) ready(place []int) int {
	for i, t := range g.tasks {
		if place[i] == 0 && !slices.ContainsFunc(t.Needs, func(n int) bool { return place[n] == 0 }) {
			return i
		}
	}
	return -1
}

// cycle writes a circle among the tasks that have no place yet.
func (g *graph) cycle(place []int) string {
	at := slices.Index(place, 0)
	var seen []int
	for !slices.Contains(seen, at) {
		seen = append(seen, at)
		t := g.tasks[at]
		at = t.Needs[slices.IndexFunc(t.Needs, func(n int) bool { return place[n] == 0 })]
	}
	seen = seen[slices.Index(seen, at):]
	var names []string
	for _, i := range append(seen, seen[0]) {
		names = append(names, g.tasks[i].Step.ID.V)
	}
	return strings.Join(names, " needs ")
}

// times finds earliest starts, slack and the critical path by a forward and a
// backward pass (critical path method; Kelley and Walker, 1959).
func (w *Work) times() {
	for i := range w.Tasks {
		t := &w.Tasks[i]
		for _, n := range t.Needs {
			t.Start = max(t.Start, w.Tasks[n].End())
		}
		w.Hands += hands(t.Step)
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
		if h := hands(t.Step); h > 0 {
			free = at + h
		}
		w.Alone = max(w.Alone, end[next])
	}
}

// next picks the step to begin next and says when.
func (w *Work) next(done []bool, end []unit.Span, free unit.Span) (next int, at unit.Span) {
	next = -1
	for i, t := range w.Tasks {
		if done[i] || slices.ContainsFunc(t.Needs, func(n int) bool { return !done[n] }) {
			continue
		}
		var start unit.Span
		if hands(t.Step) > 0 {
			start = free
		}
		for _, n := range t.Needs {
			start = max(start, end[n])
		}
		if next < 0 || cmp.Or(cmp.Compare(start, at), cmp.Compare(t.Latest(), w.Tasks[next].Latest())) < 0 {
			next, at = i, start
		}
	}
	return next, at
}
