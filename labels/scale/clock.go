package scale

import (
	"cmp"
	"slices"
)

// ByClock gives the tasks, as indices into Tasks, in the order in which they
// begin when everything begins as late as it can; what is
// done on a day before comes first, and of those that begin together the first of
// the files. No task comes before one that it needs.
func (w *Work) ByClock() []int {
	all := make([]int, len(w.Tasks))
	for i := range all {
		all[i] = i
	}
	slices.SortStableFunc(all, func(a, b int) int {
		return cmp.Or(cmp.Compare(w.Tasks[a].Day, w.Tasks[b].Day), cmp.Compare(w.Tasks[a].Latest(), w.Tasks[b].Latest()))
	})
	return all
}
