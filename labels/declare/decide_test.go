package declare_test

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/unit"
)

// Percentages. The rounding is a house rule: no rule was found in the law.
func TestQuantities(t *testing.T) {
	for _, c := range []struct {
		name, in, make, off, keys, want, found, source string
	}{
		{"butter biscuits", "eu", "flour 100, sugar 35, butter 50, eggs 10", "26 g", "percent: [{of: butter, because: in-name}]",
			"flour [wheat], butter 30.0 % [milk], sugar, eggs [eggs]", "", "published guidance in the United Kingdom (from memory): 50/169 = 29.6 %, which the house rule prints as 30 %"},
		{"cured sausage", "eu", "pork 112, salt 3", "15 g", "percent: [{of: pork, because: in-name}]",
			"pork 112 g/100 g, salt", "", fic + " Annex VIII 4(a): 112 g of pork for 100 g"},
		{"cake without loss", "eu", "flour 700, fruit 300", "", "percent: [{of: fruit, because: in-name}]",
			"flour [wheat], fruit 30.0 %", "", fic + " Annex VIII 3(a)"},
		{"two pass 100 % together", "eu", "butter 250, almonds 260, flour 100", "110 g", "percent: [{of: butter, because: in-name}, {of: almonds, because: in-name}]",
			"almonds 52 g/100 g [almonds], butter 50 g/100 g [milk], flour [wheat]", "", fic + " Annex VIII 4(a): 50 % and 52 % come to 102 %"},
		{"exactly 100 % together", "eu", "butter 250, almonds 250, flour 10", "10 g", "percent: [{of: butter, because: in-name}, {of: almonds, because: in-name}]",
			"almonds 50.0 % [almonds], butter 50.0 % [milk], flour [wheat]", "", fic + " Annex VIII 4(a): exceeds 100 %"},
		{"rum, measured", "eu", "flour 394, rum 20 {left: 6 g}", "14 g", "percent: [{of: rum, because: in-name}]",
			"flour [wheat], rum 1.5 %", "", fic + " Annex VIII 4(b), A 1: 6/400"},
		{"added water", "eu", "flour 500, water 320, butter 100, salt 10, yeast 20", "120 g", "percent: [{of: water, because: emphasised}]",
			"flour [wheat], water 24.0 %, butter [milk], yeast, salt", "", fic + " Annex VIII 4(b): 24.1 %, which the house rule prints as 24 %"},
		{"exempt", "eu", "flour 99, cinnamon 1", "", "percent: [{of: cinnamon, exempt: flavouring}]",
			"flour [wheat], cinnamon", "", fic + " Annex VIII 1(a)(ii)"},
		{"below 10 %", "eu", "flour 952, fruit 48", "", "percent: [{of: fruit, because: in-name}]",
			"flour [wheat], fruit 4.8 %", "", "house rule: one decimal below 10 %"},
		{"twins count together", "eu", "flour 88, ground-hazelnuts 7, whole-hazelnuts 5", "", "same-line: same-name\npercent: [{of: whole-hazelnuts, because: in-name}]",
			"flour [wheat], hazelnuts 12.0 % [hazelnuts]", "", fic + " Art. 22: the quantity of the ingredient"},
		{"varying", "eu", "flour 70, palm 20, rapeseed 10", "", "join: [{as: vegetable-oils, of: [palm, rapeseed], varying: yes}]\npercent: [{of: palm, because: emphasised}]",
			"flour [wheat], vegetable-oils varying (palm, rapeseed partly-hydrogenated)", "", fic + " Annex VIII 1(b)"},
		{"joined away", "eu", "flour 60, sugar 30, cane 10", "", "open: [chips]\npercent: [{of: cane, because: in-name}]",
			"flour [wheat], sugar, cane sugar 10.0 %", "open", "the opening is a mistake of the kitchen"},
		{"not in the United States", "us", "flour 70, fruit 30", "", "percent: [{of: fruit, because: in-name}]",
			"flour [wheat], fruit", "", cfr + " asks for no percentage here"},
	} {
		k := pantry()
		k.product("food", c.make, c.off, c.keys)
		f, found := of(t, k, "food", c.in)
		if got := show(f); got != c.want || rules(found) != c.found {
			t.Errorf("%s (%s):\n got %s (%s)\nwant %s (%s)", c.name, c.source, got, rules(found), c.want, c.found)
		}
	}
	k := pantry()
	k.product("biscuit", "flour 100, sugar 35, butter 50, eggs 10", "26 g", "percent: [{of: butter, because: in-name}]")
	f, _ := of(t, k, "biscuit", "eu")
	if got := f.Lists[0].Parts[1].Quid.Share().String(); got != "29.5857988 %" {
		t.Errorf("butter biscuits: exactly %s, want 50/169 = 29.5857988 %%", got)
	}
}

