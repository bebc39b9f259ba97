package diag

import "strings"

// Nearest gives the known word that was probably meant by word, or "" when
// none is near: at most one slip (a letter more, less, other, or two swapped)
// in a word of up to four letters, two slips in a longer one. Case, spaces,
// hyphens and underscores do not count as slips. Of equally near words the
// first wins.
func Nearest(word string, known []string) string {
	if len(word) > 100 {
		return ""
	}
	best, least := "", 3
	w := plain(word)
	for _, k := range known {
		d := slips(w, plain(k))
		if d < least && d < len(w) && d <= (len(w)+3)/4 {
			best, least = k, d
		}
	}
	return best
}

func plain(s string) []rune {
	return []rune(strings.NewReplacer("-", "", "_", "", " ", "").Replace(strings.ToLower(s)))
}

// slips counts the slips between two words, 3 meaning three or more. It is the
// restricted Damerau-Levenshtein distance.
func slips(a, b []rune) int {
	if max(len(a)-len(b), len(b)-len(a)) > 2 {
		return 3
	}
	var before []int // row i-2
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		next := make([]int, len(b)+1)
		next[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			next[j+1] = min(row[j]+cost, row[j+1]+1, next[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				next[j+1] = min(next[j+1], before[j-1]+1)
			}
		}
		before, row = row, next
	}
	return min(row[len(b)], 3)
}
