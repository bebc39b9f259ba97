package declare_test

import (
	"strings"
	"testing"
)

// Ingredient lists, each with the rule that decides it. The masses of the
// examples are ours unless the source says otherwise.
func TestLists(t *testing.T) {
	const dough = "flour 500, water 320, butter 100, salt 10, yeast 20"
	for _, c := range []struct {
		name, in    string
		make, off   string
		keys        string
		want, found string
		source      string
	}{
		{"water by subtraction", "eu", dough, "120 g", "", "flour [wheat], water, butter [milk], yeast, salt", "", fic + " Art. 18(1), Annex VII A 1: 830 − 630 = 200 g = 24.1 %"},
		{"water of 4.5 %", "eu", dough, "290 g", "", "flour [wheat], butter [milk], yeast, salt", "", fic + " Annex VII A 1: 30/660 = 4.5 %"},
		{"water of 5.006 %", "eu", dough, "286.8 g", "", "flour [wheat], butter [milk], water, yeast, salt", "", fic + " Annex VII A 1: 33.2/663.2 is more than 5 %"},
		{"water of exactly 5 %", "eu", "flour 950, water 100", "50 g", "", "flour [wheat]", "", fic + " Annex VII A 1: does not exceed 5 %"},
		{"all water gone", "eu", dough, "330 g", "", "flour [wheat], butter [milk], yeast, salt", "", fic + " Annex VII A 1"},
		{"water in the United States", "us", dough, "290 g", "", "flour [wheat], water, butter [milk], yeast, salt", "", "no rule on leaving water out in " + cfr + " 101.4"},
		{"water under Codex", "codex", dough, "290 g", "", "flour [wheat], water, butter [milk], yeast, salt", "", codex + " 4.2.1.5: added water is declared"},
		{"water in Australia", "au", "flour 950, water 100", "50 g", "", "flour [wheat], water", "", fsc + " 1.2.4 (from memory): less than 5 %, and 5 % is not"},
		{"mixing bowl, not oven", "eu", "fruit 600, flour 500, sugar 90", "450 g", "", "fruit, flour [wheat], sugar", "", fic + " Art. 18(1): order as at the time of use"},
		{"equal masses", "eu", "salt 10, sugar 10", "", "", "salt, sugar", "", "no rule; the same order each time"},
		{"same ingredient twice is one", "eu", "sugar 40, flour 60, sugar 30 {as: more}", "", "", "sugar, flour [wheat]", "", fic + " Art. 18(1): all ingredients, each once"},
		{"closing phrase", "us", "flour 950, sugar 20, salt 15, yeast 15", "", "", "flour [wheat], | ≤ 2 %: sugar, salt, yeast", "", cfr + " 101.4(a)(2): 2 percent or less"},
		{"closing phrase 1.5", "us", "flour 970, salt 15, yeast 15", "", "", "flour [wheat], | ≤ 1.5 %: salt, yeast", "", cfr + " 101.4(a)(2): the blank may be 1.5"},
		{"closing phrase 0.5", "us", "flour 990, salt 5, yeast 5", "", "", "flour [wheat], | ≤ 0.5 %: salt, yeast", "", cfr + " 101.4(a)(2): the blank may be 0.5"},
		{"one small part needs no phrase", "us", "flour 990, salt 10", "", "", "flour [wheat], salt", "", cfr + " 101.4(a)(1): falling order says it"},
		{"no phrase in the Union", "eu", "flour 950, sugar 20, salt 15, yeast 15", "", "", "flour [wheat], sugar, salt, yeast", "", fic + " Annex VII A 6 is free to be used"},

		{"butter", "eu", "flour 92, butter 8", "", "", "flour [wheat], butter [milk]", "", fic + " Annex VII E 2(c), Art. 21(1)"},
		{"chocolate of 1.5 %", "eu", "flour 98.5, chips 1.5", "", "", "flour [wheat], chocolate (emulsifier: soya lecithins [soybeans])", "", fic + " Annex VII E 2(a): less than 2 %, additives and allergens stay"},
		{"chocolate of 2 %", "eu", "flour 98, chips 2", "", "", "flour [wheat], chocolate (cocoa mass, sugar, cocoa butter, emulsifier: soya lecithins [soybeans])", "", fic + " Annex VII E 2(a): 2 % is not less than 2 %"},
		{"chocolate of 1.9 % that baking concentrates", "eu", "flour 98.1, chips 1.9", "10 g", "", "flour [wheat], chocolate (cocoa mass, sugar, cocoa butter, emulsifier: soya lecithins [soybeans])", "", fic + " Annex VII E 2(a): of the finished product, 1.9/90 = 2.1 %"},
		{"not defined in law, 1 %", "eu", "flour 99, undefined 1", "", "", "flour [wheat], undefined (apple, pear)", "", fic + " Annex VII E 2: only what law defines, or spices"},
		{"not defined in law, 1 %, Australia", "au", "flour 99, undefined 1", "", "", "flour [wheat], undefined", "", fsc + " 1.2.4 (from memory): any compound below 5 %"},
		{"chocolate of 4 % under Codex", "codex", "flour 96, chips 4", "", "", "flour [wheat], chocolate (emulsifier: soya lecithins [soybeans])", "", codex + " 4.2.1.3: below 5 % functional additives only"},
		{"chocolate of 5 % under Codex", "codex", "flour 95, chips 5", "", "", "flour [wheat], chocolate (cocoa mass, sugar, cocoa butter, emulsifier: soya lecithins [soybeans])", "", codex + " 4.2.1.3: 5 % is not below 5 %"},
		{"chocolate of 4 % in the Union", "eu", "flour 96, chips 4", "", "", "flour [wheat], chocolate (cocoa mass, sugar, cocoa butter, emulsifier: soya lecithins [soybeans])", "", fic + " differs from Codex"},
		{"chocolate of 1 % in the United States", "us", "flour 99, chips 1", "", "", "flour [wheat], chocolate (cocoa mass, sugar, cocoa butter, emulsifier: soya lecithins [soybeans])", "", cfr + " 101.4(b)(2) (from memory): no relief"},
		{"spices with celery", "eu", "flour 99, spice-mix 1", "", "", "flour [wheat], spice-mix (celery seed [celery])", "", fic + " Annex VII E 2(b), Art. 21: the allergen stays"},
		{"carried over", "eu", "flour 90, juice 10", "", "", "flour [wheat], juice (lemon juice)", "", fic + " Art. 20(b)(i)"},
		{"carried over by one of two", "eu", "flour 80, sauce 10, sauce 10 {as: more}", "", "", "flour [wheat], sauce (lemon juice, antioxidant: ascorbic acid)", "", fic + " Art. 20(b)(i): it has a function in the finished food"},
		{"carried over with an allergen", "eu", "flour 90, egg-wash 10", "", "", "flour [wheat], egg-wash (water, preservative: lysozyme [eggs])", "", fic + " Art. 20: without prejudice to Art. 21"},
		{"processing aid", "eu", "flour 99, sun-oil 1 {processing-aid: yes}", "", "", "flour [wheat]", "", fic + " Art. 20(b)(ii)"},
		{"processing aid with an allergen", "eu", "flour 99, wax-oil 1 {processing-aid: yes}", "", "", "flour [wheat], soya oil [soybeans]", "", fic + " Art. 20, 21: used and still present"},

		{"and/or", "eu", "flour 99, rape-oil 1 {or: sun-oil}", "", "", "flour [wheat], rapeseed oil and/or sunflower oil", "", fic + " Annex VII A 7"},
		{"and/or at 2 %", "eu", "flour 98, rape-oil 2 {or: sun-oil}", "", "", "flour [wheat], rapeseed oil", "and-or", fic + " Annex VII A 7: less than 2 %"},
		{"and/or with an allergen", "eu", "flour 99, rape-oil 1 {or: almonds}", "", "", "flour [wheat], rapeseed oil", "and-or", fic + " Annex VII A 7: not for Annex II"},
		{"and/or with an additive", "eu", "flour 99, sweet 1 {or: sugar}", "", "", "flour [wheat], sweetener: sucralose", "and-or", fic + " Annex VII A 7: not for additives"},
		{"and/or in the United States", "us", "flour 99, rape-oil 1 {or: sun-oil}", "", "", "flour [wheat], rapeseed oil", "and-or", cfr + " 101.4(b)(14) is not built in"},

		{"oils by group", "eu", "flour 70, palm 20, rapeseed 10", "", "join: [{as: vegetable-fats, of: [palm, rapeseed]}]", "flour [wheat], vegetable-fats (palm, rapeseed partly-hydrogenated)", "", fic + " Annex VII A 9"},
		{"oils by group, varying", "eu", "flour 15, palm 20, rapeseed 10", "", "join: [{as: vegetable-oils, of: [rapeseed, palm], varying: yes}]", "vegetable-oils varying (palm, rapeseed partly-hydrogenated), flour [wheat]", "", fic + " Annex VII A 8: by the total weight"},
		{"oil without its plant", "eu", "flour 70, palm 20, salt 10", "", "join: [{as: vegetable-oils, of: [palm, salt]}]", "flour [wheat], palm, salt", "join", fic + " Annex VII A 8: the origin stands behind"},
		{"spices by category", "eu", "flour 98, cinnamon 1.5, ginger 0.5", "", "join: [{as: spices, of: [cinnamon, ginger], name: {en: spices}}]", "flour [wheat], spices", "", fic + " Annex VII B: not more than 2 %"},
		{"spices above 2 %", "eu", "flour 97.9, cinnamon 1.5, ginger 0.6", "", "join: [{as: spices, of: [cinnamon, ginger], name: {en: spices}}]", "flour [wheat], cinnamon, ginger", "join", fic + " Annex VII B"},
		{"spices with an allergen", "eu", "flour 98, cinnamon 1.5, sesame 0.5", "", "join: [{as: spices, of: [cinnamon, sesame], name: {en: spices}}]", "flour [wheat], spices [sesame]", "", fic + " Annex VII B, Art. 21"},
		{"sugars by category", "eu", "flour 60, sugar 30, cane 35", "", "join: [{as: sugars, of: [sugar, cane], name: {en: sugar}}]", "sugar, flour [wheat]", "", fic + " Annex VII B: all types of sucrose"},
		{"category of a compound", "eu", "flour 98, chips 1, ginger 1", "", "join: [{as: spices, of: [chips, ginger], name: {en: spices}}]", "flour [wheat], chocolate (emulsifier: soya lecithins [soybeans]), ginger", "join", fic + " Annex VII E: a compound keeps its list"},

		{"icing sugar by its name", "eu", "flour 100, sugar 60, icing 50", "", "", "flour [wheat], sugar, icing sugar (sugar, starch)", "", fic + " Annex VII E 1"},
		{"icing sugar opened", "eu", "flour 100, sugar 60, icing 50", "", "open: [icing]", "sugar, flour [wheat], starch", "", fic + " Art. 18(1), Annex VII E 1: 60 + 48.5 passes 100"},
		{"opened with an allergen", "eu", "flour 90, chips 10", "", "open: [chips]", "flour [wheat], cocoa mass, sugar, cocoa butter, emulsifier: soya lecithins [soybeans]", "", fic + " Art. 21"},
		{"opened, but no compound", "eu", "flour 90, sugar 10", "", "open: [sugar]", "flour [wheat], sugar", "open", "a mistake of the kitchen"},
		{"twins of one name", "eu", "flour 60, ground-hazelnuts 50, whole-hazelnuts 40", "", "same-line: same-name", "hazelnuts [hazelnuts], flour [wheat]", "", fic + " Art. 18(1)"},
		{"twins kept apart", "eu", "flour 60, ground-hazelnuts 50, whole-hazelnuts 40", "", "", "flour [wheat], hazelnuts [hazelnuts], hazelnuts [hazelnuts]", "", "the rule is the kitchen's to write"},
		{"twins with different allergens", "eu", "flour 60, ground-hazelnuts 50, oiled-hazelnuts 40", "", "same-line: same-name", "hazelnuts [peanuts hazelnuts], flour [wheat]", "", fic + " Art. 21"},
		{"twins the other way round", "eu", "flour 60, ground-hazelnuts 50, aged-hazelnuts 40", "", "same-line: same-name", "hazelnuts [almonds hazelnuts], flour [wheat]", "", fic + " Art. 21"},
		{"a compound twice", "eu", "flour 60, chips 30, chips 20 {as: more}", "", "", "flour [wheat], chocolate (cocoa mass, sugar, cocoa butter, emulsifier: soya lecithins [soybeans])", "", fic + " Art. 18(1)"},
		{"inside of what is inside", "eu", "flour 60, praline 30", "", "", "flour [wheat], praline (sugar, filling (hazelnuts [hazelnuts], fat [milk]))", "", fic + " Annex VII E 1"},
		{"exception of a compound", "eu", "sugar 60, fondant 30", "", "", "sugar, fondant (sugar, glucose syrup)", "", fic + " Annex II 1(a)"},
		{"exception of a compound elsewhere", "us", "sugar 60, fondant 30", "", "", "sugar, fondant (sugar, glucose syrup [wheat])", "", "21 U.S.C. 343(w) has no such exception"},
		{"exception beside crumbs", "eu", "sugar 60, crunch 30", "", "", "sugar, crunch (glucose syrup, crumbs [wheat])", "", fic + " Annex II 1(a): wheat based glucose syrups, and nothing beside them"},
		{"exception beside crumbs, deeper", "eu", "sugar 60, deep-crunch 30", "", "", "sugar, deep-crunch (filling (glucose syrup, crumbs [wheat]))", "", fic + " Annex II 1(a)"},
		{"exception inside elsewhere", "us", "sugar 60, drops 30", "", "", "sugar, drops (glucose syrup [wheat], crumbs)", "", "21 U.S.C. 343(w): rye is not listed, and wheat is excepted nowhere"},
		{"exception inside", "eu", "sugar 60, drops 30", "", "", "sugar, drops (glucose syrup, crumbs [rye])", "", fic + " Annex II 1(a)"},

		{"volatile, measured", "eu", "flour 380, rum 20 {left: 6 g}, sugar 8", "", "", "flour [wheat], sugar, rum", "", fic + " Annex VII A 1: by weight in the finished product"},
		{"volatile, not measured", "eu", "flour 380, rum 20, sugar 8", "", "", "flour [wheat], rum, sugar", "", "all of it counts, to be cautious"},
		{"what is left of salt", "eu", "flour 380, salt 20 {left: 6 g}", "", "", "flour [wheat], salt", "evaporates", "salt does not evaporate"},
		{"reconstituted", "eu", "flour 500, powder 60 {reconstituted: yes}, water 540, sugar 200", "", "", "skimmed milk [milk], flour [wheat], sugar", "", fic + " Annex VII A 2, Art. 20(e)(i): 600 g before drying, the water is part of it"},
		{"not reconstituted", "eu", "flour 500, powder 60, water 540, sugar 200", "", "", "water, flour [wheat], sugar, skimmed milk [milk]", "", fic + " Annex VII A 2 is a choice"},
		{"more water than it takes", "eu", "flour 500, powder 30 {reconstituted: yes}, water 540, sugar 200", "", "", "flour [wheat], skimmed milk [milk], water, sugar", "", fic + " Annex VII A 2: 540 − 270 = 270 g stay added water"},
		{"reconstituted from nobody knows what", "eu", "flour 500, salt 30 {reconstituted: yes}", "", "", "flour [wheat], salt", "reconstituted", "the specification must say"},

		{"E number", "eu", "flour 98, lecithin 1, sweet 1", "", "additives: numbers", "flour [wheat], emulsifier: E\u00a0322 [soybeans], sweetener: E\u00a0955", "", fic + " Annex VII C"},
		{"E number in the United States", "us", "flour 98, lecithin 1, sweet 1", "", "additives: numbers", "flour [wheat], | ≤ 1 %: emulsifier: lecithins [soybeans], sweetener: sucralose", "", cfr + " 101.4(a)(1): common or usual names"},
		{"names of additives", "eu", "flour 98, lecithin 1, sweet 1", "", "", "flour [wheat], emulsifier: lecithins [soybeans], sweetener: sucralose", "", fic + " Annex VII C"},
		{"wheat glucose syrup", "eu", "sugar 60, syrup 40", "", "", "sugar, glucose syrup", "", fic + " Annex II 1(a)"},
		{"wheat glucose syrup in the United States", "us", "sugar 60, syrup 40", "", "", "sugar, glucose syrup [wheat]", "", "21 U.S.C. 343(w) has no such exception"},
		{"distillate of wheat", "eu", "sugar 60, brandy 40", "", "", "sugar, brandy", "", fic + " Annex II 1(d)"},
		{"rye in the United States", "us", "rye 60, sugar 40", "", "", "rye, sugar", "", "21 U.S.C. 321(qq) names wheat only"},
	} {
		k := pantry()
		k.product("food", c.make, c.off, c.keys)
		f, found := of(t, k, "food", c.in)
		if got := show(f); got != c.want {
			t.Errorf("%s (%s, %s):\n got %s\nwant %s", c.name, c.in, c.source, got, c.want)
		}
		if got := rules(found); got != c.found {
			t.Errorf("%s (%s): found %q, want %q\n%v", c.name, c.in, got, c.found, found.All())
		}
	}
}

