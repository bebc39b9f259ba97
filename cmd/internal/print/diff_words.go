package print

import "strings"

// longest is how many pairs are compared at most; beyond it everything counts
// as changed.
const longest = 4_000_000

// common tells which items of a and b belong to their longest common
// subsequence (R. A. Wagner, M. J. Fischer, The string-to-string correction
// problem, 1974).
func common(a, b []string) (inA, inB []bool) {
	inA, inB = make([]bool, len(a)), make([]bool, len(b))
	if len(a)*len(b) > longest {
		return inA, inB
	}
	best := make([][]int, len(a)+1)
	for i := range best {
		best[i] = make([]int, len(b)+1)
	}
	for i := len(a) - 1; i >= 0; i-- {
		for j := len(b) - 1; j >= 0; j-- {
			best[i][j] = max(best[i+1][j], best[i][j+1])
			if a[i] == b[j] {
				best[i][j] = 1 + best[i+1][j+1]
			}
		}
	}
	for i, j := 0, 0; i < len(a) && j < len(b); {
		switch {
		case a[i] == b[j]:
			inA[i], inB[j] = true, true
			i, j = i+1, j+1
		case best[i+1][j] >= best[i][j+1]:
			i++
		default:
			j++
		}
	}
	return inA, inB
}

// marked puts ‹ and › around the words that one text has and the other has not.
func marked(was, now string) (string, string) {
	a, b := strings.Split(was, " "), strings.Split(now, " ")
	inA, inB := common(a, b)
	return embraced(a, inA), embraced(b, inB)
}

func embraced(words []string, same []bool) string {
	var b strings.Builder
	for i, w := range words {
		if i > 0 {
			b.WriteByte(' ')
		}
		if !same[i] && (i == 0 || same[i-1]) {
			b.WriteString("‹")
		}
		b.WriteString(w)
		if !same[i] && (i+1 == len(words) || same[i+1]) {
			b.WriteString("›")
		}
	}
	return b.String()
}
