package counter

import "chablon/cmd/internal/print"

// Names are the keys of the words that kinds of paper and their fields ask for.
func Names() (out []string) {
	for _, k := range print.Kinds() {
		out = append(out, "kind."+k.Name)
		for _, f := range hasOwn(k) {
			out = append(out, "own."+f)
		}
	}
	return out
}
