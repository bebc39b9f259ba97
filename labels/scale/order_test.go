package scale_test

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

// planned is how many pieces of each product the demo day makes.
var planned = map[string]unit.Count{"pear-hazelnut-tartlet": 48, "passion-caramel-bar": 60, "rye-shortbread-tin": 120,
	"pistachio-choux": 40, "lemon-thyme-marshmallow": 80, "bench-tin": 10}

// work is the order of n pieces; of as many as the demo day makes for 0.
func work(t testing.TB, sh *shop.Shop, product string, n unit.Count) *scale.Work {
	t.Helper()
	if n == 0 {
		n = planned[product]
	}
	b, err := scale.Pieces(sh, sh.Products[product], n)
	if err != nil {
		t.Fatal(err)
	}
	w, err := scale.Order(sh, b)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Times of the demo shop's products, worked out by hand from their steps:
// minutes until all is done, minutes of hands, the critical path, and the
// slack of some steps.
func TestTimes(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct {
		product        string
		elapsed, hands int64
		critical       string
		slack          map[string]int64
	}{
		{"pear-hazelnut-tartlet", 347, 155, "A1 A2 A3 A4 D1 D2 D3 D4 D5",
			map[string]int64{"C1": 20, "C2": 20, "C3": 20, "C4": 20, "B1": 140, "B2": 140}},
		{"passion-caramel-bar", 385, 190, "A1 A2 A3 A4 B3 B4 C3 C4 D1 D2 D3",
			map[string]int64{"B1": 5, "B2": 5, "C1": 220, "C2": 220}},
		{"rye-shortbread-tin", 274, 104, "A1 A2 A3 A4 A5 A6 A7 A8 A9", nil},
		{"pistachio-choux", 240, 162, "A1 A2 B3 B4 B5 D1 D2 D3",
			map[string]int64{"B1": 50, "B2": 50, "C1": 50, "C2": 50, "C3": 50}},
		{"lemon-thyme-marshmallow", 960, 107, "B1 B2 B3 B4 B5 B6 B7 B8", map[string]int64{"A1": 15}},
	} {
		w := work(t, sh, c.product, 0)
		var critical []string
		for _, i := range w.Critical() {
			critical = append(critical, w.Tasks[i].Step.ID.V)
		}
		if w.Elapsed.Minutes() != c.elapsed || w.Hands.Minutes() != c.hands || strings.Join(critical, " ") != c.critical {
			t.Errorf("%s: %s, hands %s, critical %s", c.product, w.Elapsed, w.Hands, critical)
		}
		for _, task := range w.Tasks {
			if want, ok := c.slack[task.Step.ID.V]; ok && task.Slack.Minutes() != want {
				t.Errorf("%s: %s can wait %s, want %d min", c.product, task.Step.ID.V, task.Slack, want)
			}
		}
	}
}

// One pair of hands is enough for the tartlets: dough until 15, pears from 15
// to 40, and so on; the bars need 190 min of hands where the critical path
// wants two places at once.
func TestAlone(t *testing.T) {
	sh := demo(t)
	w := work(t, sh, "pear-hazelnut-tartlet", 0)
	if !w.EnoughHands() || w.Alone.Minutes() != 347 {
		t.Errorf("tartlets: %s alone, %s with help", w.Alone, w.Elapsed)
	}
	got := map[string]int64{}
	for _, task := range w.Tasks {
		got[task.Step.ID.V] = task.Alone.Minutes()
	}
	if got["A1"] != 0 || got["C1"] != 15 || got["C2"] != 35 {
		t.Errorf("A1, C1, C2 begin at %d, %d, %d, want 0, 15, 35", got["A1"], got["C1"], got["C2"])
	}
	w = work(t, sh, "passion-caramel-bar", 0)
	if w.EnoughHands() || w.Alone <= w.Elapsed {
		t.Errorf("bars: %s alone, %s with help", w.Alone, w.Elapsed)
	}
}

// steps makes a formula of steps from "id hands+wait needs…" lines, in minutes.
func steps(t testing.TB, rows ...string) (*shop.Shop, *shop.Formula) {
	t.Helper()
	sh, f := tiny(t, "a 1")
	for _, r := range rows {
		fields := strings.Fields(r)
		var h, w int64
		if _, err := fmt.Sscanf(fields[1], "%d+%d", &h, &w); err != nil {
			t.Fatal(err)
		}
		st := shop.Step{ID: shop.Text{V: fields[0]}}
		st.HandsOn.V, st.Waiting.V = unit.Span(h)*unit.Minute, unit.Waits(unit.Span(w)*unit.Minute)
		for _, n := range fields[2:] {
			st.Needs = append(st.Needs, shop.Text{V: n})
		}
		f.Steps = append(f.Steps, st)
	}
	return sh, f
}

// The order is stable: as written, unless a need says otherwise.
func TestStable(t *testing.T) {
	for _, c := range []struct {
		rows []string
		want string
	}{
		{[]string{"a 1+0", "b 1+0", "c 1+0"}, "a b c"},
		{[]string{"a 1+0 c", "b 1+0", "c 1+0"}, "b c a"},
		{[]string{"a 1+0 b", "b 1+0 c", "c 1+0"}, "c b a"},
		{[]string{"a 1+0", "b 1+0 d", "c 1+0 a", "d 1+0"}, "a c d b"},
		{[]string{"a 1+0 nowhere"}, "a"}, // reported by the shop's checks
	} {
		w, err := scale.OrderFormula(steps(t, c.rows...))
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, task := range w.Tasks {
			got = append(got, task.Step.ID.V)
		}
		if strings.Join(got, " ") != c.want {
			t.Errorf("%v: %v, want %s", c.rows, got, c.want)
		}
	}
}

func TestStepCircle(t *testing.T) {
	_, err := scale.OrderFormula(steps(t, "a 1+0", "b 1+0 a d", "c 1+0 b", "d 1+0 c"))
	if err == nil || err.Error() != "steps in a circle: b needs d needs c needs b" {
		t.Errorf("%v", err)
	}
}

// A well-known small network (A 3; B 4 and C 2 after A; D 5 after B; E 1 after
// C; F 2 after D and E): 14 long, critical A-B-D-F, C and E can wait 6. Worked
// by hand.
func TestNetwork(t *testing.T) {
	w, err := scale.OrderFormula(steps(t, "A 3+0", "B 4+0 A", "C 2+0 A", "D 5+0 B", "E 1+0 C", "F 2+0 D E"))
	if err != nil {
		t.Fatal(err)
	}
	var slack []string
	for _, task := range w.Tasks {
		slack = append(slack, fmt.Sprint(task.Slack.Minutes()))
	}
	if w.Elapsed.Minutes() != 14 || strings.Join(slack, " ") != "0 0 6 0 6 0" || w.Hands.Minutes() != 17 || w.Alone.Minutes() != 17 {
		t.Errorf("%s, slack %v, hands %s, alone %s", w.Elapsed, slack, w.Hands, w.Alone)
	}
}

// A formula without steps hands on what it needs from its own formulas.
func TestFormulaWithoutSteps(t *testing.T) {
	sh := demo(t)
	sh.Formulas["pistachio-diplomat"].Steps = nil
	w := work(t, sh, "pistachio-choux", 0)
	for _, task := range w.Tasks {
		if task.Step.ID.V != "D1" {
			continue
		}
		for _, n := range task.Needs {
			if w.Tasks[n].Step.ID.V == "C2" {
				return
			}
		}
	}
	t.Error("filling does not wait for the pastry cream")
}

func TestLanes(t *testing.T) {
	sh := demo(t)
	w := work(t, sh, "pear-hazelnut-tartlet", 0)
	var got []string
	for _, l := range w.Lanes {
		name := "own"
		if l.Formula != nil {
			name = l.Formula.ID
		}
		got = append(got, fmt.Sprintf("%s %d", name, len(l.Tasks)))
		for _, i := range l.Tasks {
			if w.Tasks[i].Formula != l.Formula || w.Lanes[w.Tasks[i].Lane].Formula != l.Formula {
				t.Errorf("%s is in the wrong lane", w.Tasks[i].Step.ID.V)
			}
		}
	}
	if want := "sweet-pastry 2, hazelnut-frangipane 3, pear-syrup 1, poached-pear 4, own 7"; strings.Join(got, ", ") != want {
		t.Errorf("%v, want %s", got, want)
	}
}

// The whites of the cooked-sugar meringue start with the syrup, not after it:
// 12 min of syrup beside 4 min of whites, then 12 min for both, by hand 24 min;
// the whites can wait 8 min. With one pair of hands it takes 28.
func TestStartsWith(t *testing.T) {
	sh := shop.Load(samples.Workshop(), &diag.List{})
	f := sh.Formulas["syrup-meringue"]
	b, err := scale.Mass(sh, f, f.Out())
	if err != nil {
		t.Fatal(err)
	}
	w, err := scale.Order(sh, b)
	if err != nil {
		t.Fatal(err)
	}
	whites := w.Tasks[1]
	if w.Elapsed != 24*unit.Minute || w.Alone != 28*unit.Minute || whites.Start != 0 || whites.Slack != 8*unit.Minute || whites.Alone < w.Tasks[0].Alone {
		t.Errorf("%s, alone %s; the whites start at %s and can wait %s", w.Elapsed, w.Alone, whites.Start, whites.Slack)
	}
}

func ExampleOrder() {
	sh := shop.Load(demoFolder(), &diag.List{})
	b, err := scale.Pieces(sh, sh.Products["pear-hazelnut-tartlet"], 48)
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := scale.Order(sh, b)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(w.Elapsed, "in all,", w.Hands, "of hands")
	for _, t := range w.Tasks[2:4] {
		fmt.Println(t.Step.ID.V, "can wait", t.Slack)
	}
	// Output:
	// 5 h 47 min in all, 2 h 35 min of hands
	// B1 can wait 2 h 20 min
	// B1b can wait 2 h 20 min
}