// A formula that is declared by its name stands by its own weight, with its
// ingredients behind it: Regulation (EU) No 1169/2011, Annex VII Part E point 1.
func TestByPart(t *testing.T) {
	for _, c := range []struct{ name, keys, want, found string }{
		{"whole", "", "flour [wheat], sugar, eggs [eggs], butter [milk], icing sugar (sugar, starch)", ""},
		{"by part", "list: by-part", "pastry (flour [wheat], butter [milk], icing sugar (sugar, starch)), cream (sugar, eggs [eggs]), sugar", ""},
		{"quantity of a part", "list: by-part\npercent: [{of: cream, because: in-name}]", "pastry (flour [wheat], butter [milk], icing sugar (sugar, starch)), cream 45.0 % (sugar, eggs [eggs]), sugar", ""},
		{"quantity of a part that is opened", "percent: [{of: cream, because: in-name}]", "flour [wheat], sugar, eggs [eggs], butter [milk], icing sugar (sugar, starch)", "percent"},
		{"opened inside", "list: by-part\nopen: [icing]", "pastry (flour [wheat], butter [milk], sugar, starch), cream (sugar, eggs [eggs]), sugar", ""},
	} {
		k := pantry()
		k.formula("pastry", "flour 60, butter 30, icing 10", "")
		k.formula("cream", "sugar 30, eggs 20, water 10", "10 g")
		k.product("tart", "pastry 52, cream 45, sugar 3", "", c.keys)
		f, found := of(t, k, "tart", "eu")
		if got := show(f); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", c.name, got, c.want)
		}
		if got := rules(found); got != c.found {
			t.Errorf("%s: found %q, want %q", c.name, got, c.found)
		}
	}
}

