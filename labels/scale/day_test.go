package scale_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

func demoDay(t *testing.T) (*shop.Shop, *scale.Day) {
	t.Helper()
	sh := demo(t)
	plan, ok := sh.PlanFor(unit.Date{Year: 2026, Month: 3, Day: 17})
	if !ok {
		t.Fatal("the demo has no plan for that day")
	}
	d, err := scale.PlanDay(sh, plan)
	if err != nil {
		t.Fatal(err)
	}
	return sh, d
}

// The demo day: the batch tables of 48 tartlets, 60 bars and so on, added up
// by hand where several share something.
func TestDay(t *testing.T) {
	_, d := demoDay(t)
	if len(d.Runs) != 6 || len(d.Works) != 6 || len(d.Prep) != 12 {
		t.Fatalf("%d runs, %d works, %d formulas to make", len(d.Runs), len(d.Works), len(d.Prep))
	}
	for id, want := range map[string]string{
		"pear":          "1732.0", // edible
		"passion-puree": "304.4",  //
		"egg":           "833.8",  // 120.1 + 323.5 + 390.2
		"dark-64":       "1237.1", //
	} {
		i := slices.IndexFunc(d.Buy, func(b scale.Buy) bool { return b.Ingredient.ID == id })
		if i < 0 {
			t.Errorf("%s is not on the list", id)
			continue
		}
		if !near(d.Buy[i].Edible, want) {
			t.Errorf("%s: %s, want %s g", id, d.Buy[i].Edible, want)
		}
		if id == "pear" && !near(d.Buy[i].Bought, "2309.3") {
			t.Errorf("pears to buy: %s, want 2309.3 g", d.Buy[i].Bought)
		}
	}
	// Ten tins take 60 cubes and 60 biscuits of those that are made anyway.
	if len(d.Picks) != 2 {
		t.Fatalf("%+v", d.Picks)
	}
	for _, p := range d.Picks {
		if p.Taken != 60 || p.Short() {
			t.Errorf("%s: %d taken of %d", p.Product.ID, p.Taken, p.Makes)
		}
	}
}

// Whole packs hold what is bought, and one less would not.
func TestPacks(t *testing.T) {
	sh := demo(t)
	sh.Ingredients["pear"].OrderPack = at(2 * unit.Kilogram)
	sh.Ingredients["dark-64"].OrderPack = at(5 * unit.Kilogram)
	sh.Ingredients["salt"].OrderPack.V = 0
	plan, _ := sh.PlanFor(unit.Date{Year: 2026, Month: 3, Day: 17})
	d, err := scale.PlanDay(sh, plan)
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range d.Buy {
		want := map[string]int64{"pear": 2, "dark-64": 1, "salt": 0}
		if n, ok := want[b.Ingredient.ID]; ok && b.Packs != n {
			t.Errorf("%s: %d packs, want %d", b.Ingredient.ID, b.Packs, n)
		}
	}
}

// A formula that two products use is made once and split by weight.
func TestShared(t *testing.T) {
	sh := demo(t)
	plan := &shop.Plan{Runs: []shop.Run{
		{Product: at("pear-hazelnut-tartlet"), Pieces: at(unit.Count(24))},
		{Product: at("pear-hazelnut-tartlet"), Pieces: at(unit.Count(48))},
		{Product: at("pistachio-choux"), Pieces: at(unit.Count(20))},
	}}
	choux := sh.Products["pistachio-choux"]
	line := shop.Line{Use: at("sweet-pastry"), Take: at(10 * unit.Gram)}
	choux.Parts[0].Add = append(choux.Parts[0].Add, line)
	d, err := scale.PlanDay(sh, plan)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(d.Prep, func(p scale.Prep) bool { return p.Formula.ID == "sweet-pastry" })
	p := d.Prep[i]
	var split unit.Mass
	var whose []string
	for _, u := range p.For {
		split += u.Mass
		whose = append(whose, u.Product.ID)
	}
	if got := strings.Join(whose, " "); got != "pear-hazelnut-tartlet pear-hazelnut-tartlet pistachio-choux" {
		t.Errorf("goes to %s", got)
	}
	// 692.8 + 1385.6 g for the tartlets, 20 × 10 ÷ 0.96 = 208.3 g for the buns.
	if !near(p.Out, "2286.7") || split-p.Out > 3 || p.Out-split > 3 {
		t.Errorf("%s to make, %s in all its parts", p.Out, split)
	}
}

