package claim_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"chablon/labels/claim"
	"chablon/labels/stem"
)

// milk is all that these tests take for an allergen.
func milk(text string) (out []claim.Span) {
	s, _ := stem.Parse("<milk")
	letters := stem.Cut(text)
	for i := range letters.Len() {
		if s.At(letters, i) {
			out = append(out, claim.Span{ID: "milk", From: letters.Byte(i), To: letters.Byte(i + s.Len())})
		}
	}
	return out
}

func ExampleLang_Find() {
	en, _ := claim.Get("en")
	text := "Vegan fudge, without milk or sugar"
	for _, f := range en.Find(text, milk) {
		fmt.Println(f.About, "in", text[f.From:f.To])
	}
	// Output:
	// vegan in Vegan
	// milk in without milk or sugar
	// sugar in without milk or sugar
}

func TestFilesCanBeRead(t *testing.T) {
	if err := claim.Check(); err != nil {
		t.Fatal(err)
	}
	names, err := os.ReadDir("lang")
	if err != nil || len(names) != 28 {
		t.Fatalf("%d languages, %v", len(names), err)
	}
	for _, n := range names {
		code := strings.TrimSuffix(n.Name(), ".txt")
		if _, ok := claim.Get(code); !ok {
			t.Errorf("there is no language %q", code)
		}
	}
	if _, ok := claim.Get("xx"); ok {
		t.Error("there is a language xx")
	}
}

// What follows a stop is another matter, and a figure is no nought.
func TestWhereAClaimEnds(t *testing.T) {
	en, _ := claim.Get("en")
	for text, want := range map[string]int{
		"milk-free": 1, "milk free": 1, "MILK – FREE": 0, "milk, free-range": 0, "milk free-range": 0,
		"without milk": 1, "without: milk": 0, "without any of the milk": 1, "without a spoon milk": 0,
		"0 milk": 1, "5.0 milk": 0, "no milk": 1, "nominal milk": 0, "milkless": 1, "free from": 1, "free from x": 0,
	} {
		if got := len(en.Find(text, milk)); got != want {
			t.Errorf("%q: %d claims, want %d", text, got, want)
		}
	}
}

// Carmine and gelatine are of dead animals, honey is of living ones; honeydew is
// a melon.
func TestOfAnimals(t *testing.T) {
	for _, c := range []struct{ lang, name, want string }{
		{"en", "bovine gelatine", "slaughter"}, {"en", "heather honey", "bees"}, {"en", "honeydew melon", ""},
		{"de", "Fruchtfleisch", ""}, {"de", "Schweineschmalz", "slaughter"}, {"fr", "miel de fleurs", "bees"},
		{"it", "gelatina vegetale", ""}, {"hu", "húsvéti kalács", ""}, {"pl", "miód lipowy", "bees"}, {"tr", "bal", "bees"},
	} {
		l, _ := claim.Get(c.lang)
		if got := l.OfAnimals(c.name); got != c.want {
			t.Errorf("%s %q: %q, want %q", c.lang, c.name, got, c.want)
		}
	}
}
