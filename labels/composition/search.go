package composition

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Search gives the foods whose English, French or German name holds all words
// that are asked for, accents and capitals left aside; the nearest first: those
// whose name begins with the first word, then the shorter names.
func Search(words string) []Food {
	asked := strings.Fields(fold(words))
	if len(asked) == 0 {
		return nil
	}
	type hit struct {
		Food
		rank int
	}
	var hits []hit
	for _, f := range Foods() {
		if r, ok := rank(f, asked); ok {
			hits = append(hits, hit{f, r})
		}
	}
	slices.SortStableFunc(hits, func(a, b hit) int { return cmp.Compare(a.rank, b.rank) })
	out := make([]Food, len(hits))
	for i, h := range hits {
		out[i] = h.Food
	}
	return out
}

// rank is lower for the nearer name; false when no name holds all the words.
func rank(f Food, asked []string) (best int, ok bool) {
	for _, name := range f.Names {
		name = fold(name)
		if !slices.ContainsFunc(asked, func(w string) bool { return !holds(name, w, strings.Contains) }) {
			r := len(name)
			if !holds(name, asked[0], begins) {
				r += 1000
			}
			if !ok || r < best {
				best, ok = r, true
			}
		}
	}
	return best, ok
}

// holds asks for a word, and for what it may be the plural of.
func holds(name, word string, in func(name, word string) bool) bool {
	if in(name, word) {
		return true
	}
	for _, ending := range []string{"s", "x", "n", "e", "en", "es", "er"} {
		if one, ok := strings.CutSuffix(word, ending); ok && len(one) > 3 && in(name, one) {
			return true
		}
	}
	return false
}

// begins reports whether the first word of a name is the word, or its plural.
func begins(name, word string) bool {
	first := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) })
	return len(first) > 0 && strings.HasPrefix(first[0], word) && len(first[0]) <= len(word)+2
}

// fold makes letters small and takes their accents off.
func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return unicode.ToLower(r)
	}, norm.NFD.String(strings.ReplaceAll(s, "œ", "oe")))
}