// Sulphites: the limit is on the finished food. 10 mg/kg exactly is not "more
// than", and is "10 ppm or more" elsewhere.
func TestSulphites(t *testing.T) {
	for _, c := range []struct {
		in, make, off string
		want          bool
		source        string
	}{
		{"eu", "flour 88, apricots 12", "", true, fic + " Annex II 12: 96 mg/kg"},
		{"eu", "flour 88, apricots-low 12", "", false, fic + " Annex II 12: 7.2 mg/kg"},
		{"eu", "flour 90, apricots-edge 10", "", false, fic + " Annex II 12: exactly 10 mg/kg"},
		{"eu", "flour 90, apricots-over 10", "", true, fic + " Annex II 12: 10.001 mg/kg"},
		{"eu", "flour 90, apricots-edge 10", "1 g", true, fic + " Annex II 12: baking concentrates to 10.1 mg/kg"},
		{"gb", "rye 90, apricots-edge 10", "", false, fic + " as assimilated"},
		{"us", "flour 90, apricots-edge 10", "", true, cfr + " 101.100(a)(4), 130.9(a): 10 ppm or more"},
		{"ca", "flour 90, apricots-edge 10", "", true, fdr + " B.01.010.3(1)(b)(iii)"},
		{"au", "flour 90, apricots-edge 10", "", true, fsc + " Standard 1.2.3: 10 mg/kg or more"},
		{"codex", "flour 90, apricots-edge 10", "", true, codex + " 4.2.1.4 (from memory)"},
		{"us", "flour 88, apricots-low 12", "", false, cfr + " 101.100(a)(4)"},
	} {
		k := pantry()
		k.product("food", c.make, c.off)
		f, found := of(t, k, "food", c.in)
		if got := strings.Contains(show(f), "[sulphites]"); got != c.want || rules(found) != "" {
			t.Errorf("%s %s off %s: declared %v (%s), want %v by %s; %v", c.in, c.make, c.off, got, show(f), c.want, c.source, found.All())
		}
	}
}

// In an assortment each food is held against the limit by itself.
func TestSulphitesOfAnAssortment(t *testing.T) {
	k := pantry()
	k.product("fruity", "flour 88, apricots-edge 12", "")
	k.product("plain", "flour 95, apricots-edge 5", "")
	k["products/tin.yaml"] = "name: {en: tin}\nversion: 1\nissued: 2026-01-01\nparts: [{stage: assemble, add: [{use: fruity, pieces: 1}, {use: plain, pieces: 1}]}]\n" +
		"keep: {store: ambient, life: 70 days, date: best-before}\npacks: [{id: tin, pieces: 1, net: 1 g, paper: a4-4, largest-face: 100 cm², nutrition: exempt-small-maker}]\n"
	f, _ := of(t, k, "tin", "eu")
	if got, want := show(f), "flour [wheat], apricots-edge [sulphites] / flour [wheat], apricots-edge"; got != want {
		t.Errorf("12 and 5 mg/kg, 8.5 together:\n got %s\nwant %s", got, want)
	}
	if got := strings.Join(f.Contains, " "); got != "wheat sulphites" {
		t.Errorf("contains %s", got)
	}
}

