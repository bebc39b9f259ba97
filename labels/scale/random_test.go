package scale_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

func at[T any](v T) diag.At[T] { return diag.At[T]{V: v, Pos: diag.Pos{File: "x", Line: 1, Col: 1}} }

// randomShop draws a shop of a few ingredients and of formulas that use only
// formulas drawn before them, and one product.
func randomShop(t *rapid.T) (*shop.Shop, *shop.Product) {
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}, Products: map[string]*shop.Product{}}
	sh.Profile.Scales = scales(t, "500 0.1", "5000 1", "30000 5")
	known := []string{}
	for i := range 5 {
		id := fmt.Sprintf("i%d", i)
		sh.Ingredients[id] = &shop.Ingredient{ID: id}
		known = append(known, id)
	}
	amount := func() unit.Mass { return unit.Mass(rapid.Int64Range(1, 2_000_000).Draw(t, "mg")) * unit.Milligram }
	lines := func(most int) []shop.Line {
		var all []shop.Line
		for i := range rapid.IntRange(1, most).Draw(t, "lines") {
			all = append(all, shop.Line{Pos: diag.Pos{File: "x", Line: i + 1}, Use: at(rapid.SampledFrom(known).Draw(t, "use")), As: at(fmt.Sprint("l", i)), Take: at(amount())})
		}
		return all
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "formulas") {
		f := &shop.Formula{ID: fmt.Sprintf("f%d", i), Lines: lines(6)}
		for range rapid.IntRange(0, 2).Draw(t, "losses") {
			p := at(shop.Portion{Share: unit.Share(rapid.Int64Range(0, 900_000_000).Draw(t, "loss"))})
			if rapid.Bool().Draw(t, "water") {
				f.Losses = append(f.Losses, shop.Loss{WaterLost: p})
			} else {
				f.Losses = append(f.Losses, shop.Loss{LeftBehind: p})
			}
		}
		f.Steps = randomSteps(t, f.Lines)
		sh.Formulas[f.ID] = f
		known = append(known, f.ID)
	}
	p := &shop.Product{ID: "p", Parts: []shop.Stage{{Add: lines(5)}}}
	p.LostInHandling = at(unit.Share(rapid.Int64Range(0, 100_000_000).Draw(t, "handling")))
	p.Steps = randomSteps(t, p.Lines())
	sh.Products["p"] = p
	return sh, p
}

// randomSteps draws steps that need only steps drawn before them.
func randomSteps(t *rapid.T, lines []shop.Line) []shop.Step {
	var all []shop.Step
	for i := range rapid.IntRange(0, 8).Draw(t, "steps") {
		st := shop.Step{ID: at(fmt.Sprint("s", i))}
		st.HandsOn, st.Waiting = at(unit.Span(rapid.Int64Range(0, 60).Draw(t, "hands"))*unit.Minute), at(unit.Waits(unit.Span(rapid.Int64Range(0, 60).Draw(t, "wait"))*unit.Minute))
		if i > 0 && rapid.Bool().Draw(t, "needs") {
			st.Needs = []shop.Text{at(fmt.Sprint("s", rapid.IntRange(0, i-1).Draw(t, "need")))}
		}
		if rapid.Bool().Draw(t, "uses") {
			st.Uses = []shop.Use{{Line: at(rapid.SampledFrom(lines).Draw(t, "line").Ref())}}
		}
		all = append(all, st)
	}
	return rapid.Permutation(all).Draw(t, "order")
}

// Twice the pieces, twice of everything, to the nanogram that rounding costs.
func TestTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh, p := randomShop(t)
		n := unit.Count(rapid.Int64Range(1, 500).Draw(t, "pieces"))
		one, err1 := scale.Pieces(sh, p, n)
		two, err2 := scale.Pieces(sh, p, 2*n)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		a, b := one.Amounts(), two.Amounts()
		if len(a) != len(b) {
			t.Fatalf("%d and %d amounts", len(a), len(b))
		}
		for i := range a {
			if d := 2*a[i].Exact - b[i].Exact; d < -1 || d > 1 {
				t.Errorf("%s: %s, twice that is %s", a[i].Line.Ref(), a[i].Exact, b[i].Exact)
			}
		}
	})
}

