package scale

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/shop"
)

// A graph gathers tasks with what they need.
type graph struct {
	shop  *shop.Shop
	batch *Batch
	tasks []Task
	lanes []Lane
	run   int                     // of the plan, whose steps are added
	last  map[*shop.Formula][]int // the steps that end each formula
	made  map[*shop.Product][]int // the steps that end the runs of each product, in the work of a day
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
	if f.CookedIn != nil {
		m[f.CookedIn.Use.V] = f.CookedIn.Use.V
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
		t := Task{Step: &steps[i], Formula: f, Lane: len(g.lanes), Timing: g.batch.timing(f, &steps[i]), Run: g.run, Day: dayOf(f, &steps[i])}
		for _, n := range steps[i].After() {
			if j, ok := ids[n.V]; ok {
				t.Needs = append(t.Needs, j)
			}
		}
		if w := steps[i].Starts; w != nil {
			if j, ok := ids[w.With.V]; ok && j != len(g.tasks) {
				t.With = []int{j}
			}
		}
		for _, u := range steps[i].Uses {
			if sub := g.shop.Formulas[lines[u.Line.V]]; sub != nil {
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
		t.Needs, t.With = slices.Clone(t.Needs), slices.Clone(t.With)
		for j, n := range t.Needs {
			t.Needs[j] = place[n] - 1
		}
		for j, n := range t.With {
			t.With[j] = place[n] - 1
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
		if place[i] == 0 && !slices.ContainsFunc(t.Behind(), func(n int) bool { return place[n] == 0 }) {
			return i
		}
	}
	return -1
}

// dayOf is the day of a step, as it or its formula says; 0 where neither does.
func dayOf(f *shop.Formula, s *shop.Step) int {
	switch {
	case s.Day.Set():
		return min(s.Day.V, 0)
	case f != nil && f.Day.Set():
		return min(f.Day.V, 0)
	}
	return 0
}

// early moves what is needed on an earlier day to that day.
func (g *graph) early() {
	for i := len(g.tasks) - 1; i >= 0; i-- {
		for _, n := range g.tasks[i].Behind() {
			g.tasks[n].Day = min(g.tasks[n].Day, g.tasks[i].Day)
		}
	}
}

// cycle writes a circle among the tasks that have no place yet.
func (g *graph) cycle(place []int) string {
	at := slices.Index(place, 0)
	var seen []int
	for !slices.Contains(seen, at) {
		seen = append(seen, at)
		t := g.tasks[at]
		at = t.Behind()[slices.IndexFunc(t.Behind(), func(n int) bool { return place[n] == 0 })]
	}
	seen = seen[slices.Index(seen, at):]
	var names []string
	for _, i := range append(seen, seen[0]) {
		names = append(names, g.tasks[i].Step.ID.V)
	}
	return strings.Join(names, " needs ")
}
