// Package plan answers: who does what when, so that all is ready?
//
// [Make] lays the work of a day out in a kitchen: its hours, its people, its
// ovens and mixers. Each job ends when it is to be ready and begins as late as
// it can; jobs give way to each other, never to the clock. Where no such plan
// is found, the nearest one that works is given: what is ready later, and by
// how much.
//
// Jobs are placed one after the other, and each step of a job from its end
// backwards at the latest moment at which somebody and every tool is free (a
// serial schedule: A. Sprecher, R. Kolisch, A. Drexl, European Journal of
// Operational Research 80, 1995). Several orders of the jobs are tried and the
// best is kept. That is quick and leaves nothing out, but it is not a proof: a
// cleverer head may find a plan where this finds none.
//
// Times count from the midnight before the day, in whole minutes; what is done
// on a day before is below zero.
package plan

import (
	"cmp"
	"slices"

	"chablon/labels/scale"
	"chablon/labels/unit"
)

// Job is work that is to be ready at a time.
type Job struct {
	Name  string
	Work  *scale.Work
	Ready unit.Span   // from midnight
	Due   []unit.Span // of each run of the work, where they differ; by Task.Run
}

// due is when the task of a run is to be over, moved by how much the job is.
func (j *Job) due(t scale.Task, late unit.Span) unit.Span {
	if t.Run < len(j.Due) && j.Due[t.Run] > 0 {
		return j.Due[t.Run] + late
	}
	return j.Ready + late
}

// Plan is the day laid out.
type Plan struct {
	Kitchen Kitchen
	Jobs    []Job
	Late    []unit.Span   // of each job: how much later than asked it is ready; 0 where all is well
	Out     []bool        // of each job: it cannot be done on this day at all
	Starts  [][]unit.Span // of each task of each job
	Held    []Held        // who and what is taken when, in order of time
	People  int           // with how many people all would be ready as asked; 0 where that is not the matter
}

// Held is a task that has a person, or a tool, for a while.
type Held struct {
	By        string // Person, or the id of a tool
	No        int    // which of them, from 0
	Job, Task int
	From, To  unit.Span
}

// Person is what Held.By is for hands.
const Person = ""

// Works reports whether all is ready when it is asked for.
func (p *Plan) Works() bool {
	return !slices.Contains(p.Out, true) && !slices.ContainsFunc(p.Late, func(l unit.Span) bool { return l > 0 })
}

// Make lays jobs out.
func Make(k Kitchen, jobs []Job) *Plan {
	best := attempt(k, jobs)
	if !best.Works() && k.People > 0 && !many(jobs) {
		for more := 1; more <= morePeople; more++ {
			try := k
			try.People += more
			if attempt(try, jobs).Works() {
				best.People = try.People
				break
			}
		}
	}
	best.hold()
	return best
}

const (
	manyTasks  = 500
	morePeople = 4
)

// many tells that there is so much to do that less is tried, so that the worst
// plan is answered soon too.
func many(jobs []Job) bool {
	n := 0
	for _, j := range jobs {
		n += len(j.Work.Tasks)
	}
	return n > manyTasks
}

// attempt tries the orders and keeps the best plan.
func attempt(k Kitchen, jobs []Job) *Plan {
	var best *Plan
	all := orders(jobs)
	if many(jobs) {
		all = all[:2]
	}
	for _, order := range all {
		p := inOrder(k, jobs, order)
		if best == nil || p.better(best) {
			best = p
		}
		if best.Works() {
			break
		}
	}
	return best
}

// orders are the orders in which jobs are placed: what is due first; what takes
// longest; what takes most hands; as they are written. The first of them has
// the best places.
func orders(jobs []Job) [][]int {
	by := func(key func(a, b Job) int) []int {
		all := make([]int, len(jobs))
		for i := range all {
			all[i] = i
		}
		slices.SortStableFunc(all, func(a, b int) int { return key(jobs[a], jobs[b]) })
		return all
	}
	return [][]int{
		by(func(a, b Job) int {
			return cmp.Or(cmp.Compare(a.Ready, b.Ready), cmp.Compare(b.Work.Elapsed, a.Work.Elapsed))
		}),
		by(func(a, b Job) int { return cmp.Compare(b.Work.Elapsed, a.Work.Elapsed) }),
		by(func(a, b Job) int { return cmp.Compare(b.Work.Hands, a.Work.Hands) }),
		by(func(a, b Job) int { return cmp.Compare(a.Work.Elapsed, b.Work.Elapsed) }),
		by(func(Job, Job) int { return 0 }),
	}
}

// better compares two plans: fewer jobs left out, less lateness in all, fewer
// jobs late.
func (p *Plan) better(q *Plan) bool {
	sum := func(p *Plan) (out int, late unit.Span, n int) {
		for i, l := range p.Late {
			if p.Out[i] {
				out++
			}
			late += l
			if l > 0 {
				n++
			}
		}
		return
	}
	a, b, c := sum(p)
	x, y, z := sum(q)
	return cmp.Or(cmp.Compare(a, x), cmp.Compare(b, y), cmp.Compare(c, z)) < 0
}

// inOrder places one job after the other, each as near to its time as it can
// be.
func inOrder(k Kitchen, jobs []Job, order []int) *Plan {
	p := &Plan{Kitchen: k, Jobs: jobs, Late: make([]unit.Span, len(jobs)), Out: make([]bool, len(jobs)), Starts: make([][]unit.Span, len(jobs))}
	b := newBook(k, !many(jobs))
	for _, i := range order {
		late, starts := b.nearest(&jobs[i])
		p.Late[i], p.Starts[i], p.Out[i] = late, starts, starts == nil
		if starts == nil {
			p.Late[i] = 0
		}
	}
	return p
}

// change is what a change from one task to the next counts for in sharing work
// out, so that nobody gets all the small ones.
const change = 20 * unit.Minute

// hold says who and what each task has when. Of those who are free, whoever has
// least to do that day gets it; there is always one.
func (p *Plan) hold() {
	for j, starts := range p.Starts {
		for i, at := range starts {
			task := p.Jobs[j].Work.Tasks[i]
			for _, s := range pieces(p.Kitchen, task) {
				p.Held = append(p.Held, Held{By: s.by, Job: j, Task: i, From: at + s.from, To: at + s.to})
			}
		}
	}
	slices.SortStableFunc(p.Held, func(a, b Held) int {
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.Job, b.Job), cmp.Compare(a.Task, b.Task), cmp.Compare(a.By, b.By))
	})
	until, load := map[string][]unit.Span{}, map[string][]unit.Span{} // of each: until when it is taken, and for how long in all
	for range p.Kitchen.People {
		until[Person], load[Person] = append(until[Person], first), append(load[Person], 0)
	}
	for i := range p.Held {
		h := &p.Held[i]
		no := -1
		for k, t := range until[h.By] {
			if t <= h.From && (no < 0 || load[h.By][k] < load[h.By][no]) {
				no = k
			}
		}
		if no < 0 {
			no = len(until[h.By])
			until[h.By], load[h.By] = append(until[h.By], 0), append(load[h.By], 0)
		}
		h.No, until[h.By][no] = no, h.To
		load[h.By][no] += h.To - h.From + change
	}
}