// What the day makes of a formula is what its runs make by themselves.
func TestDayAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh, p := randomShop(t)
		plan := &shop.Plan{}
		want := map[*shop.Formula]unit.Mass{}
		for range rapid.IntRange(1, 3).Draw(t, "runs") {
			n := unit.Count(rapid.Int64Range(1, 200).Draw(t, "pieces"))
			plan.Runs = append(plan.Runs, shop.Run{Product: at(p.ID), Pieces: at(n)})
			b, err := scale.Pieces(sh, p, n)
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range b.Makes {
				want[m.Formula] += m.Out
			}
		}
		d, err := scale.PlanDay(sh, plan)
		if err != nil {
			t.Fatal(err)
		}
		done := map[*shop.Formula]bool{}
		for _, m := range d.Prep {
			if off := m.Out - want[m.Formula]; off > 3 || off < -3 {
				t.Fatalf("%s: %s, the runs make %s", m.Formula.ID, m.Out, want[m.Formula])
			}
			for _, l := range m.Lines {
				if l.Formula != nil && !done[l.Formula] {
					t.Fatalf("%s is made before its %s", m.Formula.ID, l.Formula.ID)
				}
			}
			done[m.Formula] = true
		}
	})
}

func TestPlanRefused(t *testing.T) {
	sh := demo(t)
	for name, run := range map[string]shop.Run{
		"no such product": {Product: at("pear"), Pieces: at(unit.Count(1))},
		"no pieces":       {Product: at("bench-tin")},
	} {
		if _, err := scale.PlanDay(sh, &shop.Plan{Runs: []shop.Run{run}}); err == nil {
			t.Errorf("%s: planned", name)
		}
	}
}

// Tartlets ready at 9:00 take 347 min, so the pastry begins at 3:13; the
// pears, which can wait 20 min, at 3:33 at the latest.
func TestLatestStarts(t *testing.T) {
	sh := demo(t)
	w := work(t, sh, "pear-hazelnut-tartlet", 0)
	starts := w.LatestStarts(9 * unit.Hour)
	for i, task := range w.Tasks {
		want := map[string]unit.Span{"A1": 3*unit.Hour + 13*unit.Minute, "D5": 8*unit.Hour + 40*unit.Minute}[task.Step.ID.V]
		if task.Step.ID.V == "C1" {
			want = 3*unit.Hour + 33*unit.Minute
		}
		if want != 0 && starts[i] != want {
			t.Errorf("%s begins at %s, want %s", task.Step.ID.V, starts[i], want)
		}
	}
}

