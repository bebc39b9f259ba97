package declare_test

import (
	_ "embed"
	"strconv"
	"strings"
	"testing"

	"chablon/labels/composition"
	"chablon/labels/market"
	"chablon/labels/unit"
)

//go:embed testdata/ciqual-energy.tsv
var publishedEnergy string

// The energy factors of Reg. (EU) 1169/2011 Annex XIV against the energy that
// CIQUAL 2020 publishes for the same foods: within 1 %, or 8 kJ for what has
// little, where the table knows all that has a factor. Its yoghurt (19600) is
// an average whose energy is not that of its own figures.
func TestEnergyAgreesWithATable(t *testing.T) {
	eu, _ := market.Get("EU")
	n := 0
	for line := range strings.Lines(publishedEnergy) {
		code, kj, _ := strings.Cut(strings.TrimSpace(line), "\t")
		want, err := strconv.ParseFloat(kj, 64)
		food, ok := composition.Get(code)
		if err != nil || !ok || code == "19600" {
			continue
		}
		eaten, ok := eatenOf(food)
		if !ok {
			continue
		}
		got, _, err := eu.Nutrition.Energy(eaten)
		if err != nil {
			t.Fatal(err)
		}
		n++
		if off := float64(got)/float64(unit.Gram) - want; max(off, -off) > max(want/100, 8) {
			t.Errorf("%s %s: %.0f kJ, the table has %.0f", code, food.Names[0], want+off, want)
		}
	}
	if n < 150 {
		t.Errorf("only %d foods compared", n)
	}
}

// eatenOf lists what carries energy in 100 g; false where the table lacks some.
func eatenOf(f composition.Food) ([]market.Eaten, bool) {
	mass := map[string]unit.Mass{}
	for _, key := range []string{"fat", "carbohydrate", "polyols", "fibre", "protein", "alcohol", "organic-acids"} {
		v := f.Value(key)
		if !v.Known {
			return nil, false
		}
		mass[key] = v.Mass
		if v.Below { // so the table's own energy counts it, as far as one can see
			mass[key] /= 2
		}
	}
	return []market.Eaten{{Key: "fat", Mass: mass["fat"]}, {Key: "protein", Mass: mass["protein"]}, {Key: "fibre", Mass: mass["fibre"]},
		{Key: "alcohol", Mass: mass["alcohol"]}, {Key: "organic acids", Mass: mass["organic-acids"]}, {Key: "polyols", Mass: mass["polyols"]},
		{Key: "carbohydrate", Mass: max(mass["carbohydrate"]-mass["polyols"], 0)}}, true
}
