package scale

import (
	"cmp"
	"slices"
)

// Turn is one run of a day as far as it matters what is made before what.
type Turn struct {
	Contains []string // ids of allergens
	After    []int    // indices of turns that must be done before it
}

// Leaves lists the allergens of a turn that the next one does not contain: they
// must be cleaned away between the two.
func (t Turn) Leaves(next Turn) (out []string) {
	for _, a := range t.Contains {
		if !slices.Contains(next.Contains, a) {
			out = append(out, a)
		}
	}
	return out
}

// Cleanings counts the places in an order of turns at which an allergen leaves.
func Cleanings(turns []Turn, order []int) (n int) {
	for i := 1; i < len(order); i++ {
		if len(turns[order[i-1]].Leaves(turns[order[i]])) > 0 {
			n++
		}
	}
	return n
}

// Cleanest gives an order of turns in which an allergen leaves as seldom as may
// be, the fewest allergens first, each turn behind those that it must follow.
//
// Turns between which nothing is cleaned contain one another: they are a chain
// of the order by inclusion, and an order of the day needs one cleaning less than
// it has chains. The fewest chains are found by a largest matching (R. P.
// Dilworth, 1950; D. R. Fulkerson, 1956). Where turns must follow others the
// chains may have to be broken; then the order is never worse than the one that
// was given, but need not be the best.
func Cleanest(turns []Turn) []int {
	next := matched(turns)
	own := scheduled(turns, func(_ int, ready []int) int { return slices.Min(ready) })
	best := scheduled(turns, func(last int, ready []int) int { return follow(turns, next, last, ready) })
	if Cleanings(turns, best) > Cleanings(turns, own) {
		return own
	}
	return best
}

// scheduled puts the turns into an order, at each place one of those that are
// ready, as pick says; last is the one before, -1 at the beginning. Turns that
// wait for each other come last, as they were given.
func scheduled(turns []Turn, pick func(last int, ready []int) int) (order []int) {
	for last := -1; len(order) < len(turns); {
		var ready, rest []int
		for i, t := range turns {
			if slices.Contains(order, i) {
				continue
			}
			rest = append(rest, i)
			if !slices.ContainsFunc(t.After, func(a int) bool { return a != i && !slices.Contains(order, a) }) {
				ready = append(ready, i)
			}
		}
		if len(ready) == 0 {
			return append(order, rest...)
		}
		last = pick(last, ready)
		order = append(order, last)
	}
	return order
}

// follow picks what goes on the chain of the last turn, else the head of another
// chain: one before which nothing is cleaned, then the one with the fewest
// allergens, then the first given.
func follow(turns []Turn, next []int, last int, ready []int) int {
	if last >= 0 && next[last] >= 0 && slices.Contains(ready, next[last]) {
		return next[last]
	}
	rank := func(i int) (headless, cleaned int) {
		if slices.Contains(next, i) {
			headless = 1
		}
		if last >= 0 && len(turns[last].Leaves(turns[i])) > 0 {
			cleaned = 1
		}
		return headless, cleaned
	}
	return slices.MinFunc(ready, func(a, b int) int {
		headA, cleanA := rank(a)
		headB, cleanB := rank(b)
		return cmp.Or(cmp.Compare(headA, headB), cmp.Compare(cleanA, cleanB), cmp.Compare(len(turns[a].Contains), len(turns[b].Contains)), cmp.Compare(a, b))
	})
}

// matched gives for each turn the one that follows it on its chain, or -1: a
// largest matching of turns with turns that contain all of theirs (augmenting
// paths; H. W. Kuhn, 1955).
func matched(turns []Turn) []int {
	next, before := make([]int, len(turns)), make([]int, len(turns))
	for i := range turns {
		next[i], before[i] = -1, -1
	}
	var augment func(i int, seen []bool) bool
	augment = func(i int, seen []bool) bool {
		for j := range turns {
			if seen[j] || !within(turns, i, j) {
				continue
			}
			seen[j] = true
			if before[j] < 0 || augment(before[j], seen) {
				next[i], before[j] = j, i
				return true
			}
		}
		return false
	}
	for i := range turns {
		augment(i, make([]bool, len(turns)))
	}
	return next
}

// within reports whether turn j may stand behind i on a chain: it contains all
// that i contains; of two that contain the same, the second given.
func within(turns []Turn, i, j int) bool {
	if i == j || len(turns[i].Leaves(turns[j])) > 0 {
		return false
	}
	return len(turns[j].Leaves(turns[i])) > 0 || i < j
}
