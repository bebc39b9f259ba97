package declare_test

import (
	"strings"
	"testing"
)

// TestSulphitesWithoutName: sulphur dioxide of several ingredients adds up; a
// food that passes the limit of Reg. (EU) 1169/2011 Annex II 12 (more than
// 10 mg/kg) while no ingredient says that it contains sulphites is refused at
// the ingredient that brings most of it. At exactly 10 mg/kg nothing is asked.
func TestSulphitesWithoutName(t *testing.T) {
	for _, c := range []struct {
		first, second string
		refused       bool
	}{
		{"18 mg/kg", "4 mg/kg", true},  // half and half: 11 mg/kg
		{"16 mg/kg", "4 mg/kg", false}, // exactly 10 mg/kg
		{"16.01 mg/kg", "4 mg/kg", true},
	} {
		k := pantry()
		k.ingredient("glucose", "sulphites: "+c.first)
		k.ingredient("starch", "sulphites: "+c.second)
		k.product("food", "glucose 50, starch 50", "")
		_, found := of(t, k, "food", "eu")
		if (found.Errors() > 0) != c.refused {
			t.Fatalf("%s and %s: %v", c.first, c.second, found.All())
		}
		if !c.refused {
			continue
		}
		d := found.All()[0]
		if d.Rule != "sulphites" || !strings.HasSuffix(d.Pos.File, "glucose.yaml") || !strings.Contains(d.Hint, "contains: [sulphites]") {
			t.Errorf("%s and %s: %v", c.first, c.second, d)
		}
	}
}
