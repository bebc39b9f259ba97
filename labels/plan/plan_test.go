package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/plan"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

func at[T any](v T) diag.At[T] { return diag.At[T]{V: v, Pos: diag.Pos{File: "x", Line: 1, Col: 1}} }

const (
	minute = unit.Minute
	hour   = unit.Hour
	day    = 24 * hour
)

// demoDay is the plan of the demo day, with other times of ready where given.
func demoDay(t testing.TB, change func(*shop.Shop, *shop.Plan)) (*shop.Shop, *scale.Day, *plan.Day) {
	t.Helper()
	sh := shop.Load(samples.Demo(), &diag.List{})
	of, _ := sh.PlanFor(unit.Date{Year: 2026, Month: 3, Day: 17})
	if change != nil {
		change(sh, of)
	}
	d, err := scale.PlanDay(sh, of)
	if err != nil {
		t.Fatal(err)
	}
	laid, ok, err := plan.OfDay(sh, d)
	if err != nil || !ok {
		t.Fatal(err, ok)
	}
	return sh, d, laid
}

// The plans of the demo shop can be done.
func TestDemoWorks(t *testing.T) {
	sh, _, laid := demoDay(t, nil)
	if !laid.Works() {
		t.Errorf("late %v, out %v", laid.Late, laid.Out)
	}
	holds(t, laid.Plan)
	for _, of := range sh.Plans {
		d, err := scale.PlanDay(sh, of)
		if err != nil {
			t.Fatal(err)
		}
		if laid, ok, err := plan.OfDay(sh, d); err != nil || !ok || !laid.Works() {
			t.Errorf("plan %s: %v", of.ID, err)
		}
	}
}

// allAtNine is the plan that nobody could do: all ready at 9:00.
func allAtNine(sh *shop.Shop, of *shop.Plan) {
	of.Ready = at(unit.Clock(9 * hour))
	for i := range of.Runs {
		of.Runs[i].Ready = diag.At[unit.Clock]{}
	}
	sh.Formulas["craquelin"].Day = diag.At[int]{}
}

// All ready at 9:00, three products want the one oven, by hand from their
// steps: the tartlets 122 min before the end until 92 min (6:58 to 7:30), the
// buns from 140 until 100 min (6:40 to 7:20), the biscuits from 124 until 100
// min (6:56 to 7:20, in time for a tin that takes 20 min more: 6:36 to 7:00).
// It is said, with a plan that works: nothing is earlier than the kitchen
// opens, and what is late is said by how much.
func TestNobodyCanDoIt(t *testing.T) {
	_, _, laid := demoDay(t, allAtNine)
	if laid.Works() {
		t.Fatal("a plan with three products in one oven works")
	}
	if !slices.ContainsFunc(laid.Crowds, func(c plan.Crowd) bool { return c.By == shop.Oven && c.Wanted == 3 && c.There == 1 }) {
		t.Errorf("nobody says that three want the oven: %+v", laid.Crowds)
	}
	if !slices.ContainsFunc(laid.Crowds, func(c plan.Crowd) bool { return c.By == plan.Person && c.Wanted > 3 && c.There == 3 }) {
		t.Errorf("nobody says that more than three people are wanted: %+v", laid.Crowds)
	}
	holds(t, laid.Plan)
	// The nearest plan works: asked for at those times, all is ready.
	_, _, again := demoDay(t, func(sh *shop.Shop, of *shop.Plan) {
		allAtNine(sh, of)
		for j, jt := range laid.Joints {
			for _, r := range jt.Runs {
				of.Runs[r].Ready = at(unit.Clock(9*hour + laid.Late[j]))
			}
		}
	})
	if !again.Works() {
		t.Errorf("the nearest plan %v is late by %v", laid.Late, again.Late)
	}
}

// A batch of one piece can be planned, and one that is too large for a day
// cannot.
func TestSmallAndLarge(t *testing.T) {
	sh := shop.Load(samples.Demo(), &diag.List{})
	for _, id := range sh.ProductIDs {
		b, err := scale.Pieces(sh, sh.Products[id], 1)
		if err != nil {
			t.Fatal(err)
		}
		w, err := scale.Order(sh, b)
		if err != nil {
			t.Fatal(err)
		}
		p := plan.Make(plan.Of(sh), []plan.Job{{Name: id, Work: w, Ready: 14 * hour}})
		if !p.Works() {
			t.Errorf("one %s: late %v, out %v", id, p.Late, p.Out)
		}
		holds(t, p)
	}
	b, _ := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 4800)
	w, _ := scale.Order(sh, b)
	if p := plan.Make(plan.Of(sh), []plan.Job{{Work: w, Ready: 14 * hour}}); !p.Out[0] {
		t.Error("4800 tartlets are made in a day")
	}
}