// Two bakes that overlap by ten minutes clash over one oven, not over two.
func TestClashes(t *testing.T) {
	bake := func(id string, hands, wait int64) *scale.Work {
		st := &shop.Step{ID: at(id), Kind: at("bake"), HandsOn: at(unit.Span(hands) * unit.Minute), Waiting: at(unit.Waits(unit.Span(wait) * unit.Minute))}
		return &scale.Work{Tasks: []scale.Task{{Step: st, Timing: scale.Timing{Hands: st.HandsOn.V, Wait: st.Waiting.V.Least, Rounds: 1}}}}
	}
	sh := &shop.Shop{}
	a := scale.Job{Name: "a", Work: bake("x", 5, 25)}
	b := scale.Job{Name: "b", Work: bake("y", 5, 25), Start: 20 * unit.Minute}
	got := scale.Clashes(sh, a, b)
	if len(got) != 1 || got[0].Tool != "oven" || got[0].From != 20*unit.Minute || got[0].To != 30*unit.Minute || len(got[0].Tasks) != 2 {
		t.Errorf("%+v", got)
	}
	b.Start = 30 * unit.Minute
	if got := scale.Clashes(sh, a, b); got != nil {
		t.Errorf("one after the other: %+v", got)
	}
	b.Start = 20 * unit.Minute
	tool := shop.Tool{Count: at(unit.Count(2))}
	sh.Profile.Tools = append(sh.Profile.Tools, struct {
		Key shop.Text
		V   shop.Tool
	}{at("oven"), tool})
	if got := scale.Clashes(sh, a, b); got != nil {
		t.Errorf("two ovens: %+v", got)
	}
	c := scale.Job{Name: "c", Work: bake("z", 0, 60)}
	if got := scale.Clashes(sh, a, b, c); len(got) != 1 || len(got[0].Tasks) != 3 || got[0].There != 2 {
		t.Errorf("three in two ovens: %+v", got)
	}
	sh.Profile.Tools[0].V.Busy = at("hands-on")
	if got := scale.Clashes(sh, a, b, c); got != nil {
		t.Errorf("taken only for the hands: %+v", got)
	}
}

// Whatever overlaps is told, and nothing else: at the middle of each clash
// more tasks hold the tool than there are of it.
func TestClashesHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var jobs []scale.Job
		for range rapid.IntRange(1, 6).Draw(t, "jobs") {
			st := &shop.Step{Kind: at("bake"), HandsOn: at(unit.Span(rapid.Int64Range(0, 50).Draw(t, "long")))}
			jobs = append(jobs, scale.Job{Work: &scale.Work{Tasks: []scale.Task{{Step: st, Timing: scale.Timing{Hands: st.HandsOn.V, Rounds: 1}}}}, Start: unit.Span(rapid.Int64Range(0, 50).Draw(t, "start"))})
		}
		clash := scale.Clashes(&shop.Shop{}, jobs...)
		for s := unit.Span(0); s < 110; s++ {
			n, told := 0, 0
			for _, j := range jobs {
				if j.Start <= s && s < j.Start+j.Work.Tasks[0].Step.HandsOn.V {
					n++
				}
			}
			for _, c := range clash {
				if c.From <= s && s < c.To {
					told += len(c.Tasks)
				}
			}
			if n > 1 && told != n || n <= 1 && told != 0 {
				t.Fatalf("at %d: %d in the oven, %d told", s, n, told)
			}
		}
	})
}

// All ready at 9:00, three products of the demo day want the one oven: the
// biscuits from 6:56 to 7:20 (A7, 24 min, 124 min before the end), the buns
// from 6:40 on and the tartlets from 6:58 on (by hand from their steps).
func TestDayClashes(t *testing.T) {
	sh, d := demoDay(t)
	var got []string
	for _, c := range scale.Clashes(sh, d.Jobs(9*unit.Hour)...) {
		line := fmt.Sprintf("%s %s to %s:", c.Tool, c.From, c.To)
		for _, h := range c.Tasks {
			line += " " + d.Works[h.Job].Tasks[h.Task].Step.ID.V
		}
		got = append(got, line)
	}
	want := []string{"oven 6 h 56 min to 6 h 58 min: A7 B4", "oven 6 h 58 min to 7 h 20 min: D2 A7 B4"}
	if !slices.Equal(got, want) {
		t.Errorf("%s", strings.Join(got, "\n"))
	}
}

// Needs come in front: what a formula is made of is begun no later than the
// formula, and the marshmallow, which sets overnight, first of all.
func ExamplePlanDay() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	plan, _ := sh.PlanFor(unit.Date{Year: 2026, Month: 3, Day: 17})
	day, err := scale.PlanDay(sh, plan)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range day.Prep[:3] {
		fmt.Println(p.Formula.ID, p.Out.Round(unit.Gram), p.Lead)
	}
	// Output:
	// marshmallow 952 g 16 h
	// passion-caramel 1052 g 6 h 20 min
	// sweet-pastry 1386 g 5 h 47 min
}
