package shop_test

import (
	"encoding/json"
	"reflect"
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/practice"
	"chablon/labels/shop"
)

// Every band is a range with words and a source, of a kind and a work that can
// be written; and every work that can be written has a band.
func TestBands(t *testing.T) {
	field, _ := reflect.TypeFor[shop.Step]().FieldByName("Kind")
	kinds := strings.Split(field.Tag.Get("one"), "|")
	field, _ = reflect.TypeFor[shop.Step]().FieldByName("Of")
	if got := strings.Split(field.Tag.Get("one"), "|"); !slices.Equal(got, shop.Ofs()) {
		t.Errorf("the key of takes %v, the list has %v", got, shop.Ofs())
	}
	seen := map[string]bool{}
	for _, b := range practice.Bands() {
		seen[b.Of] = true
		if b.Lo >= b.Hi || b.What == "" || b.Source == "" || len(b.Kinds) == 0 {
			t.Errorf("%+v is no band", b)
		}
		if b.Of != "" && !slices.Contains(shop.Ofs(), b.Of) {
			t.Errorf("nobody can write of: %s", b.Of)
		}
		for _, k := range b.Kinds {
			if !slices.Contains(kinds, k) {
				t.Errorf("nobody can write kind: %s", k)
			}
		}
	}
	for _, of := range shop.Ofs() {
		if !seen[of] {
			t.Errorf("no band for %s", of)
		}
	}
}