// A shared formula is made once, for as much as all its runs take.
func TestMadeOnce(t *testing.T) {
	sh := shop.Load(samples.Demo(), &diag.List{})
	of, _ := sh.PlanFor(unit.Date{Year: 2026, Month: 3, Day: 18})
	d, err := scale.PlanDay(sh, of)
	if err != nil {
		t.Fatal(err)
	}
	joints, err := d.Joints(sh)
	if err != nil {
		t.Fatal(err)
	}
	seen, pears := map[*shop.Step]int{}, unit.Span(0)
	for _, jt := range joints {
		for _, task := range jt.Work.Tasks {
			if task.Formula != nil {
				seen[task.Step]++
			}
			if task.Formula == sh.Formulas["poached-pear"] && task.Step.ID.V == "C1" {
				pears = task.Hands
			}
		}
	}
	for st, n := range seen {
		if n != 1 {
			t.Errorf("%s is done %d times", st.ID.V, n)
		}
	}
	// 72 tartlets: 2598 g of pears at 20 min for 1.75 kg are 29.7 min.
	if pears != 30*minute {
		t.Errorf("peeling takes %s", pears)
	}
}

// holds checks a plan against what a plan must keep to, minute by minute, in
// another way than it was made.
func holds(t interface{ Errorf(string, ...any) }, p *plan.Plan) {
	k := p.Kitchen
	taken := map[string]map[unit.Span]int{}
	for _, h := range p.Held {
		if taken[h.By] == nil {
			taken[h.By] = map[unit.Span]int{}
		}
		for m := h.From; m < h.To; m += minute {
			taken[h.By][m]++
			of := (m%day + day) % day
			if h.By == plan.Person && k.Closes > 0 && (of < k.Opens || of >= k.Closes) {
				t.Errorf("somebody works at %s", of)
				return
			}
		}
	}
	for by, at := range taken {
		there := max(1, k.Tools[by].There)
		if by == plan.Person {
			there = k.People
		}
		for m, n := range at {
			if there > 0 && n > there {
				t.Errorf("%d of %d %q at %s", n, there, by, m)
				return
			}
		}
	}
	for j, starts := range p.Starts {
		for i, s := range starts {
			task := p.Jobs[j].Work.Tasks[i]
			due := p.Jobs[j].Ready + p.Late[j]
			if task.Run < len(p.Jobs[j].Due) {
				due = p.Jobs[j].Due[task.Run] + p.Late[j]
			}
			if s+task.Long() > due {
				t.Errorf("%s ends at %s, due at %s", task.Step.ID.V, s+task.Long(), due)
			}
			for _, n := range task.Needs {
				need := p.Jobs[j].Work.Tasks[n]
				gap := s - starts[n] - need.Long()
				if gap < 0 || need.Step.Waits().Ranges() && gap > need.Over {
					t.Errorf("%s begins %s after %s", task.Step.ID.V, gap, need.Step.ID.V)
				}
			}
			if task.Day < 0 && task.Hands > 0 && k.Closes > 0 && (s < unit.Span(task.Day)*day || s >= unit.Span(task.Day+1)*day) {
				t.Errorf("%s of day %d begins at %s", task.Step.ID.V, task.Day, s)
			}
		}
	}
}

// Whatever the work, a plan keeps to the hours, the people, the tools and the
// needs; and what is late by no time is ready as asked.
func TestPlansHold(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		k := plan.Kitchen{Opens: unit.Span(rapid.IntRange(2, 8).Draw(rt, "opens")) * hour, People: rapid.IntRange(0, 4).Draw(rt, "people"),
			Tools: map[string]plan.Tool{"oven": {There: rapid.IntRange(1, 2).Draw(rt, "ovens")}, "mixer": {There: 1, HandsOnly: true}}}
		k.Closes = k.Opens + unit.Span(rapid.IntRange(4, 14).Draw(rt, "hours"))*hour
		if k.People == 0 {
			k.Opens, k.Closes = 0, 0
		}
		var jobs []plan.Job
		for range rapid.IntRange(1, 6).Draw(rt, "jobs") {
			jobs = append(jobs, plan.Job{Work: randomWork(rt), Ready: k.Opens + unit.Span(rapid.IntRange(1, 12).Draw(rt, "ready"))*hour})
		}
		holds(rt, plan.Make(k, jobs))
	})
}