// What the food contains, and the precautionary line as a decision.
func TestCrossContact(t *testing.T) {
	const ra = "cross-contact-assessment: RA-1"
	for _, c := range []struct{ name, in, make, keys, shop, contains, may, found string }{
		{"none", "eu", "sugar 1", "", "", "", "", ""},
		{"supplier", "eu", "nutty 1", ra, "", "", "rye almonds", ""},
		{"without assessment", "eu", "nutty 1", "", "", "", "rye almonds", "may-contain"},
		{"contained anyway", "eu", "nutty 1, almonds 1", ra, "", "almonds", "rye", ""},
		{"ruled out", "eu", "nutty 1", ra + "\ncross-contact-ruled-out: [{allergen: rye, from: [nutty]}]", "", "", "almonds", ""},
		{"all ruled out", "eu", "nutty 1", ra + "\ncross-contact-ruled-out: [{allergen: rye, from: [nutty]}, {allergen: almonds, from: [nutty]}]", "", "", "", ""},
		{"ruled out by nobody", "eu", "nutty 1", "cross-contact-ruled-out: [{allergen: rye, from: [nutty]}, {allergen: almonds, from: [nutty]}]", "", "", "", "may-contain"},
		{"ruled out but contained", "eu", "nutty 1, almonds 1", ra + "\ncross-contact-ruled-out: [{allergen: almonds, from: [nutty]}]", "", "almonds", "rye", "may-contain"},
		{"ruled out though never said", "eu", "nutty 1", ra + "\ncross-contact-ruled-out: [{allergen: fish, from: [nutty]}]", "", "", "rye almonds", "may-contain?"},
		{"another supplier begins to fear it", "eu", "nutty 1, nutty-too 1", ra + "\ncross-contact-ruled-out: [{allergen: rye, from: [nutty]}, {allergen: almonds, from: [nutty]}]", "", "", "rye almonds", ""},
		{"both suppliers", "eu", "nutty 1, nutty-too 1", ra + "\ncross-contact-ruled-out: [{allergen: rye, from: [nutty, nutty-too]}, {allergen: almonds, from: [nutty]}]", "", "", "almonds", ""},
		{"the kitchen ruled out, not the supplier", "eu", "nutty 1", ra + "\ncross-contact-ruled-out: [{allergen: rye, from: [site]}]", "cross-contact: [rye, milk]", "", "rye milk almonds", ""},
		{"the kitchen ruled out", "eu", "sugar 1", ra + "\ncross-contact-ruled-out: [{allergen: milk, from: [site]}]", "cross-contact: [milk, wheat]", "", "wheat", ""},
		{"kitchen", "eu", "sugar 1", ra, "cross-contact: [milk, wheat]", "", "wheat milk", ""},
		{"kitchen and supplier", "eu", "nutty 1, milk 1", ra, "cross-contact: [milk, wheat]", "milk", "wheat rye almonds", ""},
		{"what may take its place", "eu", "flour 99, sun-oil 1 {or: mustardy}", ra, "", "wheat", "mustard", ""},
		{"not in this market's table", "us", "nutty 1", ra, "", "", "almonds", ""},
		{"not in this market's table either", "us", "rye 1, eggs 1", "", "", "eggs", "", ""},
		{"order of the annex", "eu", "almonds 1, milk 1, eggs 1, flour 1", "", "", "wheat eggs milk almonds", "", ""},
	} {
		k := pantry()
		k["shop.yaml"] += c.shop + "\n"
		k.product("food", c.make, "", c.keys)
		f, found := of(t, k, "food", c.in)
		contains, may := strings.Join(f.Contains, " "), strings.Join(f.May, " ")
		if contains != c.contains || may != c.may || rules(found) != c.found {
			t.Errorf("%s: contains %q, may contain %q, found %q; want %q, %q, %q", c.name, contains, may, rules(found), c.contains, c.may, c.found)
		}
	}
}

// Nothing is printed of what was ruled out, so the digest counts it: a sheet
// that begins or ceases to fear it wants a new approval.
func TestRuledOutCounts(t *testing.T) {
	digest := func(make, keys string) string {
		k := pantry()
		k.product("food", make, "", "cross-contact-assessment: RA-1\n"+keys)
		f, found := of(t, k, "food", "eu")
		if found.Errors() > 0 {
			t.Fatal(found.All())
		}
		return f.Digest()
	}
	const one = "cross-contact-ruled-out: [{allergen: almonds, from: [nutty]}, {allergen: rye, from: [nutty]}]"
	const same = "cross-contact-ruled-out: [{allergen: rye, from: [nutty]}, {allergen: almonds, from: [nutty]}]"
	const both = "cross-contact-ruled-out: [{allergen: almonds, from: [nutty-too, nutty]}, {allergen: rye, from: [nutty, nutty-too]}]"
	if digest("nutty 1", one) != digest("nutty 1", same) {
		t.Error("the order in which they are written counts")
	}
	if digest("nutty 1, nutty-too 1", one) == digest("nutty 1, nutty-too 1", both) || digest("sugar 1, nutty-too 1", "") == digest("sugar 1, nutty-too 1", strings.ReplaceAll(one, "[nutty]", "[nutty-too]")) {
		t.Error("whose cross-contact was ruled out does not count")
	}
}

// What a name speaks of and is said to be truly absent counts, with its reason,
// and stands among the decisions and the cautions. Cheese of oats is cautioned
// besides: the word is for milk products (1308/2013 Annex VII Part III).
func TestTrulyFree(t *testing.T) {
	digest := func(keys string) (string, string) {
		k := pantry()
		k.ingredient("spread", "name: {en: oat cream cheese}"+keys)
		k.product("food", "spread 1", "", "")
		f, found := of(t, k, "food", "eu")
		if len(f.Absent) != 1 || f.Absent[0].Of != "spread" || f.Absent[0].Allergen != "milk" {
			t.Errorf("%+v", f.Absent)
		}
		return f.Digest(), rules(found)
	}
	a, found := digest("; contains: [oats]; truly-free: {milk: made of oats}")
	b, _ := digest("; contains: [oats]; truly-free: {milk: 'made of oats, letter of 2026-01-12'}")
	if a == b || found != "reserved? truly-free?" {
		t.Errorf("%s and %s, found %q", a, b, found)
	}
}

