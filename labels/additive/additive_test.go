package additive_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/additive"
)

// Annex V of Regulation (EC) No 1333/2008 (read) names these six and no other.
func TestAnnexV(t *testing.T) {
	var got []string
	for _, a := range additive.All() {
		if a.Azo {
			got = append(got, a.Number)
		}
	}
	if want := "E 102 E 104 E 110 E 122 E 124 E 129"; strings.Join(got, " ") != want {
		t.Errorf("%v, want %s", got, want)
	}
}

func TestFind(t *testing.T) {
	for _, c := range []struct{ e, name, want string }{
		{"E 102", "", "E 102"}, {"E102", "", "E 102"}, {"E\u00a0965", "", "E 965"}, {"E 965(ii)", "", "E 965"}, {"E 420 (i)", "", "E 420"},
		{"E 960a", "", "E 960a"}, {"", "Tartrazine", "E 102"}, {"", "Aspartam", "E 951"}, {"", "Maltit", "E 965"},
		{"E 322", "", ""}, {"", "sugar", ""}, {"", "", ""}, {"E 330", "aspartame", ""}, // the number counts
		{"E 422", "glycerol", ""}, // of the nutrition declaration only
	} {
		if a, _ := additive.Find(c.e, []string{c.name}); a.Number != c.want {
			t.Errorf("%q %q: %q, want %q", c.e, c.name, a.Number, c.want)
		}
	}
}

// Regulation (EU) No 1169/2011 Annex II point 12 is of sulphur dioxide and
// sulphites, E 220 to E 228 (E 225 is none of the list).
func TestSulphitesByNumber(t *testing.T) {
	var got []string
	for _, a := range additive.All() {
		if a.Allergen == "sulphites" {
			got = append(got, a.Number)
		}
	}
	if want := "E 220 E 221 E 222 E 223 E 224 E 226 E 227 E 228"; strings.Join(got, " ") != want {
		t.Errorf("%v, want %s", got, want)
	}
}

// No two additives share a number or a name, and each calls for something.
func TestTable(t *testing.T) {
	seen := map[string]bool{}
	for _, a := range additive.All() {
		for _, s := range slices.Concat([]string{a.Number}, a.Names) {
			if seen[s] || s != strings.TrimSpace(s) || s == "" {
				t.Errorf("%s: %q", a.Number, s)
			}
			seen[s] = true
		}
		if additive.Normal(a.Number) != a.Number || len(a.Names) == 0 || !a.Azo && !a.Sweetener && a.Allergen == "" || a.Azo && a.Sweetener {
			t.Errorf("%+v", a)
		}
	}
}

func ExampleFind() {
	a, ok := additive.Find("E951", nil)
	fmt.Println(ok, a.Number, a.Aspartame)
	// Output: true E 951 true
}