// Foods without a list: Regulation (EU) No 1169/2011 Art. 19.
func TestNoList(t *testing.T) {
	for _, c := range []struct{ make, keys, contains, found string }{
		{"almonds 100", "list: none\nno-list: single-ingredient", "almonds", ""},
		{"almonds 60, salt 40", "list: none\nno-list: single-ingredient", "almonds", "no-list"},
		{"chips 100", "list: none\nno-list: single-ingredient", "soybeans", "no-list"},
		{"butter 100", "list: none\nno-list: cultured-dairy", "milk", ""},
		{"butter 100", "list: none", "milk", "no-list"},
	} {
		k := pantry()
		k.product("food", c.make, "", c.keys)
		f, found := of(t, k, "food", "eu")
		if got := strings.Join(f.Contains, " "); len(f.Lists) != 0 || got != c.contains || rules(found) != c.found {
			t.Errorf("%s, %s: %d lists, contains %q, found %q; want none, %q, %q", c.make, c.keys, len(f.Lists), got, rules(found), c.contains, c.found)
		}
	}
}

// An assortment is declared food by food, also through an assortment inside.
func TestAssortment(t *testing.T) {
	k := pantry()
	k.product("biscuit", "flour 8, butter 2", "")
	k.product("drop", "sugar 8, almonds 2", "")
	k.product("bag", "sugar 1", "")
	body := func(add string) string {
		return "name: {en: tin}\nversion: 1\nissued: 2026-01-01\nparts: [{stage: assemble, add: [" + add + "]}]\nkeep: {store: ambient, life: 70 days, date: best-before}\n" +
			"packs: [{id: tin, pieces: 1, net: 1 g, paper: a4-4, largest-face: 100 cm², nutrition: exempt-small-maker}]\n"
	}
	k["products/bag.yaml"] = body("{use: drop, pieces: 2}")
	k["products/tin.yaml"] = body("{use: biscuit, pieces: 3}, {use: bag, pieces: 1}, {use: drop, pieces: 1}")
	f, found := of(t, k, "tin", "eu")
	if got, want := show(f), "flour [wheat], butter [milk] / sugar, almonds [almonds]"; got != want || rules(found) != "" {
		t.Errorf("got %s (%s), want %s", got, rules(found), want)
	}
	if got, want := english(f.Lists[1].Title), "drop"; got != want {
		t.Errorf("title %q, want %q", got, want)
	}
	k.product("nibbles", "almonds 9", "", "list: none\nno-list: single-ingredient")
	k["products/tin.yaml"] = body("{use: biscuit, pieces: 3}, {use: nibbles, pieces: 2}")
	f, found = of(t, k, "tin", "eu")
	if got, want := show(f), "flour [wheat], butter [milk] / almonds [almonds]"; got != want || rules(found) != "" {
		t.Errorf("a food without a list among others: got %s (%s), want %s", got, rules(found), want)
	}
	k["products/tin.yaml"] = body("{use: biscuit, pieces: 3}, {use: sugar, take: 5 g}")
	if _, found = of(t, k, "tin", "eu"); rules(found) != "assortment" {
		t.Errorf("sugar among finished products: found %q, want assortment", rules(found))
	}
}