// kitchenFaults are planted one at a time; each must be found once, by its
// rule, with these words, and nothing else with it.
var kitchenFaults = []struct {
	name, rule string // with a ! in front: a caution; none: nothing is found
	edits      []edit
	words      string
}{
	{"oven typed in the wrong unit", "temperature", []edit{{tart, "set: [170 °C]", "set: [165 °F]"}},
		"165 °F (73.9 °C) at step bake: an oven that bakes is usually at 176 to 572 °F (80 to 300 °C); source: common practice"},
	{"the other unit is proposed", "temperature", []edit{{tart, "set: [170 °C]", "set: [165 °F]"}}, "did you mean 165 °C?"},
	{"the second heat in the wrong unit", "temperature", []edit{{tart, "set: [170 °C]", "set: [170 °C, 165 °F]"}}, "did you mean 165 °C?"},
	{"oven far too hot", "temperature", []edit{{tart, "set: [170 °C]", "set: [350 °C]"}}, "did you mean 350 °F?"},
	{"a reason leaves a caution", "!temperature", []edit{{tart, "set: [170 °C]", "set: [70 °C]\n    because: dried overnight"}}, "dried overnight"},
	{"outside of what is usual", "!temperature", []edit{{tart, "kind: bake", "kind: bake\n    of: shortbread"}, {tart, "set: [170 °C]", "set: [190 °C]"}}, "150 to 170 °C (302 to 338 °F)"},
	{"outside, with a reason", "", []edit{{tart, "kind: bake", "kind: bake\n    of: shortbread\n    because: thick pieces"}, {tart, "set: [170 °C]", "set: [190 °C]"}}, ""},
	{"no time to hold", "!temperature", []edit{{apples, "kind: cool", "kind: boil\n    of: pastry-cream"}, {apples, "reach: ≤ 5 °C\n      within: 2 h", "reach: ≥ 93 °C"}}, "for 2 min"},
	{"held long enough", "", []edit{{apples, "kind: cool", "kind: boil\n    of: pastry-cream"}, {apples, "reach: ≤ 5 °C\n      within: 2 h", "reach: ≥ 93 °C\n      hold: 2 min"}}, ""},
	{"no time to hold egg", "temperature", []edit{{apples, "kind: cool", "kind: cook\n    of: egg"}, {apples, "reach: ≤ 5 °C\n      within: 2 h", "reach: ≥ 65 °C"}}, "1983"},
	// Food Code 3-501.14(A): 57 to 21 °C in 2 h, to 5 °C in 6 h in all.
	{"cooling slower than the market asks", "temperature", []edit{{profile, "[eu]", "[us]"}, {apples, "within: 2 h", "within: 7 h"}}, "5 °C (41 °F) within 6 h"},
	{"cooling warmer than the market asks", "temperature", []edit{{profile, "[eu]", "[us]"}, {apples, "≤ 5 °C", "≤ 8 °C"}}, "3-501.14"},
	{"only the end of cooling is told", "!temperature", []edit{{profile, "[eu]", "[us]"}, {apples, "within: 2 h", "within: 6 h"}}, "21 °C (69.8 °F) within 2 h"},
	{"cooling as the market asks, in °F", "", []edit{{profile, "[eu]", "[us]"}, {apples, "≤ 5 °C", "≤ 41 °F"}}, ""},
	{"cooling in two stages", "", []edit{{profile, "[eu]", "[us]"}, {apples, "≤ 5 °C", "≤ 41 °F"}, {apples, "within: 2 h", "within: 6 h"},
		{apples, "  - id: cool\n", "  - id: ice\n    kind: cool\n    needs: [cook]\n    do: {en: Ice., fr: Glace.}\n    hands-on: 1 min\n" +
			"    limit: {reach: ≤ 70 °F, within: 2 h, measure: {en: p, fr: s}, if-not: {en: d, fr: j}}\n  - id: cool\n"}}, ""},
	{"cooling slower, with a reason", "!temperature", []edit{{profile, "[eu]", "[us]"}, {apples, "within: 2 h", "within: 7 h"}, {apples, "kind: cool", "kind: cool\n    because: approved plan 7"}}, "approved plan 7"},
	{"cooling where the market has no figure", "", []edit{{apples, "≤ 5 °C", "≤ 8 °C"}}, ""},
	// Order of 21 December 2009, from memory: 63 to 10 °C in 2 h; 4 and 3 °C.
	{"cooling in a country with its own figure", "temperature", []edit{{profile, "markets: [eu]", "markets: [eu]\ncountry: FR"}, {apples, "within: 2 h", "within: 3 h"},
		{tart, "≤ 5 °C", "≤ 3 °C"}, {dough, "≤ 5 °C", "≤ 3 °C"}, {tin, "≤ 5 °C", "≤ 3 °C"}}, "10 °C (50 °F) within 2 h"},
	{"a store warmer than the market asks", "!keep", []edit{{profile, "[eu]", "[us]"}, {tart, "≤ 5 °C", "≤ 7 °C"}}, "3-501.16"},
	{"a limit in the wrong unit", "temperature", []edit{{apples, "≤ 5 °C", "≤ 5 °F"}}, "did you mean ≤ 5 °C?"},
	{"heat that makes nothing safe", "temperature", []edit{{apples, "kind: cool", "kind: cook"}, {apples, "reach: ≤ 5 °C\n      within: 2 h", "reach: ≥ 50 °C"}}, "54 °C"},
	{"nothing to hold it against", "!of", []edit{{tart, "kind: bake", "kind: bake\n    of: ganache"}}, "bake of ganache"},
	{"nothing to hold against anything", "", []edit{{tart, "kind: finish", "kind: finish\n    of: ganache"}}, ""},
	{"a look at a piece", "review", []edit{{tart, "take: 40 g", "take: 40 g\n        review-above: 3"}}, "one piece"},
	{"no such tool", "tool", []edit{{tart, "kind: finish", "kind: finish\n    uses-tool: [ovn]"}}, `did you mean "oven"?`},
	{"a tool without words", "translation", []edit{{profile, "scales:", "tools:\n  mixer:\n    name: {en: mixer}\nscales:"}}, `no text in "fr"`},
	{"no tools at all", "count", []edit{{profile, "scales:", "tools:\n  mixer:\n    name: {en: mixer, fr: batteur}\n    there-are: 0\nscales:"}}, "cannot be 0"},
	{"a time for every batch", "!time", []edit{{tart, "hands-on: 20 min\n    per: 24 pieces", "hands-on: 20 min"}}, "for 24 pieces as for 480"},
	{"a time said to be for every batch", "", []edit{{tart, "per: 24 pieces", "per: batch"}}, ""},
	{"a time for nothing", "number", []edit{{tart, "per: 24 pieces", "per: 0 pieces"}}, "nothing"},
	{"a time for boxes", "unit", []edit{{tart, "per: 24 pieces", "per: 2 boxes"}}, "not what a time can be for"},
	{"a time for trays that are none", "time", []edit{{tart, "per: 24 pieces", "per: 2 trays"}}, "how many"},
	{"a formula timed by pieces", "time", []edit{{apples, "kind: cool", "kind: cool\n    per: 24 pieces"}}, "how many"},
	{"loads that nobody counts", "!time", []edit{{tart, "packs:", "tray: {name: {en: t, fr: p}, holds: 12}\npacks:"}}, "in one load"},
	{"a day to come", "day", []edit{{tart, "kind: bake", "kind: bake\n    day: 1"}}, "day 1"},
	{"made before what it needs", "day", []edit{{tart, "kind: bake", "kind: bake\n    day: -1"}, {tart, "kind: fill", "kind: fill\n    day: 0"}}, "on day -1"},
	{"closed all day", "kitchen", []edit{{profile, "scales:", "kitchen: {opens: 18:00, closes: 05:00, people: 2}\nscales:"}}, "opens at 18:00"},
	{"nobody there", "range", []edit{{profile, "scales:", "kitchen: {opens: 05:00, closes: 18:00, people: 0}\nscales:"}}, "0 people"},
	{"a bowl the wrong way round", "bowl", []edit{{dough, "steps:", "bowl:\n  name: {en: b, fr: b}\n  least: 3 kg\n  most: 2 kg\nsteps:"}}, "above the largest"},
	{"a bowl that does not split", "!bowl", []edit{{dough, "steps:", "bowl:\n  name: {en: b, fr: b}\n  least: 1.5 kg\n  most: 2 kg\nsteps:"}}, "more than half"},
	{"a base that is no line", "base", []edit{{dough, "steps:", "base: [flower]\nsteps:"}}, `no line "flower"`},
	{"a dough in the oven", "range", []edit{{dough, "steps:", "dough: {wanted: 75 °C, friction: 6 °C}\nsteps:"}}, "75 °C (167 °F)"},
	{"a dough in °F", "", []edit{{dough, "steps:", "dough: {wanted: 75 °F, friction: 8 °F}\nsteps:"}}, ""},
	{"a friction that is a temperature", "range", []edit{{dough, "steps:", "dough: {wanted: 24 °C, friction: 60 °C}\nsteps:"}}, "60 °C"},
	{"a preferment that is no line", "base", []edit{{dough, "steps:", "dough: {wanted: 24 °C, friction: 6 °C, preferment: floor}\nsteps:"}}, `did you mean "flour"?`},
	{"handling in a formula", "loss", []edit{{dough, "take: 500 g", "take: 500 g\n    lost-in-handling: 3 %"}}, "not in a formula"},
	{"handling of all there is", "loss", []edit{{tart, "take: 40 g", "take: 40 g\n        lost-in-handling: 100 %"}}, "leaves nothing"},
	{"handling of a line", "", []edit{{tart, "take: 40 g", "take: 40 g\n        lost-in-handling: 3 %"}}, ""},
	{"a look below once", "range", []edit{{dough, "take: 500 g", "take: 500 g\n    review-above: 0.5"}}, "less than once"},
	{"a factor that is none", "number", []edit{{dough, "take: 500 g", "take: 500 g\n    review-above: x3"}}, ""},
	{"a strength that cannot be", "bloom", []edit{{dough, "take: 500 g", "take: 500 g\n    weighed-for: {bloom: 2000, rule: root}"}, {flour, "contains", "strength: {bloom: \"220\"}\ncontains"}}, "50 to 325"},
	{"gelatine of unknown strength", "bloom", []edit{{dough, "take: 500 g", "take: 500 g\n    weighed-for: {bloom: 200, rule: root}"}}, "how strong"},
	{"an ask of a formula", "must-have", []edit{{tart, "take: 40 g", "take: 40 g\n        must-have: {fat: 3 %}"}}, "no ingredient"},
	{"an ask of nothing", "must-have", []edit{{dough, "take: 500 g", "take: 500 g\n    must-have: {ash: some}"}}, "compared"},
	{"a trait that is not told", "!must-have", []edit{{dough, "take: 500 g", "take: 500 g\n    must-have: {ash: 0.5 %}"}}, "does not say"},
	{"a trait out of tolerance", "!must-have", []edit{{dough, "take: 500 g", "take: 500 g\n    must-have: {ash: 0.5 ± 0.04 %}"}, {flour, "contains", "strength: {ash: 0.55 %}\ncontains"}}, "asks for 0.5 ± 0.04 %"},
	{"a trait in tolerance", "", []edit{{dough, "take: 500 g", "take: 500 g\n    must-have: {ash: 0.5 ± 0.05 %}"}, {flour, "contains", "strength: {ash: 0.55 %}\ncontains"}}, ""},
	{"a trait that is enough", "", []edit{{dough, "take: 500 g", "take: 500 g\n    must-have: {ash: ≥ 0.5 %}"}, {flour, "contains", "strength: {ash: 0.55 %}\ncontains"}}, ""},
	{"a trait that is too much", "!must-have", []edit{{dough, "take: 500 g", "take: 500 g\n    must-have: {ash: 0.4 to 0.5 %}"}, {flour, "contains", "strength: {ash: 0.55 %}\ncontains"}}, "0.55 %"},
	{"a trait in another unit", "!must-have", []edit{{dough, "take: 500 g", "take: 500 g\n    must-have: {ash: 0.55}"}, {flour, "contains", "strength: {ash: 0.55 %}\ncontains"}}, "0.55 %"},
	{"a kitchen in space", "range", []edit{{profile, "scales:", "altitude: 9000 m\nscales:"}}, "9000 m"},
	{"water that does not boil", "range", []edit{{profile, "scales:", "water-boils: 60 °C\nscales:"}}, "does not boil"},
	{"a line on fire", "range", []edit{{dough, "take: 500 g", "take: 500 g\n    at: 400 °C"}}, "400 °C"},
	{"a reading that cannot be", "range", []edit{{tart, "set: [170 °C]", "set: [170 °C]\n    readings: [{on: 2026-03-01, after: 900 °C}]"}}, "not possible"},
	{"a pack of nothing", "mass", []edit{{flour, "contains", "order-pack: 0 g\ncontains"}}, "a pack"},
}

