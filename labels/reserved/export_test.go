package reserved

import "slices"

// Keys lists the keys that a language has words for, in alphabetical order.
func Keys(code string) []string {
	var out []string
	if l := langs()[code]; l != nil {
		for _, p := range l.phrases {
			out = append(out, p.key)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