// A column as shown adds up to its sum as shown; on each scale that sum is the
// exact one, rounded; each amount is within a step of the exact one, a
// multiple of the step, and not nothing.
func TestColumnsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh, p := randomShop(t)
		b, err := scale.Pieces(sh, p, unit.Count(rapid.Int64Range(1, 500).Draw(t, "pieces")))
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range b.Makes {
			var exact, coarsest unit.Mass
			for _, a := range m.Lines {
				exact, coarsest = exact+a.Exact, max(coarsest, a.Step)
				if a.Exact == 0 {
					continue // less than half a nanogram
				}
				if d := max(a.Exact-a.Shown, a.Shown-a.Exact); d > a.Step/2 && a.Shown != a.Step || a.Shown <= 0 || a.Shown%a.Step != 0 {
					t.Errorf("%s: %s shown as %s on a scale of %s", a.Line.Ref(), a.Exact, a.Shown, a.Step)
				}
			}
			if m.Shown != exact.Round(coarsest) {
				t.Errorf("%s: %s shown, together %s", m.Formula.ID, m.Shown, exact)
			}
		}
	})
}

// Two ways to the same masses: without handling and without food left behind,
// what the batch weighs out is what the pieces are declared with.
func TestBatchAgreesWithExpand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh, p := randomShop(t)
		p.LostInHandling.V = 0
		for _, f := range sh.Formulas {
			for i := range f.Losses {
				f.Losses[i].LeftBehind = diag.At[shop.Portion]{}
			}
		}
		b, err := scale.Pieces(sh, p, scale.Basis)
		if err != nil {
			t.Fatal(err)
		}
		weighed, declared := map[string]unit.Mass{}, map[string]unit.Mass{}
		for _, a := range b.Amounts() {
			if a.Ingredient != nil {
				weighed[a.Ingredient.ID] += a.Exact
			}
		}
		parts := scale.Expand(sh, p)
		for _, c := range parts {
			declared[c.Ingredient.ID] += c.Mass
		}
		for id, m := range declared {
			if d := m - weighed[id]; d < -unit.Mass(len(parts)) || d > unit.Mass(len(parts)) {
				t.Errorf("%s: %s weighed, %s declared", id, weighed[id], m)
			}
		}
		if len(weighed) != len(declared) {
			t.Errorf("%d ingredients weighed, %d declared", len(weighed), len(declared))
		}
	})
}

// Without water going off, what goes in comes out: contributions add up to the
// finished mass, whatever stays behind on the way.
func TestNothingIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh, p := randomShop(t)
		for _, f := range sh.Formulas {
			for i := range f.Losses {
				f.Losses[i].WaterLost = diag.At[shop.Portion]{}
			}
		}
		var sum unit.Mass
		parts := scale.Expand(sh, p)
		for _, c := range parts {
			sum += c.Mass
		}
		if d := sum - scale.FinishedMass(sh, p); d < -unit.Mass(len(parts)) || d > unit.Mass(len(parts)) {
			t.Errorf("%s of contributions, %s finished", sum, scale.FinishedMass(sh, p))
		}
	})
}

// The order respects the needs; times are consistent; one pair of hands is
// never in two places, and never quicker than several.
func TestOrderHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sh, p := randomShop(t)
		w, err := scale.Order(sh, &scale.Batch{Product: p})
		if err != nil {
			t.Fatal(err)
		}
		for i, task := range w.Tasks {
			for _, n := range task.Needs {
				need := w.Tasks[n]
				long := need.Long()
				if n >= i || need.End() > task.Start || need.Latest()+long > task.Latest() || need.Alone+long > task.Alone {
					t.Errorf("%s comes too early for %s", task.Step.ID.V, need.Step.ID.V)
				}
			}
			if task.Slack < 0 || task.Critical != (task.Slack == 0) || task.End()+task.Slack > w.Elapsed {
				t.Errorf("%+v in %s", task, w.Elapsed)
			}
			for j, other := range w.Tasks {
				a, b := task.Alone, other.Alone
				if i != j && task.Step.HandsOn.V > 0 && other.Step.HandsOn.V > 0 && a < b+other.Step.HandsOn.V && b < a+task.Step.HandsOn.V {
					t.Errorf("hands at %s and %s at once", task.Step.ID.V, other.Step.ID.V)
				}
			}
		}
		if len(w.Tasks) > 0 && len(w.Critical()) == 0 || w.Alone < w.Elapsed || w.Alone < w.Hands {
			t.Errorf("%s elapsed, %s of hands, %s alone, %d critical", w.Elapsed, w.Hands, w.Alone, len(w.Critical()))
		}
	})
}
