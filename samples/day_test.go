package samples_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"chablon/labels/gs1"
	"chablon/labels/scale"
	"chablon/labels/unit"
)

// The figures of testdata/batches.txt and work.txt were worked out by hand
// before this program could.

func TestBatches(t *testing.T) {
	sh := demo(t)
	table(t, "batches.txt", func(head []string, list [][]string) {
		n, err := strconv.Atoi(head[1])
		if err != nil {
			t.Fatal(err)
		}
		b, err := scale.Pieces(sh, sh.Products[head[0]], unit.Count(n))
		if err != nil {
			t.Fatal(err)
		}
		lines := b.Lines
		if f := sh.Formulas[head[2]]; f != nil {
			m, ok := b.Make(f)
			if !ok {
				t.Fatalf("%s does not make %s", head[0], head[2])
			}
			lines = m.Lines
		}
		got := map[string]unit.Mass{}
		for _, l := range lines {
			got[l.Line.Ref()] = l.Written
		}
		for _, want := range list {
			if m, ok := got[want[0]]; !ok || !near(t, m, want[1]) {
				t.Errorf("%s: %s, want %s g", strings.Join(head, " "), m, strings.Join(want, " "))
			}
		}
	})
}

func TestFinished(t *testing.T) {
	sh := demo(t)
	for id, want := range map[string]string{
		"pear-hazelnut-tartlet": "85.5", "passion-caramel-bar": "45", "rye-shortbread-tin": "15.015",
		"pistachio-choux": "70.08", "lemon-thyme-marshmallow": "12", "bench-tin": "162.09",
	} {
		if got := scale.Finished(sh, sh.Products[id]); got != grams(t, want) {
			t.Errorf("%s: %s, want %s g", id, got, want)
		}
	}
}

// planned is how many pieces of each product the demo day makes.
var planned = map[string]unit.Count{"pear-hazelnut-tartlet": 48, "passion-caramel-bar": 60, "rye-shortbread-tin": 120,
	"pistachio-choux": 40, "lemon-thyme-marshmallow": 80}

func TestWork(t *testing.T) {
	sh := demo(t)
	table(t, "work.txt", func(head []string, list [][]string) {
		b, err := scale.Pieces(sh, sh.Products[head[0]], planned[head[0]])
		if err != nil {
			t.Fatal(err)
		}
		w, err := scale.Order(sh, b)
		if err != nil {
			t.Fatal(err)
		}
		got := fmt.Sprint(w.Elapsed.Minutes(), " ", w.Hands.Minutes())
		if want := head[1] + " " + head[2]; got != want {
			t.Errorf("%s takes %s min, want %s", head[0], got, want)
		}
		path, slack, _ := strings.Cut(strings.Join(flat(list), " "), "; ")
		for _, task := range w.Tasks {
			id := task.Step.ID.V
			on := strings.Contains(" "+strings.TrimSuffix(path, ";")+" ", " "+id+" ")
			if task.Critical != on {
				t.Errorf("%s step %s: critical %t, want %t", head[0], id, task.Critical, on)
			}
			want := fmt.Sprintf(" %s %d ", id, task.Slack.Minutes())
			if !on && !strings.Contains(" "+slack+" ", want) {
				t.Errorf("%s: slack%s, want %q", head[0], want, slack)
			}
		}
	})
}

func flat(list [][]string) (all []string) {
	for _, item := range list {
		all = append(all, item...)
	}
	return all
}

// The dates of 17 March 2026, counted on a calendar; the day of making is day 0.
func TestDates(t *testing.T) {
	sh := demo(t)
	day := unit.Date{Year: 2026, Month: 3, Day: 17}
	for id, want := range map[string]string{
		"pear-hazelnut-tartlet": "2026-03-19 use-by", "pistachio-choux": "2026-03-18 use-by",
		"lemon-thyme-marshmallow": "2026-04-14 best-before", "passion-caramel-bar": "2026-05-12 best-before",
		"rye-shortbread-tin": "2026-05-26 best-before",
	} {
		k := sh.Products[id].Keep
		if got := k.Life.V.End(day).String() + " " + k.Date.V; got != want {
			t.Errorf("%s: %s, want %s", id, got, want)
		}
	}
	plan, ok := sh.PlanFor(day)
	if !ok || plan.ID != "2026-03-17" || sh.BatchCode(plan.Runs[0], day) != "L26076A" {
		t.Errorf("plan %v, want the one of the day with batch L26076A", plan)
	}
}

// Check digits by the GS1 General Specifications, section 7.9; the prefix 952
// is set aside there for demonstrations.
func TestNumbers(t *testing.T) {
	sh := demo(t)
	for _, id := range sh.ProductIDs {
		p := sh.Products[id]
		if p.Packs[0].ByWeight() { // a number for each weight; its carton's begins with 9 (GGS 2.1.10)
			if n := p.Carton.GTIN.V; gs1.ValidAs("GTIN-14", n) != nil || n[0] != '9' || !strings.HasPrefix(n[1:], sh.Profile.GS1Prefix.V) {
				t.Errorf("%s: carton %s", id, n)
			}
			continue
		}
		trade := p.Packs[0].GTIN.V
		if err := gs1.ValidAs("GTIN-13", trade); err != nil || !strings.HasPrefix(trade, sh.Profile.GS1Prefix.V) {
			t.Errorf("%s: %s: %v", id, trade, err)
		}
		if outer, err := gs1.Outer(1, trade); err != nil || outer != p.Carton.GTIN.V {
			t.Errorf("%s: carton %s, want %s (%v)", id, p.Carton.GTIN.V, outer, err)
		}
	}
}

// No plan types a carton's number: the print book gives each carton its own, so
// that none of one day meets one of another.
func TestNumbersAreGiven(t *testing.T) {
	sh := demo(t)
	if n := sh.Profile.CartonNumbers; n == nil || n.From.V != 1 {
		t.Fatal("the print book is not asked for carton numbers")
	}
	cartons := 0
	for _, plan := range sh.Plans {
		for _, run := range plan.Runs {
			cartons += int(run.Cartons.V)
			if run.SSCCFrom.Set() {
				t.Errorf("%s types a number for %s", plan.ID, run.Product.V)
			}
		}
	}
	if cartons != 12 {
		t.Errorf("%d cartons in the plans, not 12", cartons)
	}
}
