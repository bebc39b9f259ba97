package scale

import (
	"slices"

	"chablon/labels/unit"
)

// Split rounds masses to a step so that what is shown adds up to their sum as
// shown: those with the largest remainders are rounded up (M. L. Balinski,
// H. P. Young, Fair Representation, 1982).
func Split(exact []unit.Mass, step unit.Mass) []unit.Mass {
	var sum, shown unit.Mass
	out := make([]unit.Mass, len(exact))
	order := make([]int, len(exact))
	for i, m := range exact {
		out[i], order[i] = m/step*step, i
		sum, shown = sum+m, shown+out[i]
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return int((exact[b] - out[b] - exact[a] + out[a]) / max(1, step/1000))
	})
	for _, i := range order {
		if shown+step <= sum.Round(step) {
			out[i], shown = out[i]+step, shown+step
		}
	}
	return out
}