// A food with an ingredient that nobody has specified is not labelled; tap
// water is specified by the tap.
func TestSpecified(t *testing.T) {
	for _, c := range []struct{ body, found string }{
		{"", ""},
		{"; spec: ", "no-spec"},
		{"; spec: ; added-water: yes", ""},
	} {
		k := pantry()
		k.ingredient("it", "name: {en: it}"+c.body)
		for id, file := range k {
			k[id] = strings.ReplaceAll(file, "spec:\n", "")
		}
		k.product("food", "sugar 5, it 5", "1 g", "")
		_, found := of(t, k, "food", "eu")
		if rules(found) != c.found {
			t.Errorf("%q: found %q, want %q", c.body, rules(found), c.found)
		}
	}
}

// A card shows what some market of the shop wants declared, and needs no label
// that could be printed: that a percentage is missing keeps no card back.
func TestOnCard(t *testing.T) {
	for _, c := range []struct{ markets, make, want string }{
		{"eu", "sugar 60, spice-mix 1, flour 1", "wheat celery"}, // Reg. (EU) 1169/2011 Annex II
		{"us", "sugar 60, spice-mix 1, flour 1", "wheat"},        // 21 U.S.C. 321(qq) has no celery
		{"us, eu", "sugar 60, spice-mix 1, flour 1", "wheat celery"},
		{"eu", "sugar 60, syrup 1", ""},
		{"eu, us", "sugar 60, syrup 1", "wheat"}, // excepted in the Union only
		{"eu", "sugar 60, crunch 1", "wheat"},
		{"eu", "flour 99, apricots-over 10", "wheat"}, // 9.2 mg/kg
		{"eu", "flour 89, apricots-over 11", "wheat sulphites"},
	} {
		k := pantry()
		delete(k, "ingredients/drops.yaml") // written for the Union
		delete(k, "ingredients/fondant.yaml")
		k["shop.yaml"] = strings.Replace(k["shop.yaml"], "[eu]", "["+c.markets+"]", 1)
		k.product("food", c.make, "", "cross-contact-assessment: RA-1")
		sh := k.load(t)
		if got := strings.Join(declare.OnCard(sh, sh.Products["food"]), " "); got != c.want {
			t.Errorf("%s of %s: %q, want %q", c.make, c.markets, got, c.want)
		}
	}
	k := pantry()
	k.product("one", "flour 1", "")
	k.product("two", "milk 1", "")
	k["products/tin.yaml"] = "name: {en: tin}\nversion: 1\nissued: 2026-01-01\nparts:\n  - {stage: assemble, add: [{use: one, pieces: 1}, {use: two, pieces: 1}]}\n" +
		"keep: {store: ambient, life: 70 days, date: best-before}\npacks: [{id: tin, pieces: 1, net: 1 g, paper: a4-4, largest-face: 100 cm², nutrition: exempt-small-maker}]\n"
	sh := k.load(t)
	if got := strings.Join(declare.OnCard(sh, sh.Products["tin"]), " "); got != "wheat milk" {
		t.Errorf("the tin: %q", got)
	}
	if got := strings.Join(declare.Declared(sh, sh.Ingredients["oiled-hazelnuts"]), " "); got != "peanuts hazelnuts" {
		t.Errorf("hazelnuts in peanut oil: %q", got)
	}
}

// A claim that anything contradicts is refused: Regulation (EU) No 1169/2011
// Art. 7(1), fair information.
func TestFreeFrom(t *testing.T) {
	const ra = "cross-contact-assessment: RA-1\n"
	for _, c := range []struct{ make, keys, found string }{
		{"sugar 1", ra + "free-from: [milk]", ""},
		{"sugar 1", "free-from: [milk]", "free-from"},
		{"butter 1", ra + "free-from: [milk]", "free-from"},
		{"butter 1", ra + "free-from: [lactose]", "free-from"},
		{"rye 1", ra + "free-from: [gluten]", "free-from"},
		{"nutty 1", ra + "free-from: [gluten]", "free-from"},
		{"nutty 1", ra + "cross-contact-ruled-out: [{allergen: rye, from: [nutty]}]\nfree-from: [gluten]", ""},
		{"nutty 1", ra + "free-from: [nuts]", "free-from"},
		{"sugar 99, apricots-low 1", ra + "free-from: [sulphites]", "free-from"},
		{"sugar 60, syrup 40", ra + "free-from: [gluten]", "free-from"},
		{"flour 98, chips 1", ra + "free-from: [soybeans]", "free-from"},
		{"flour 1", ra + "free-from: [palm oil]", "free-from"},
	} {
		k := pantry()
		k.product("food", c.make, "", c.keys)
		if _, found := of(t, k, "food", "eu"); rules(found) != c.found {
			t.Errorf("%s, %q: found %q, want %q", c.make, c.keys, rules(found), c.found)
		}
	}
}

