package words

import (
	"fmt"
	"testing"

	"chablon/labels/stem"
)

// Ranges are joined where they overlap or touch, whatever their order was.
func TestMerge(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"[[5 6] [1 2]]", "[[1 2] [5 6]]"},
		{"[[2 3] [1 9]]", "[[1 9]]"},
		{"[[1 9] [2 3]]", "[[1 9]]"},
		{"[[0 4] [4 8]]", "[[0 8]]"},
		{"[[0 4] [5 8]]", "[[0 4] [5 8]]"},
		{"[[1 5] [1 3] [4 7]]", "[[1 7]]"},
		{"[]", "[]"},
	} {
		var in [][2]int
		var a, b int
		for _, s := range pairs(c.in) {
			if _, err := fmt.Sscanf(s, "%d %d", &a, &b); err != nil {
				t.Fatal(err)
			}
			in = append(in, [2]int{a, b})
		}
		if got := fmt.Sprint(merge(in)); got != c.want {
			t.Errorf("%s: %s, want %s", c.in, got, c.want)
		}
	}
}

// pairs cuts "[[1 2] [3 4]]" into "1 2" and "3 4".
func pairs(s string) (out []string) {
	from := -1
	for i, r := range s {
		switch r {
		case '[':
			from = i + 1
		case ']':
			if from > 0 && i > from {
				out = append(out, s[from:i])
			}
			from = -1
		}
	}
	return out
}

// A find ends with the inflection of its stem, up to two letters, or where the
// language wants the whole word is all of it.
func TestFinder(t *testing.T) {
	for _, c := range []struct {
		word       bool
		text, want string
	}{
		{false, "wheat", "[wheat]"},
		{false, "wheats", "[wheats]"},
		{false, "wheaten", "[wheaten]"},
		{false, "wheatear", "[wheat]ear"},
		{false, "buckwheat", "buckwheat"},
		{false, "hardwheat", "hard[wheat]"},
		{true, "hardwheatflour, sugar", "[hardwheatflour], sugar"},
		{true, "hard wheat", "hard [wheat]"},
		{true, "wheat", "[wheat]"},
	} {
		f := &finder{own: []stem.Stem{must(t, "wheat")}, others: []stem.Stem{must(t, "!buckwheat")}, word: c.word}
		f.mine, f.theirs = stem.SetOf(f.own), stem.SetOf(f.others)
		got, at := "", 0
		for _, r := range f.find(stem.Cut(c.text)) {
			got += c.text[at:r[0]] + "[" + c.text[r[0]:r[1]] + "]"
			at = r[1]
		}
		if got += c.text[at:]; got != c.want {
			t.Errorf("%q, whole words %v: %q, want %q", c.text, c.word, got, c.want)
		}
	}
}

func must(t *testing.T, s string) stem.Stem {
	t.Helper()
	p, err := stem.Parse(s)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
