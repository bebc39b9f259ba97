package stem_test

import (
	"fmt"
	"testing"

	"chablon/labels/stem"
)

func ExampleSet_Longest() {
	beans, _ := stem.Parse("<butter bean")
	set := stem.SetOf([]stem.Stem{stem.Whole("butter"), beans})
	text := stem.Cut("Butter beans in butter")
	for i := range text.Len() {
		if n := set.Longest(text, i); n > 0 {
			fmt.Println(text.Byte(i), n)
		}
	}
	// Output:
	// 0 11
	// 16 6
}

// The notation is that of the language files.
func TestAt(t *testing.T) {
	for _, c := range []struct {
		stem, text string
		at         int
		want       bool
	}{
		{"egg", "veggie", 1, true},
		{"<egg", "veggie", 1, false},
		{"<egg", "2 eggs", 2, true},
		{"rye>", "fryer", 1, false},
		{"rye>", "rye, malted", 0, true},
		{"rye>", "rye", 0, true},
		{"=Ei", "Ei", 0, true},
		{"=Ei", "ei", 0, false},
		{"=Ei", "EI", 0, false},
		{"sütü", "İNEK SÜTÜ", 5, true},
		{"fındık", "FINDIK", 0, true},
		{"noix de coco", "noix de\u00a0coco", 0, true},
		{"d'amande", "d\u2019amande", 0, true},
		{"σησαμος", "ΣΉΣΑΜΟΣ", 0, true}, // capitals without accents are the rule
		{"γάλα", "ΓΑΛΑ", 0, true},
		{"кеш'ю", "Кешʼю", 0, true},
		{"lupin", "lúpin", 0, false}, // elsewhere accents count
		{"κριθαρι", "κριθαρι", 0, true},
		{"milk", "mil", 0, false},
	} {
		p, err := stem.Parse(c.stem)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.At(stem.Cut(c.text), c.at); got != c.want {
			t.Errorf("%q at %d of %q: %v", c.stem, c.at, c.text, got)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, s := range []string{"", "<", "!", " egg", "egg ", "e>gg", "<egg>>"} {
		if _, err := stem.Parse(s); err == nil {
			t.Errorf("%q was read", s)
		}
	}
	if p, err := stem.Parse("!eggplant"); err != nil || !p.Other() || p.Len() != 8 || p.String() != "eggplant" {
		t.Errorf("%v %v", p, err)
	}
}