// Dates of food made on 10 March 2026: Regulation (EU) No 1169/2011 Annex X.
func TestDates(t *testing.T) {
	for _, c := range []struct{ name, in, keep, want, found string }{
		{"21 days", "eu", "store: ambient, life: 21 days, date: best-before", "best-before day-month-year 2026-03-31", ""},
		{"6 months by the month", "eu", "store: ambient, life: 6 months, date: best-before, show: month", "best-before month-year 2026-08-31 end", ""},
		{"6 months by the day", "eu", "store: ambient, life: 6 months, date: best-before", "best-before day-month-year 2026-09-10", ""},
		{"24 months by the year", "eu", "store: ambient, life: 24 months, date: best-before, show: year", "best-before year 2027-12-31 end", ""},
		{"24 months by the month", "eu", "store: ambient, life: 24 months, date: best-before, show: month", "best-before month-year 2028-02-29 end", ""},
		{"24 months by the day", "eu", "store: ambient, life: 24 months, date: best-before, show: day", "best-before day-month-year 2028-03-10", ""},
		{"3 months and a day by the month", "eu", "store: ambient, life: 93 days, date: best-before, show: month", "best-before month-year 2026-05-31 end", ""},
		{"exactly 3 months by the month", "eu", "store: ambient, life: 3 months, date: best-before, show: month", "best-before day-month-year 2026-06-10", "date-form"},
		{"exactly 18 months by the year", "eu", "store: ambient, life: 18 months, date: best-before, show: year", "best-before day-month-year 2027-09-10", "date-form"},
		{"cream cake", "eu", "store: chilled, temp: ≤ 5 °C, life: 3 days, date: use-by", "use-by day-month-year 2026-03-13", ""},
		{"use by a month", "eu", "store: chilled, temp: ≤ 5 °C, life: 3 days, date: use-by, show: month", "use-by day-month-year 2026-03-13", "date-form"},
		{"croissant of the day", "eu", "store: ambient, life: 1 day, date: none", "none day-month-year 2026-03-11", ""},
		{"two days without a date", "eu", "store: ambient, life: 2 days, date: none", "none day-month-year 2026-03-12", "no-date"},
		{"chilled without a date", "eu", "store: chilled, temp: ≤ 5 °C, life: 1 day, date: none", "none day-month-year 2026-03-11", "no-date"},
		{"United States", "us", "store: ambient, life: 70 days, date: none", "none day-month-year 2026-05-19", ""},
		{"Canada, 90 days", "ca", "store: ambient, life: 90 days, date: none", "none day-month-year 2026-06-08", "no-date"},
		{"Canada, 91 days", "ca", "store: ambient, life: 91 days, date: none", "none day-month-year 2026-06-09", ""},
		{"Australia, two years", "au", "store: ambient, life: 24 months, date: none", "none day-month-year 2028-03-10", ""},
	} {
		k := pantry()
		k.product("food", "flour 1", "", "keep: {"+c.keep+"}")
		f, found := of(t, k, "food", c.in)
		d := f.Date
		got := fmt.Sprintf("%s %s %s", d.Kind, d.Shown.Form, d.Shown.Last)
		if d.Shown.End {
			got += " end"
		}
		if got != c.want || rules(found) != c.found {
			t.Errorf("%s: %s, found %q; want %s, %q", c.name, got, rules(found), c.want, c.found)
		}
	}
}

// Directive 2011/91/EU Art. 4 and 5.
func TestLot(t *testing.T) {
	for _, c := range []struct {
		in, keep, code, mark string
		must                 bool
	}{
		{"eu", "life: 21 days, date: best-before", "26069", "L26069", false},
		{"eu", "life: 6 months, date: best-before, show: month", "L26069", "L26069", true},
		{"eu", "life: 1 day, date: none", "26069", "L26069", true},
		{"ca", "life: 21 days, date: best-before", "26069", "26069", true},
		{"codex", "life: 21 days, date: best-before", "26069", "26069", true},
	} {
		k := pantry()
		k.product("food", "flour 1", "", "keep: {store: ambient, "+c.keep+"}")
		f, _ := of(t, k, "food", c.in)
		if mark, must := f.Lot(c.code); mark != c.mark || must != c.must {
			t.Errorf("%s, %s: %s, %v; want %s, %v", c.in, c.keep, mark, must, c.mark, c.must)
		}
	}
}

