package declare_test

import (
	"strings"
	"testing"
)

// named is a kitchen with a product of this name.
func named(k kitchen, name, what, off, keys string) kitchen {
	k.product("food", what, off, keys)
	k["products/food.yaml"] = strings.Replace(k["products/food.yaml"], "name: {en: food}", "name: {"+name+"}", 1)
	return k
}

// What the name of a food names shows its percentage, or somebody says why not:
// Reg. (EU) 1169/2011 Art. 22(1)(a), Annex VIII point 1(a).
func TestNamedInTheName(t *testing.T) {
	for _, c := range []struct{ label, in, name, make, keys, want, found string }{
		{"nothing said", "eu", "en: Plum tartlet", "plum 60, flour 30, butter 10", "", "plum, flour [wheat], butter [milk]", "percent-missing"},
		{"said", "eu", "en: Plum tartlet", "plum 60, flour 30, butter 10", "percent: [{of: plum, because: in-name}]", "plum 60.0 %, flour [wheat], butter [milk]", ""},
		{"a reason instead", "eu", "en: Cinnamon biscuit", "flour 99, cinnamon 1", "percent: [{of: cinnamon, exempt: flavouring}]", "flour [wheat], cinnamon", ""},
		{"an ingredient that no word names", "eu", "en: Tartlet", "plum 60, flour 30, butter 10", "", "plum, flour [wheat], butter [milk]", ""},
		{"ham and mushroom pizza", "eu", "en: Ham and mushroom pizza", "flour 84, pork 10, mushrooms 6", "percent: [{of: pork, because: in-name}, {of: mushrooms, because: in-name}]",
			"flour [wheat], ham 10.0 %, mushrooms 6.0 %", ""}, // FSAI, FAQ on QUID: "ham (10%), mushrooms (6%)"
		{"ham only", "eu", "en: Ham and mushroom pizza", "flour 84, pork 10, mushrooms 6", "percent: [{of: pork, because: in-name}]",
			"flour [wheat], ham 10.0 %, mushrooms", "percent-missing"},
		{"in another language of the label", "eu", "en: Tartlet, fr: Tartelette aux prunes", "plum 60, flour 40", "packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: exempt-small-maker, languages: [en, fr]}]",
			"plum, flour [wheat]", "percent-missing"},
		{"all of the food", "eu", "en: Plum tartlet", "plum 60", "", "plum", ""},
		{"in a language of no label", "eu", "en: Tartlet, fr: Tartelette aux prunes", "plum 60, flour 40", "", "plum, flour [wheat]", ""},
		{"a word of the name is enough", "eu", "en: Hazelnut filling slice", "ground-hazelnuts 51, butter 49", "", "hazelnuts [hazelnuts], butter [milk]", "percent-missing"},
		{"inside a compound", "eu", "en: Hazelnut slice", "flour 60, praline 40", "", "flour [wheat], praline (sugar, filling (hazelnuts [hazelnuts], fat [milk]))", "percent-missing"},
		{"the compound says how much", "eu", "en: Hazelnut slice", "flour 60, praline 40", "percent: [{of: praline, because: in-name}]",
			"flour [wheat], praline 40.0 % (sugar, filling (hazelnuts [hazelnuts], fat [milk]))", ""},
		{"the inner ingredient says how much", "eu", "en: Hazelnut slice", "flour 60, praline 40", "percent: [{of: hazelnuts, because: in-name}]",
			"flour [wheat], praline (sugar, filling (hazelnuts 12.0 % [hazelnuts], fat [milk]))", ""},
		{"inner and outer are summed", "eu", "en: Hazelnut slice", "flour 40, praline 40, ground-hazelnuts 20", "percent: [{of: hazelnuts, because: in-name}]",
			"flour [wheat], praline (sugar, filling (hazelnuts [hazelnuts], fat [milk])), hazelnuts 32.0 % [hazelnuts]", ""},
		{"what it is in bears its name too", "eu", "en: Hazelnut slice", "flour 60, hazelnut-praline 20, ground-hazelnuts 20", "percent: [{of: hazelnuts, because: in-name}]",
			"flour [wheat], hazelnuts 32.0 % [hazelnuts], hazelnut praline (hazelnuts [hazelnuts], sugar)", ""},
		{"what it is in is named by another word", "eu", "en: Hazelnut praline slice", "flour 60, hazelnut-praline 20, ground-hazelnuts 20", "percent: [{of: hazelnuts, because: in-name}]",
			"flour [wheat], hazelnuts 32.0 % [hazelnuts], hazelnut praline (hazelnuts [hazelnuts], sugar)", "percent-missing"},
		{"a reason for an inner one", "eu", "en: Hazelnut slice", "flour 99, praline 1", "percent: [{of: Hazelnuts, exempt: flavouring}]",
			"flour [wheat], praline (sugar, filling (hazelnuts [hazelnuts], fat [milk]))", ""},
		{"an opened compound has no entry", "eu", "en: Slice", "flour 60, praline 40", "open: [praline]\npercent: [{of: praline, because: characterises}]",
			"flour [wheat], sugar, filling (hazelnuts [hazelnuts], fat [milk])", "percent"},
		{"its parts have", "eu", "en: Hazelnut slice", "flour 60, praline 40", "open: [praline]\npercent: [{of: hazelnuts, because: in-name}]",
			"flour [wheat], sugar, filling (hazelnuts 12.0 % [hazelnuts], fat [milk])", ""},
		{"in the United States nobody asks", "us", "en: Plum tartlet", "plum 60, flour 40", "", "plum, flour [wheat]", ""}, // 21 CFR 101 has no such rule
		{"nor in Canada", "ca", "en: Plum tartlet", "plum 60, flour 40", "", "plum, flour [wheat]", ""},                    // C.R.C. c. 870 has none
		{"in Australia", "au", "en: Plum tartlet", "plum 60, flour 40", "", "plum, flour [wheat]", "percent-missing"},      // Standard 1.2.10
		{"in Britain", "gb", "en: Plum tartlet", "plum 60, rye 40", "", "plum, rye [rye]", "percent-missing"},              // retained Art. 22
		{"in Switzerland", "ch", "en: Plum tartlet", "plum 60, flour 40", "", "plum, flour [wheat]", "percent-missing"},    // LIV
		{"packed where it is sold", "gb", "en: Plum tartlet", "plum 60, rye 40", "packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: exempt-small-maker, sale: direct}]", "plum, rye [rye]", ""},
	} {
		k := pantry()
		k.ingredient("plum", "name: {en: plum, fr: prune}")
		k.ingredient("flour", "name: {en: flour, fr: farine}; contains: [wheat]")
		k.ingredient("mushrooms", "")
		k.ingredient("hazelnut-praline", "name: {en: hazelnut praline}; contains: [hazelnuts]; made-of: [{name: {en: hazelnuts}, share: 60 %, contains: [hazelnuts]}, {name: {en: sugar}, share: 40 %}]")
		k.ingredient("pork", "name: {en: ham}")
		f, found := of(t, named(k, c.name, c.make, "", c.keys), "food", c.in)
		got := strings.TrimPrefix(rules(found), "language ")
		if show(f) != c.want || got != c.found {
			t.Errorf("%s:\n got %s (%s)\nwant %s (%s)", c.label, show(f), got, c.want, c.found)
		}
	}
}

