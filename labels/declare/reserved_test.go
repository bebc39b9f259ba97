package declare_test

import (
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
)

// larder adds to a kitchen what names of the law are judged by.
func larder() kitchen {
	k := pantry()
	for _, line := range strings.Split(strings.TrimSpace(chocolates), "\n") {
		id, body, _ := strings.Cut(line, ":")
		k.ingredient(strings.TrimSpace(id), body)
	}
	return k
}

const chocolates = `
dark: name: {en: dark chocolate, fr: chocolat noir, de: Zartbitterschokolade}; strength: {cocoa: "36 %", cocoa-butter: "19 %"}
lean: name: {en: cocoa drops}; strength: {cocoa: "36 %", cocoa-butter: "17 %"}
bitter: name: {en: dark chocolate}; strength: {cocoa: "55 %", cocoa-butter: "36 %"}
milky: name: {en: milk chocolate, fr: chocolat au lait, de: Milchschokolade}; contains: [milk]; strength: {cocoa: "30 %", cocoa-butter: "22 %", milk-solids: "16 %", milk-fat: "4 %"}
ivory: name: {en: white chocolate}; contains: [milk]; strength: {cocoa: "28 %", cocoa-butter: "28 %", milk-solids: "22 %", milk-fat: "6 %"}
coating: name: {en: white coating}; contains: [milk]; strength: {cocoa: "0 %", cocoa-butter: "0 %", milk-solids: "14 %", milk-fat: "0 %"}
mystery: name: {en: chocolate}
margarine: contains: []
salted: name: {en: butter, de: Butter, fr: beurre}; contains: [milk]; strength: {milk-fat: "82 %"}
soya-milk: name: {en: soya milk}; contains: [soybeans]
almond-milk: name: {en: almond milk}; contains: [almonds]
coconut-milk: name: {en: coconut milk}
strawberries: name: {en: strawberries}
blackcurrants: name: {en: blackcurrants}
vanillin: name: {en: vanillin}; class: flavouring
nougat: name: {en: hazelnut paste}; contains: [hazelnuts]
bee: name: {en: honey}
`