// What is said beside the list.
func TestStatements(t *testing.T) {
	const gas = "packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: exempt-small-maker, protective-atmosphere: yes}]"
	for _, c := range []struct{ make, keys, want, found, source string }{
		{"flour 1", "", "", "", ""},
		{"flour 1", gas, "atmosphere!", "", fic + " Annex III 1.1"},
		{"flour 99, sweet 1", "", "sweetener!", "", fic + " Annex III 2.1"},
		{"sugared 99, sweet 1", "", "sugar-and-sweetener!", "", fic + " Annex III 2.2"},
		{"flour 90, polyol 10", "", "", "", fic + " Annex III 2.4: 10 % is not more than 10 %"},
		{"flour 899, polyol 101", "", "laxative!", "", fic + " Annex III 2.4"},
		{"flour 95, root 5", "", "liquorice!", "", fic + " Annex III 3.1: 100 mg/kg or more"},
		{"flour 951, root 49", "", "", "", fic + " Annex III 3.1: 98 mg/kg"},
		{"flour 95, strong-root 5", "", "liquorice-strong!", "", fic + " Annex III 3.2: 4 g/kg or more"},
		{"flour 999, boost 1", "", "caffeine! 0.1 %", "", fic + " Annex III 4.2"},
		{"flour 1", "sold-thawed: yes", "defrosted!", "", fic + " Annex VI A 2"},
		{"chips 1", "sold-as: chocolate\ncocoa-solids: 64 %", "cocoa! 64 %", "", "Directive 2000/36/EC Art. 3(3) (from memory)"},
		{"chips 1", "sold-as: chocolate\ncocoa-solids: 34 %", "cocoa! 34 %", "cocoa", "Directive 2000/36/EC Annex I A 3: 35 % (from memory)"},
		{"chips 1", "sold-as: family-milk-chocolate\ncocoa-solids: 20 %", "cocoa! 20 %", "", "Directive 2000/36/EC Annex I A 5: 20 %"},
		{"chips 1", "sold-as: chocolate", "", "cocoa", "Directive 2000/36/EC Art. 3(3)"},
		{"chips 1", "sold-as: white-chocolate", "", "", "Directive 2000/36/EC Annex I A 6: no cocoa solids declared"},
		{"cheap 1", "sold-as: chocolate\ncocoa-solids: 40 %", "vegetable-fats! cocoa! 40 %", "", "Directive 2000/36/EC Art. 2(2)"},
		{"cheap 1", "", "", "", "Directive 2000/36/EC is for chocolate products"},
		{"honey 100", "sold-as: honey\norigin: {en: Morvania}", "origin", "", "Directive 2001/110/EC Art. 2(4)"},
		{"honey 100", "sold-as: honey", "", "origin", "Directive 2001/110/EC Art. 2(4)"},
		{"flour 49, honey 51", "origin: {en: Ossel}", "origin origin-of!", "", fic + " Art. 26(3)"},
		{"flour 49, honey 51", "origin: {en: Morvania}", "origin", "", fic + " Art. 26(3): the same"},
		{"flour 51, honey 49", "origin: {en: Ossel}", "origin", "origin", fic + " Art. 26(3): where is the flour from?"},
		{"flour 50, honey 50", "origin: {en: Ossel}", "origin", "", "(EU) 2018/775 (from memory): more than 50 %"},
		{"flour 99, spirit 1", "", "alcohol", "", "good practice, no law read"},
	} {
		k := pantry()
		k.ingredient("sugared", "flags: [sugar]")
		k.ingredient("cheap", "flags: [vegetable-fat-in-chocolate]")
		k.ingredient("spirit", "per-100-g: {source: none, alcohol: 33 g}")
		k.product("food", c.make, "", c.keys)
		f, found := of(t, k, "food", "eu")
		var got []string
		for _, s := range f.Statements {
			text := s.Key
			if s.Law {
				text += "!"
			}
			if s.Key == "cocoa" || s.Key == "caffeine" {
				text += " " + s.Share.String()
			}
			got = append(got, text)
		}
		if g := strings.Join(got, " "); g != c.want || rules(found) != c.found {
			t.Errorf("%s, %s: %s (%s); want %s (%s) by %s", c.make, c.keys, g, rules(found), c.want, c.found, c.source)
		}
	}
}

