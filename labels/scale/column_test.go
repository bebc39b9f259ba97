package scale_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// A fataler can fail a test, drawn at random or not.
type fataler interface {
	Helper()
	Fatal(...any)
}

// scales gives scales from "up-to step" pairs in grams.
func scales(t fataler, pairs ...string) []shop.Scale {
	t.Helper()
	var all []shop.Scale
	for i, p := range pairs {
		upTo, step, _ := strings.Cut(p, " ")
		var s shop.Scale
		var err1, err2 error
		s.UpTo.V, err1 = unit.ParseMass(decimals(upTo) + " g")
		s.Step.V, err2 = unit.ParseMass(decimals(step) + " g")
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		s.Small = diag.At[bool]{V: i == 0}
		all = append(all, s)
	}
	return all
}

// Largest remainder. The seats are an example often given of the method: votes
// of 47, 16, 15.8, 12, 6.1 and 3.1 % and ten seats give 5, 2, 1, 1, 1 and 0
// seats (from memory). Here each line has ten more, for none may go to nothing,
// and as all are about as large, weighing the remainders changes nothing.
func TestColumn(t *testing.T) {
	for _, c := range []struct {
		name   string
		scales []string
		lines  []string
		shown  string
		total  string
	}{
		{"seats", []string{"100 1"}, []string{"a 14.7", "b 11.6", "c 11.58", "d 11.2", "e 10.61", "g 10.31"}, "15 12 11 11 11 10", "70 g"},
		{"three thirds", []string{"100 1"}, []string{"a 33.4", "b 33.3", "c 33.3"}, "34 33 33", "100 g"},
		{"rounded one by one they are 3 too few", []string{"1000 1"}, []string{"a 100.4", "b 100.4", "c 100.4", "d 100.4", "e 100.4", "g 100.4"}, "101 101 100 100 100 100", "602 g"},
		{"too many", []string{"1000 1"}, []string{"a 100.6", "b 100.6", "c 100.6"}, "101 101 100", "302 g"},
		{"of equal remainders the largest amount gives way", []string{"1000 1"}, []string{"a 100.4", "b 800.4", "c 60.4"}, "100 801 60", "961 g"},
		// The frangipane of 96 tartlets; its starch is 89.86 g.
		{"719 g rather than 90 g", []string{"1000 1"}, []string{"a 718.86", "b 718.86", "c 718.86", "d 646.98", "e 89.86", "g 71.89"}, "719 719 718 647 90 72", "2965 g"},
		{"small amounts give way last", []string{"1000 1"}, []string{"a 2.49", "b 100.45", "c 100.45"}, "2 101 100", "203 g"},
		{"two scales, each adds up", []string{"100 0.1", "1000 5"}, []string{"a 99.96", "b 0.04", "c 501", "d 501.4"}, "100 0.1 500 500", "1100.1 g"},
		{"never to nothing", []string{"100 1"}, []string{"a 0.2", "b 50"}, "1 50", "51 g"},
		{"exact ones stay", []string{"100 0.5"}, []string{"a 12.5", "b 25"}, "12.5 25", "37.5 g"},
		{"over the largest scale", []string{"10 1"}, []string{"a 25.4"}, "25", "25 g"},
		{"without scales", nil, []string{"a 4.44", "b 444.4", "c 1444"}, "4.4 444 1445", "1893.4 g"},
	} {
		sh, f := tiny(t, c.lines...)
		sh.Profile.Scales = scales(t, c.scales...)
		b, err := scale.Mass(sh, f, f.Out())
		if err != nil {
			t.Fatal(err)
		}
		var shown []string
		for _, a := range b.Makes[0].Lines {
			shown = append(shown, strings.TrimSuffix(a.Shown.String(), " g"))
		}
		if got := strings.Join(shown, " "); got != c.shown || b.Makes[0].Shown.String() != c.total {
			t.Errorf("%s: %s, together %s; want %s, %s", c.name, got, b.Makes[0].Shown, c.shown, c.total)
		}
	}
}

// No other way to the same sum, each amount less than a step off, has a smaller
// sum of relative errors: every way is tried.
func TestColumnIsBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var lines []string
		for i, g := range rapid.SliceOfN(rapid.Int64Range(50_000, 2_000_000), 1, 7).Draw(t, "milligrams") {
			lines = append(lines, fmt.Sprintf("%c %d.%03d", "abcdegh"[i], g/1000, g%1000))
		}
		sh, f := tiny(t, lines...)
		sh.Profile.Scales = scales(t, "2000 1")
		b, err := scale.Mass(sh, f, f.Out())
		if err != nil {
			t.Fatal(err)
		}
		col := b.Makes[0].Lines
		wrong := func(a scale.Amount, shown unit.Mass) *big.Rat {
			r := big.NewRat(int64(shown-a.Exact), int64(a.Exact))
			return r.Abs(r)
		}
		got := new(big.Rat)
		for _, a := range col {
			got.Add(got, wrong(a, a.Shown))
		}
		for way := range 1 << len(col) {
			sum, all, within := unit.Mass(0), new(big.Rat), true
			for i, a := range col {
				shown := a.Exact/a.Step*a.Step + a.Step*unit.Mass(way>>i&1)
				within = within && shown-a.Exact < a.Step
				sum += shown
				all.Add(all, wrong(a, shown))
			}
			if within && sum == b.Makes[0].Shown && all.Cmp(got) < 0 {
				t.Fatalf("%v: %s of relative errors, the best is %s", lines, got.FloatString(6), all.FloatString(6))
			}
		}
	})
}

// The error passes 1 % below 50 steps, for half a step is 1 % of 50: 2 g on a
// scale that shows whole grams may be 25 % wrong.
func TestCoarse(t *testing.T) {
	for _, c := range []struct {
		grams         string
		coarse, small bool
	}{
		{"2", true, true}, {"49.999", true, true}, {"50", false, true}, {"100", false, true}, {"100.1", true, false}, {"250", false, false},
	} {
		sh, f := tiny(t, "a "+c.grams)
		sh.Profile.Scales = scales(t, "100 1", "1000 5")
		b, _ := scale.Mass(sh, f, f.Out())
		if a := b.Makes[0].Lines[0]; a.Coarse != c.coarse || a.Small != c.small {
			t.Errorf("%s g: coarse %v, small %v", c.grams, a.Coarse, a.Small)
		}
	}
}

func ExampleHave() {
	sh := shop.Load(demoFolder(), &diag.List{})
	b, err := scale.Have(sh, "passion-caramel-bar", "passion-puree", 1200*unit.Gram)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(b.Pieces, "bars")
	// Output: 236 bars
}