// Names against formulas. The verdicts are those of a reading of the acts; the
// composition of the sheets is ours.
func TestReserved(t *testing.T) {
	for _, c := range []struct{ name, in, day, make, keys, found, source string }{
		{"en: Dark chocolate", "eu", "", "dark 100", "sold-as: chocolate\ncocoa-solids: 36 %", "", "2000/36 A.3(a): 36, 19, 17"},
		{"en: Dark chocolate", "eu", "", "dark 100", "", "reserved", "2000/36 Art. 3(3): the cocoa solids are to be said"},
		{"en: Chocolate", "eu", "", "lean 100", "sold-as: chocolate\ncocoa-solids: 36 %", "reserved", "2000/36 A.3(a): cocoa butter 17 < 18"},
		{"en: Chocolate", "eu", "", "mystery 100", "sold-as: chocolate\ncocoa-solids: 36 %", "reserved reserved reserved", "nobody knows"},
		{"en: Chocolate with nuts", "eu", "", "dark 55, nougat 45", "sold-as: chocolate\ncocoa-solids: 36 %", "reserved", "Annex I B.1: 45 % of other matter"},
		{"en: Chocolate with nuts", "eu", "", "dark 60, nougat 40", "sold-as: chocolate\ncocoa-solids: 36 %", "", "Annex I B.1: 40 % at most"},
		{"en: Milk chocolate", "eu", "", "bitter 100", "sold-as: milk-chocolate\ncocoa-solids: 55 %", "reserved reserved reserved", "A.4(a): no milk"},
		{"en: Milk chocolate bar", "eu", "", "milky 100", "sold-as: milk-chocolate\ncocoa-solids: 30 %", "", "A.4(a)"},
		{"fr: Chocolat au lait aux noisettes", "eu", "", "bitter 100", "sold-as: milk-chocolate\ncocoa-solids: 55 %", "reserved reserved reserved", "A.4(a) in French"},
		{"de: Vollmilchschokolade", "eu", "", "bitter 100", "sold-as: milk-chocolate\ncocoa-solids: 55 %", "reserved reserved reserved", "A.4(a) in German"},
		{"en: White chocolate mousse", "eu", "", "ivory 30, milk 70", "percent: [{of: ivory, because: in-name}, {of: milk, exempt: not-decisive}]", "", "Art. 3(1): cannot be confused"},
		{"en: White chocolate mousse", "eu", "", "coating 30, milk 70", "percent: [{of: coating, exempt: not-decisive}]", "reserved", "A.6: cocoa butter 0 < 20"},
		{"en: Milk chocolate biscuit", "eu", "", "flour 70, bitter 30", "percent: [{of: bitter, because: in-name}]", "reserved", "nothing in it is milk chocolate"},
		{"en: Praline", "eu", "", "dark 2.9, nougat 9.1", "", "reserved", "A.10: 24.2 % < 25"},
		{"en: Praline", "eu", "", "dark 3, nougat 9", "", "", "A.10: 25 %"},
		{"en: Strawberry jam", "eu", "2026-06-13", "strawberries 380, sugar 620", "percent: [{of: strawberries, because: in-name}]", "", "2001/113 Annex I.I: 380 >= 350"},
		{"en: Strawberry jam", "eu", "2026-06-15", "strawberries 380, sugar 620", "percent: [{of: strawberries, because: in-name}]", "reserved", "as amended by 2024/1438: 380 < 450"},
		{"en: Blackcurrant extra jam", "eu", "2026-07-01", "blackcurrants 430, sugar 570", "percent: [{of: blackcurrants, because: in-name}]", "reserved?", "450, from memory"},
		{"en: Blackcurrant jam", "eu", "2026-07-01", "blackcurrants 430, sugar 570", "percent: [{of: blackcurrants, because: in-name}]", "", "350 of the group"},
		{"en: Strawberry jam", "gb", "2026-07-01", "strawberries 380, sugar 620", "percent: [{of: strawberries, because: in-name}]", "", "the acts of Great Britain did not change"},
		{"en: Strawberry jam", "us", "2026-07-01", "strawberries 380, sugar 620", "", "", "Union law does not hold there"},
		{"en: Butter croissant", "eu", "", "flour 78, salted 18, margarine 4", "percent: [{of: salted, because: in-name}]", "reserved?", "1308/2013 Annex VII III: something takes its place"},
		{"en: Butter croissant", "eu", "", "flour 76, salted 24", "percent: [{of: salted, because: in-name}]", "", "1308/2013 Annex VII III"},
		{"en: Butter cake", "eu", "", "flour 76, margarine 24", "", "reserved", "no butter"},
		{"en: Vegan butter cake", "eu", "", "flour 76, margarine 24", "", "reserved", "C-422/16: an explaining word does not heal it"},
		{"de: Butterkuchen", "eu", "", "flour 76, margarine 24", "", "reserved", "no butter"},
		{"en: Coconut milk flan", "eu", "", "coconut-milk 76, sugar 24", "percent: [{of: coconut-milk, because: in-name}]", "", "Decision 2010/791"},
		{"en: Almond milk flan", "eu", "", "almond-milk 76, sugar 24", "percent: [{of: almond-milk, because: in-name}]", "reserved? reserved", "not in Decision 2010/791"},
		{"en: Peanut butter biscuit", "eu", "", "flour 76, sugar 24", "", "", "Decision 2010/791"},
		{"en: Honey cake", "eu", "", "flour 76, sugar 24", "", "reserved", "1169/2011 Art. 7"},
		{"en: Honey cake", "eu", "", "flour 76, bee 24", "percent: [{of: bee, because: in-name}]", "", "1169/2011 Art. 7"},
		{"en: Vanilla cake", "eu", "", "flour 99, vanillin 1", "", "reserved?", "1169/2011 Art. 7"},
		{"en: Vanilla flavour cake", "eu", "", "flour 99, vanillin 1", "", "", "it says that it tastes of it"},
		{"en: Chocolate cake", "eu", "", "flour 76, sugar 24", "", "reserved", "2000/36 Art. 3(1)"},
		{"en: Chocolate flavoured cake", "eu", "", "flour 76, sugar 24", "", "", "it says that it tastes of it"},
	} {
		k := larder()
		lang, name, _ := strings.Cut(c.name, ": ")
		k.product("food", c.make, "", c.keys)
		k["products/food.yaml"] = strings.Replace(k["products/food.yaml"], "name: {en: food}", strings.Replace("name: {en: food, "+lang+": "+name+"}", "en: food, en:", "en:", 1), 1)
		sh := k.load(t)
		p := sh.Products["food"]
		m, _ := market.Get(c.in)
		if c.day == "" {
			c.day = "2026-03-10"
		}
		var found diag.List
		declare.Of(sh, p, &p.Packs[0], m, day(t, c.day), &found)
		if got := only(&found, "reserved"); got != c.found {
			t.Errorf("%s of %s, %s %s (%s): found %q, want %q\n%v", c.name, c.make, c.in, c.day, c.source, got, c.found, found.All())
		}
	}
}

// only are the findings of one rule, errors plain, cautions with a "?".
func only(found *diag.List, rule string) string {
	var out []string
	for _, r := range strings.Fields(rules(found)) {
		if strings.TrimSuffix(r, "?") == rule {
			out = append(out, r)
		}
	}
	return strings.Join(out, " ")
}