// Energy from the factors of Annex XIV, kJ and kcal each for itself, and the
// rounding of the guidance of December 2012.
func TestNutrition(t *testing.T) {
	declared := "packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: declared}]"
	const rest = "saturates: 0 g, sugars: 30 g, salt: 0.994 g"
	for _, c := range []struct {
		name, in, per100, off string
		want, found           string
		source                string
	}{
		{"factors", "eu", "carbohydrate: 55 g, protein: 6 g, fat: 25 g, fibre: 3 g, " + rest, "",
			"1986 kJ, 475 kcal, 25 g, 0 g, 55 g, 30 g, 6.0 g, 0.99 g", "", fic + " Annex XIV: 475 × 4.184 would be 1987"},
		{"polyols", "eu", "carbohydrate: 20 g, polyols: 10 g, protein: 0 g, fat: 0 g, fibre: 0 g, saturates: 0 g, sugars: 0 g, salt: 0 g", "",
			"270 kJ, 64 kcal, 0 g, 0 g, 20 g, 0 g, 0 g, 0 g", "", fic + " Annex XIV: 10 × 17 + 10 × 10, 10 × 4 + 10 × 2.4"},
		{"alcohol and acids", "eu", "carbohydrate: 0 g, protein: 0 g, fat: 0 g, fibre: 0 g, saturates: 0 g, sugars: 0 g, salt: 0 g, alcohol: 10 g, organic-acids: 10 g", "",
			"420 kJ, 100 kcal, 0 g, 0 g, 0 g, 0 g, 0 g, 0 g", "", fic + " Annex XIV: 29 and 13 kJ, 7 and 3 kcal"},
		{"after the oven", "eu", "carbohydrate: 40 g, protein: 4 g, fat: 8 g, fibre: 0 g, saturates: 0.08 g, sugars: 4 g, salt: 0.01 g", "20 g",
			"1305 kJ, 310 kcal, 10 g, < 0.1 g, 50 g, 5.0 g, 5.0 g, < 0.01 g", "", fic + " Art. 31(3): the food as sold; (40 × 17 + 4 × 17 + 8 × 37)/0.8"},
		{"rounding", "eu", "carbohydrate: 10.5 g, protein: 0.51 g, fat: 9.96 g, fibre: 0 g, saturates: 0.14 g, sugars: 0.5 g, salt: 1.04 g", "",
			"556 kJ, 134 kcal, 10 g, 0.1 g, 11 g, < 0.5 g, 0.5 g, 1.0 g", "", "guidance of December 2012, section 6"},
		{"missing", "eu", "carbohydrate: 10 g, protein: 1 g, fat: 1 g, saturates: 1 g, sugars: 1 g, salt: 1 g", "",
			"224 kJ, 53 kcal, 1.0 g, 1.0 g, 10 g, 1.0 g, 1.0 g, 1.0 g", "composition", "unknown fibre is no zero"},
		{"United States", "us", "carbohydrate: 10 g, protein: 1 g, fat: 1 g, fibre: 0 g, saturates: 0 g, sugars: 3 g, salt: 0 g", "",
			"", "nutrition-portion", cfr + " 101.9(b): per serving"},
		{"Codex", "codex", "carbohydrate: 10 g, protein: 1 g, fat: 1 g, fibre: 0 g, saturates: 0 g, sugars: 3 g, salt: 0 g", "",
			"", "nutrition", "CXG 2-1985 sets no rounding, so nothing is printed"},
	} {
		k := pantry()
		k.ingredient("food-stuff", "per-100-g: {source: test, "+c.per100+"}")
		k.product("food", "food-stuff 100", c.off, declared)
		f, found := of(t, k, "food", c.in)
		var got []string
		if f.Nutrition != nil {
			for _, r := range f.Nutrition.Rows {
				got = append(got, figure(r.Shown))
			}
		}
		if g := strings.Join(got, ", "); g != c.want || errorsOf(rules(found)) != c.found {
			t.Errorf("%s (%s):\n got %s (%s)\nwant %s (%s)", c.name, c.source, g, rules(found), c.want, c.found)
		}
	}
	k := pantry()
	k.product("food", "flour 100", "", declared)
	if _, found := of(t, k, "food", "eu"); !strings.Contains(rules(found), "composition") {
		t.Errorf("flour without a composition: found %q", rules(found))
	}
}

// errorsOf leaves out the warnings.
func errorsOf(rules string) string {
	var out []string
	for _, r := range strings.Fields(rules) {
		if !strings.HasSuffix(r, "?") {
			out = append(out, r)
		}
	}
	return strings.Join(out, " ")
}

// figure writes a rounded figure in plain text.
func figure(r market.Rounded) string {
	less := ""
	if r.Less {
		less = "< "
	}
	if r.Decimals == 0 || r.N == 0 {
		return fmt.Sprintf("%s%d %s", less, r.N, r.Unit)
	}
	scale := int64(1)
	for range r.Decimals {
		scale *= 10
	}
	return fmt.Sprintf("%s%d.%0*d %s", less, r.N/scale, r.Decimals, r.N%scale, r.Unit)
}

// Food packed where it is sold bears no percentages (food.gov.uk).
func TestPackedOnThePremises(t *testing.T) {
	k := pantry()
	k.product("food", "rye 70, fruit 30", "", "percent: [{of: fruit, because: in-name}]",
		"packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: exempt-small-maker, sale: direct}]")
	f, found := of(t, k, "food", "gb")
	if got, want := show(f), "rye [rye], fruit"; got != want || rules(found) != "" {
		t.Errorf("got %s (%s), want %s", got, rules(found), want)
	}
}

