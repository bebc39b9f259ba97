package words_test

import (
	"slices"
	"strings"
	"testing"
)

// The stems find what a name says, and nothing in names that only look like it:
// nutmeg, browned butter in French, candied peel in Estonian, white chocolate in
// Maltese, bread crust in Irish, lemon peel in Slovenian, drinks of plants.
func TestNames(t *testing.T) {
	ids := allergens(t)
	hits, misses := map[string]int{}, map[string]int{}
	for _, s := range lines(t, "testdata/names.tsv") {
		f := strings.Split(s, "\t")
		want := slices.Sorted(slices.Values(strings.Fields(strings.Trim(f[2], "-"))))
		l := get(t, f[0])
		var got []string
		for _, id := range ids {
			if strong, _ := l.Emphasis(f[1], []string{id}); len(strong) > 0 {
				got = append(got, strings.ReplaceAll(id, " ", "-"))
			}
		}
		slices.Sort(got)
		if !slices.Equal(got, want) {
			t.Errorf("%s %q names %v, want %v", f[0], f[1], got, want)
		}
		if len(want) > 0 {
			hits[f[0]]++
		} else {
			misses[f[0]]++
		}
	}
	for _, code := range strings.Fields("en de nl da sv nb fr fi et hu is lt lv") {
		if hits[code] < 20 || misses[code] < 10 {
			t.Errorf("%s: %d names that name an allergen, %d that do not", code, hits[code], misses[code])
		}
	}
	if len(hits) != 28 {
		t.Errorf("names in %d languages", len(hits))
	}
}