func randomWork(t *rapid.T) *scale.Work {
	w := &scale.Work{}
	for i := range rapid.IntRange(1, 12).Draw(t, "tasks") {
		st := &shop.Step{ID: at(fmt.Sprint("s", i)), Kind: at(rapid.SampledFrom([]string{"mix", "bake", "rest", "shape"}).Draw(t, "kind"))}
		if rapid.Bool().Draw(t, "mixer") {
			st.Tools = append(st.Tools, at("mixer"))
		}
		long := func(name string, most int) unit.Span {
			return unit.Span(rapid.IntRange(0, most).Draw(t, name)) * minute
		}
		task := scale.Task{Step: st, Timing: scale.Timing{Hands: long("hands", 60), Wait: long("wait", 120), Rounds: int64(rapid.IntRange(1, 3).Draw(t, "rounds"))}}
		if rapid.IntRange(0, 9).Draw(t, "range") == 0 {
			task.Over = long("over", 300)
			st.Waiting = at(unit.Wait{Least: task.Wait, Most: task.Wait + task.Over})
		}
		for n := range i {
			if rapid.IntRange(0, 2).Draw(t, "need") == 0 {
				task.Needs = append(task.Needs, n)
			}
		}
		w.Tasks = append(w.Tasks, task)
		w.Hands += task.Hands
		w.Elapsed += task.Long()
	}
	return w
}

// The worst plans: 300 runs that all are to be ready at once, each of formulas
// of its own, or all of one formula.
func BenchmarkWorst(b *testing.B) {
	for name, apart := range map[string]bool{"apart": true, "together": false} {
		b.Run(name, func(b *testing.B) {
			sh := shop.Load(samples.Demo(), &diag.List{})
			d, err := scale.PlanDay(sh, worst(sh, 300, apart))
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				if _, _, err := plan.OfDay(sh, d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// A plan of 100 runs is answered, in bounded time, by one that holds.
func TestManyRuns(t *testing.T) {
	for _, apart := range []bool{true, false} {
		sh := shop.Load(samples.Demo(), &diag.List{})
		d, err := scale.PlanDay(sh, worst(sh, 100, apart))
		if err != nil {
			t.Fatal(err)
		}
		laid, ok, err := plan.OfDay(sh, d)
		if err != nil || !ok || laid.Works() {
			t.Fatal(ok, err, "4800 tartlets are ready at nine")
		}
		holds(t, laid.Plan)
	}
}

// worst is a plan of n runs, each of a product and formulas of its own, or all
// of those of the tartlet.
func worst(sh *shop.Shop, n int, apart bool) *shop.Plan {
	of := &shop.Plan{Ready: at(unit.Clock(9 * hour))}
	for i := range n {
		old := sh.Products["pear-hazelnut-tartlet"]
		p := *old
		p.ID = fmt.Sprint("p", i)
		p.Parts = nil
		for _, stage := range old.Parts {
			add := slices.Clone(stage.Add)
			for k := range add {
				if f := sh.Formulas[add[k].Use.V]; f != nil && apart {
					g := *f
					g.CookedIn = nil
					g.ID = fmt.Sprint(f.ID, "-", i)
					sh.Formulas[g.ID] = &g
					add[k].As, add[k].Use = at(f.ID), at(g.ID)
				}
			}
			stage.Add = add
			p.Parts = append(p.Parts, stage)
		}
		sh.Products[p.ID] = &p
		of.Runs = append(of.Runs, shop.Run{Product: at(p.ID), Pieces: at(unit.Count(48))})
	}
	return of
}

func ExampleOfDay() {
	sh := shop.Load(samples.Demo(), &diag.List{})
	of, _ := sh.PlanFor(unit.Date{Year: 2026, Month: 3, Day: 17})
	d, err := scale.PlanDay(sh, of)
	if err != nil {
		fmt.Println(err)
		return
	}
	laid, _, err := plan.OfDay(sh, d)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("all is ready as asked:", laid.Works())
	for i, start := range laid.Starts[0] {
		if task := laid.Jobs[0].Work.Tasks[i]; scale.Baked(task.Step) {
			fmt.Println("step", task.Step.ID.V, "begins at", start)
		}
	}
	// Output:
	// all is ready as asked: true
	// step B1 begins at 5 h 33 min
	// step D2 begins at 6 h 58 min
}