// Of what was left out and why there is a record.
func TestDecisions(t *testing.T) {
	k := pantry()
	k.product("food", "flour 500, water 320, butter 100, salt 10, chips 5", "315 g", "percent: [{of: butter, because: in-name}]")
	f, _ := of(t, k, "food", "eu")
	var got []string
	for _, d := range f.Decisions {
		got = append(got, string(d.Rule)+" "+d.Part)
		if !d.Pos.Known() {
			t.Errorf("%s of %s has no place", d.Rule, d.Part)
		}
	}
	want := "sulphites food; water-left-out water; inner-list-relieved chips; quid butter; nutrition-left-out food"
	if g := strings.Join(got, "; "); g != want {
		t.Errorf("decisions\n got %s\nwant %s", g, want)
	}
}

// Nothing is left: no list, and no division by nothing.
func TestNothingLeft(t *testing.T) {
	k := pantry()
	k.product("food", "flour 1", "")
	sh := k.load(t)
	p := sh.Products["food"]
	p.Parts[0].Add[0].Take.V = 0
	for _, m := range market.All() {
		f, found := facts(sh, p, m)
		if f.Lists != nil || rules(found) != "mass" {
			t.Errorf("%s: %v, found %q", m.Code, f.Lists, rules(found))
		}
	}
}

func ExampleOf() {
	k := pantry()
	k.product("brioche", "flour 500, water 100, butter 250, eggs 200, salt 10", "120 g")
	sh := k.load(new(testing.T))
	p := sh.Products["brioche"]
	eu, _ := market.Get("eu")
	f, _ := facts(sh, p, eu)
	for _, part := range f.Lists[0].Parts {
		fmt.Println(part.Ref, part.Mass.In(f.Finished).Percent() > 5, part.Allergens)
	}
	// Output:
	// flour true [wheat]
	// butter true [milk]
	// eggs true [eggs]
	// salt false []
}

func TestQuantityShare(t *testing.T) {
	q := declare.Quantity{Used: 50 * unit.Gram, Of: 169 * unit.Gram}
	if got := q.Share(); got != unit.Share(295857988) {
		t.Errorf("50/169 = %d billionths, want 295857988", got)
	}
}

// An unknown figure is not zero: whatever the declaration of the Union needs
// (Reg. (EU) 1169/2011 Art. 30(1), and fibre for the energy of Annex XIV) is
// missing until somebody knows it. What most food has none of may be left out.
func TestMissingFigures(t *testing.T) {
	keys := []string{"fat", "saturates", "carbohydrate", "sugars", "fibre", "protein", "salt", "polyols", "alcohol", "organic-acids"}
	for i, missing := range keys {
		var all []string
		for _, key := range keys {
			if key != missing {
				all = append(all, key+": 1 g")
			}
		}
		k := pantry()
		k.ingredient("it", "per-100-g: {source: none, "+strings.Join(all, ", ")+"}")
		k.product("food", "it 100", "", "packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: declared}]")
		want := "composition"
		if i > 6 {
			want = ""
		}
		if _, found := of(t, k, "food", "eu"); !strings.HasPrefix(rules(found), want) || want == "" && found.Len() > 0 {
			t.Errorf("without %s: found %q, want %q", missing, rules(found), want)
		}
	}
}

// Of a spirit that was measured in the finished food the alcohol that is left
// carries energy: 29 kJ and 7 kcal a gram (Reg. (EU) 1169/2011 Annex XIV). Its
// sugar does not evaporate.
func TestEnergyOfWhatIsLeft(t *testing.T) {
	for _, c := range []struct{ line, kj string }{
		{"spirit 20", "259"},             // 20 g with 6 g of alcohol and 5 g of carbohydrate: 174 + 85 kJ
		{"spirit 20 {left: 5 g}", "129"}, // 1.5 g of alcohol: 43.5 + 85 kJ
		{"spirit 20 {left: 0 %}", "85"},
	} {
		k := pantry()
		const rest = "fat: 0 g, saturates: 0 g, sugars: 0 g, fibre: 0 g, protein: 0 g, salt: 0 g"
		k.ingredient("spirit", "evaporates: yes; per-100-g: {source: none, carbohydrate: 25 g, alcohol: 30 g, "+rest+"}")
		k.ingredient("filler", "per-100-g: {source: none, carbohydrate: 0 g, "+rest+"}")
		k.product("food", "filler 80, "+c.line, "", "packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: declared}]")
		f, found := of(t, k, "food", "eu")
		if f.Nutrition == nil || found.Errors() > 0 {
			t.Fatal(found.All())
		}
		if got := fmt.Sprint(f.Nutrition.Rows[0].Shown.N); got != c.kj {
			t.Errorf("%s: %s kJ, want %s", c.line, got, c.kj)
		}
	}
}

// What bears no date shows no month of it either.
func TestNoDateNoForm(t *testing.T) {
	k := pantry()
	k.product("food", "sugar 1", "", "keep: {store: ambient, life: 1 day, date: none, show: month}")
	if _, found := of(t, k, "food", "eu"); strings.Contains(rules(found), "date-form") {
		t.Errorf("found %q", rules(found))
	}
}