// A percentage of what is part of a compound is one of the whole product (the
// Commission's view in a letter of the Food Standards Agency of 7 August 2000),
// and after a loss of what is left: 200 g of sultanas in 1000 g of dough and
// sultanas that bake to 800 g are 25 % (leaflet "How to provide QUID
// declaration" of a UK food authority).
func TestWorkedPercentages(t *testing.T) {
	k := pantry()
	k.ingredient("sultanas", "")
	f, found := of(t, named(k, "en: Sultana cake", "flour 800, sultanas 200", "200 g", "percent: [{of: sultanas, because: in-name}]"), "food", "eu")
	if got, want := show(f), "flour [wheat], sultanas 25.0 %"; got != want || rules(found) != "" {
		t.Errorf("got %s (%s), want %s", got, rules(found), want)
	}
	k = pantry()
	f, found = of(t, named(k, "en: Hazelnut cake", "flour 600, praline 400", "200 g", "percent: [{of: hazelnuts, because: in-name}]"), "food", "eu")
	if got, want := show(f), "flour [wheat], praline (sugar, filling (hazelnuts 15.0 % [hazelnuts], fat [milk]))"; got != want || rules(found) != "" {
		t.Errorf("120 g in 800 g: got %s (%s), want %s", got, rules(found), want)
	}
}

// In an assortment each list answers for its own food, to the name of the whole
// as well as to its own.
func TestNamedInAnAssortment(t *testing.T) {
	for _, c := range []struct{ one, tin, found string }{
		{"percent: [{of: plum, because: in-name}]", "", ""},
		{"", "", "percent-missing"},
		{"", "percent: [{of: plum, exempt: not-decisive}]", ""},
		{"", "percent: [{of: plum, because: in-name}]", "percent-missing"}, // the list is that of the part
	} {
		k := pantry()
		k.ingredient("plum", "")
		k.product("one", "plum 60, flour 40", "", c.one)
		k.product("two", "flour 60, butter 40", "", "")
		k["products/tin.yaml"] = "name: {en: Plum assortment}\nversion: 1\nissued: 2026-01-01\nparts:\n  - {stage: assemble, add: [{use: one, pieces: 1}, {use: two, pieces: 1}]}\n" + c.tin +
			"\nkeep: {store: ambient, life: 70 days, date: best-before}\npacks: [{id: tin, pieces: 1, net: 1 g, paper: a4-4, largest-face: 100 cm², nutrition: exempt-small-maker}]\n"
		if _, found := of(t, k, "tin", "eu"); rules(found) != c.found {
			t.Errorf("%q and %q: found %q, want %q", c.one, c.tin, rules(found), c.found)
		}
	}
}