func TestKitchenFaults(t *testing.T) {
	for _, f := range kitchenFaults {
		t.Run(f.name, func(t *testing.T) {
			in := small(t)
			for _, e := range f.edits {
				e.apply(t, in)
			}
			var found diag.List
			shop.Load(in, &found)
			rule, caution := strings.CutPrefix(f.rule, "!")
			all := found.All()
			if f.rule == "" {
				all = append(all, diag.Diag{})
			}
			if len(all) != 1 {
				t.Fatalf("%d findings: %v", found.Len(), found.All())
			}
			d := all[0]
			if d.Rule != rule || d.Warning != caution || !strings.Contains(d.String(), f.words) || f.rule != "" && d.Hint == "" {
				t.Errorf("want [%s], caution %v, with %q:\n%s", rule, caution, f.words, d)
			}
		})
	}
}

// Whatever is asked of an ingredient, the check neither fails nor finds
// anything but what it is about.
func FuzzAsks(f *testing.F) {
	for _, s := range []string{"35 ± 1 %", "≥ 60 %", "≤ 5", "33 to 37 %", "40", "", "± ±", "1e9 %", "99999999999999999999 %"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		quoted, err := json.Marshal(s)
		if err != nil {
			t.Skip()
		}
		in := small(t)
		edit{dough, "take: 500 g", "take: 500 g\n    review-above: " + string(quoted) + "\n    must-have: {ash: " + string(quoted) + "}"}.apply(t, in)
		edit{flour, "contains", "strength: {ash: " + string(quoted) + "}\ncontains"}.apply(t, in)
		var found diag.List
		shop.Load(in, &found)
		for _, d := range found.All() {
			if !d.Pos.Known() {
				t.Errorf("%q: %s", s, d)
			}
		}
	})
}

func TestRatio(t *testing.T) {
	for text, want := range map[string]string{"3": "3", "2.5": "2.5", "2.5 ×": "2.5", "0.000001": "0.000001"} {
		var r shop.Ratio
		if err := r.UnmarshalText([]byte(text)); err != nil || r.String() != want {
			t.Errorf("%q: %s, %v", text, r, err)
		}
	}
	for _, bad := range []string{"", "x", "-3", "3 %", "2,5", "0.0000001", "3 times"} {
		var r shop.Ratio
		if err := r.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q was read as %s", bad, r)
		}
	}
}
