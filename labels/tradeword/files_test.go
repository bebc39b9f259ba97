package tradeword

import (
	"slices"
	"testing"
)

// annexII are the substances of Reg. (EU) 1169/2011 Annex II by the ids of
// labels/market, the pine nut of other markets, and any nut.
var annexII = []string{"wheat", "rye", "barley", "oats", "crustaceans", "eggs", "fish", "peanuts", "soybeans", "milk", "almonds", "hazelnuts",
	"walnuts", "cashews", "pecan nuts", "brazil nuts", "pistachio nuts", "macadamia nuts", "pine nuts", "celery", "mustard", "sesame",
	"sulphites", "lupin", "molluscs", "nuts"}

// Every file can be read, and every allergen in it is one that the law knows.
func TestFiles(t *testing.T) {
	total := 0
	for code, reader := range readers() {
		l, err := reader()
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, ws := range l.words {
			for _, w := range ws {
				n++
				for _, id := range slices.Concat(w.needs...) {
					if !slices.Contains(annexII, id) {
						t.Errorf("%s: %q is not in Annex II", code, id)
					}
				}
			}
		}
		if n < 70 {
			t.Errorf("%s has %d words", code, n)
		}
		total += n
	}
	if len(readers()) != 28 || total < 4000 {
		t.Errorf("%d words of %d languages", total, len(readers()))
	}
}

func TestAddRefuses(t *testing.T) {
	for _, line := range []string{"implies milk", "implies = <butter>", "holds milk = <butter>", "law wheat = <x>", "asks milk key = <x>", "implies milk = <but>ter", "implies milk = "} {
		if err := (&Lang{words: map[rune][]word{}}).add(line); err == nil {
			t.Errorf("%q was read", line)
		}
	}
}
