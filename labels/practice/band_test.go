package practice_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/practice"
	"chablon/labels/unit"
)

func aim(t testing.TB, s string) unit.Target {
	t.Helper()
	x, err := unit.ParseTarget(s)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// Temperatures inside and outside of the usual ranges, each with the source of
// the range; the edges belong to it. Ranges without a source are common
// practice.
func TestSanity(t *testing.T) {
	for _, c := range []struct {
		kind, of string
		part     practice.Part
		target   string
		ok, must bool
		source   string
	}{
		{"bake", "", practice.AtSet, "165 °C", true, false, ""},
		{"bake", "", practice.AtSet, "165 °F", false, true, "common practice"}, // 73.9 °C
		{"bake", "sweet-pastry", practice.AtSet, "165 °F", false, true, "common practice"},
		{"bake", "choux", practice.AtSet, "240 °C", false, false, "textbooks"},
		{"bake", "choux", practice.AtSet, "220 °C", true, false, ""},
		{"bake", "", practice.AtCore, "150 °C", false, true, "common practice"},
		{"boil", "pastry-cream", practice.AtLimit, "≥ 93 °C", true, false, ""},
		{"boil", "pastry-cream", practice.AtLimit, "≥ 82 °C", false, false, "Figoni"},
		{"cook", "custard", practice.AtReach, "82 to 85 °C", true, false, ""},
		{"cook", "custard", practice.AtReach, "87 °C", false, false, "Migoya"},
		{"boil", "syrup", practice.AtReach, "121 °C", true, false, ""},
		{"cook", "caramel", practice.AtReach, "180 °C", true, false, ""},
		{"cook", "caramel", practice.AtReach, "206 °C", false, true, "McGee"},
		{"cook", "soft-caramel", practice.AtReach, "113 °C", true, false, ""},
		{"cook", "soft-caramel", practice.AtReach, "111 ± 1 °C", false, false, "moisture"},
		{"boil", "marshmallow", practice.AtReach, "112 to 122 °C", true, false, ""},
		{"cool", "marshmallow", practice.AtReach, "≤ 100 °C", true, false, ""},
		{"cool", "marshmallow", practice.AtReach, "≤ 105 °C", false, true, "Greweling"},
		{"temper", "dark-chocolate", practice.AtReach, "28.5 °C", true, false, ""},
		{"temper", "dark-chocolate", practice.AtReach, "31.5 ± 0.5 °C", true, false, ""},
		{"temper", "dark-chocolate", practice.AtReach, "34 °C", false, false, "Greweling"},
		{"temper", "milk-chocolate", practice.AtReach, "31.5 °C", false, false, "Greweling"},
		{"melt", "white-chocolate", practice.AtReach, "55 °C", false, false, "Greweling"},
		{"temper", "", practice.AtReach, "122 °C", false, true, "common practice"}, // 50 °C = 122 °F
		{"fill", "ganache", practice.AtReach, "≤ 34 °C", true, false, ""},
		{"fill", "ganache", practice.AtReach, "38 °C", false, false, "Greweling"},
		{"rest", "laminated-dough", practice.AtReach, "30 °C", false, false, "textbooks"},
		{"mix", "lean-dough", practice.AtReach, "24 to 26 °C", true, false, ""},
		{"mix", "", practice.AtReach, "400 °C", true, false, ""}, // no range is known
		{"freeze", "", practice.AtReach, "≤ -18 °C", true, false, ""},
		{"freeze", "", practice.AtReach, "≤ 18 °C", false, false, "common practice"},
		{"cook", "egg", practice.AtLimit, "64.4 °C", true, false, ""},
		{"cook", "egg", practice.AtLimit, "60 °C", false, true, "1983"},
	} {
		b, ok := practice.Sanity(c.kind, c.of, c.part, aim(t, c.target))
		if ok != c.ok || b.Must != c.must || !strings.Contains(b.Source, c.source) {
			t.Errorf("%s of %q, %s %s: %v, must %v, %q", c.kind, c.of, c.part, c.target, ok, b.Must, b.Source)
		}
	}
}

// A target inside of another that is sane is sane too, and one that is made
// wider never becomes sane.
func TestSanityIsMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(practice.Bands()).Draw(t, "band")
		lo := rapid.Int64Range(-50, 300).Draw(t, "lo")
		hi := rapid.Int64Range(lo, 320).Draw(t, "hi")
		in := rapid.Int64Range(lo, hi).Draw(t, "in")
		wide := unit.Target{Kind: unit.Between, Lo: unit.Celsius(lo), Hi: unit.Celsius(hi)}
		one := unit.Target{Lo: unit.Celsius(in), Hi: unit.Celsius(in)}
		_, wideOK := practice.Sanity(b.Kinds[0], b.Of, b.Part, wide)
		_, oneOK := practice.Sanity(b.Kinds[0], b.Of, b.Part, one)
		if wideOK && !oneOK {
			t.Fatalf("%s is sane, %s in it is not", wide, one)
		}
	})
}

func ExampleSanity() {
	oven, _ := unit.ParseTarget("165 °F")
	band, ok := practice.Sanity("bake", "", practice.AtSet, oven)
	fmt.Println(ok, band.What, band.Lo, "to", band.Hi)
	// Output: false an oven that bakes 80 °C to 300 °C
}
