package scale

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// turnsOf draws turns with some of five allergens each; with after, some must
// follow others.
func turnsOf(t *rapid.T, most int, after bool) (out []Turn) {
	for i := range rapid.IntRange(1, most).Draw(t, "turns") {
		var one Turn
		for _, a := range []string{"eggs", "milk", "hazelnuts", "wheat", "soya"} {
			if rapid.Bool().Draw(t, a) {
				one.Contains = append(one.Contains, a)
			}
		}
		if after && i > 0 && rapid.IntRange(0, 3).Draw(t, "assorted") == 0 {
			one.After = []int{rapid.IntRange(0, most-1).Draw(t, "after") % i}
		}
		out = append(out, one)
	}
	return out
}

func asGiven(turns []Turn) (out []int) {
	for i := range turns {
		out = append(out, i)
	}
	return out
}

// Fewest allergens first is not enough: {a}, {b}, {a, c} is cleaned twice, while
// {b}, {a}, {a, c} is cleaned once.
func ExampleCleanest() {
	turns := []Turn{{Contains: []string{"milk"}}, {Contains: []string{"eggs"}}, {Contains: []string{"milk", "soya"}}}
	order := Cleanest(turns)
	fmt.Println(order, Cleanings(turns, order), Cleanings(turns, []int{0, 1, 2}))
	// Output: [0 2 1] 1 2
}

// The proposal never cleans more often than the plan's own order, whatever must
// follow what; nothing is lost, nothing comes twice, and what must follow does.
func TestCleanestIsNeverWorse(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		turns := turnsOf(rt, 30, rapid.Bool().Draw(rt, "some follow"))
		order := Cleanest(turns)
		if got, own := Cleanings(turns, order), Cleanings(turns, asGiven(turns)); got > own {
			rt.Fatalf("%v is cleaned %d times, as given %d", order, got, own)
		}
		if sorted := slices.Sorted(slices.Values(order)); !slices.Equal(sorted, asGiven(turns)) {
			rt.Fatalf("%v is no order of %d turns", order, len(turns))
		}
		for i, at := range order {
			for _, a := range turns[at].After {
				if slices.Index(order, a) > i {
					rt.Fatalf("%d stands before %d in %v", at, a, order)
				}
			}
		}
	})
}

// Where nothing must follow anything, no order at all is cleaned less often:
// held against every order of up to six turns.
func TestCleanestIsBest(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		turns := turnsOf(rt, 6, false)
		got, best := Cleanings(turns, Cleanest(turns)), len(turns)
		every(asGiven(turns), 0, func(order []int) { best = min(best, Cleanings(turns, order)) })
		if got != best {
			rt.Fatalf("%d cleanings, and %d would do, for %v", got, best, turns)
		}
	})
}

// every calls see with each order of all from at on.
func every(all []int, at int, see func([]int)) {
	if at == len(all) {
		see(all)
		return
	}
	for i := at; i < len(all); i++ {
		all[at], all[i] = all[i], all[at]
		every(all, at+1, see)
		all[at], all[i] = all[i], all[at]
	}
}

// Turns that wait for each other are not lost.
func TestCircleOfTurns(t *testing.T) {
	if got := Cleanest([]Turn{{After: []int{1}}, {After: []int{0}}, {}}); !slices.Equal(got, []int{2, 0, 1}) {
		t.Errorf("%v", got)
	}
}
