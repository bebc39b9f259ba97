package shop_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/samples"
)

// asked loads the small shop with one ingredient more and writes the questions
// about it.
func asked(t *testing.T, market, ingredient string) string {
	t.Helper()
	in := small(t)
	edit{profile, "[eu]", "[" + market + "]"}.apply(t, in)
	in["ingredients/it.yaml"] = &fstest.MapFile{Data: []byte("bought-as: it\n" + ingredient)}
	var found diag.List
	s := shop.Load(in, &found)
	if i := s.Ingredients["it"]; i != nil {
		var out []string
		for _, q := range s.Questions(i) {
			out = append(out, fmt.Sprintf("%s %s", q.Words[0].Word, strings.Join(q.Any, "|")))
		}
		return strings.Join(out, ", ")
	}
	t.Fatal("not read")
	return ""
}

// What the names of an ingredient speak of is answered by what its
// specification says, at the depth at which the name stands.
func TestQuestions(t *testing.T) {
	for _, c := range []struct{ name, market, text, want string }{
		{"said", "eu", "name: {en: butter}\ncontains: [milk]\nmay-contain: []\n", ""},
		{"not said", "eu", "name: {en: butter}\ncontains: []\nmay-contain: []\n", "butter milk"},
		{"in each language", "eu", "name: {en: spread, fr: beurre, de: Aufstrich}\ncontains: []\nmay-contain: []\n", "beurre milk"},
		{"in a language without words", "eu", "name: {xx: butter}\ncontains: []\nmay-contain: []\n", ""},
		{"truly free", "eu", "name: {en: butter}\ncontains: []\nmay-contain: []\ntruly-free: {milk: of oats}\n", ""},
		{"truly free of one", "eu", "name: {en: pastry cream}\ncontains: []\nmay-contain: [wheat]\ntruly-free: {milk: of oats}\n", "pastry cream eggs"},
		{"one of two is enough", "eu", "name: {en: malt}\ncontains: [wheat]\nmay-contain: []\n", ""},
		{"one of two truly free is not", "eu", "name: {en: malt}\ncontains: []\nmay-contain: []\ntruly-free: {barley: of maize}\n", "malt barley|wheat"},
		{"any nut", "eu", "name: {en: praline}\ncontains: [pecan nuts]\nmay-contain: []\n", ""},
		{"no nut", "eu", "name: {en: praline}\ncontains: [peanuts]\nmay-contain: []\n", "praline nuts"},
		{"feared is an answer to a question", "eu", "name: {en: dark chocolate}\ncontains: [soybeans]\nmay-contain: [milk]\n", ""},
		{"an open compound answers", "eu", "name: {en: dark chocolate}\ncontains: []\nmay-contain: []\nmade-of: [{name: {en: cocoa mass}, share: 100 %}]\n", ""},
		{"but not what is implied", "eu", "name: {en: white chocolate}\ncontains: []\nmay-contain: []\nmade-of: [{name: {en: sugar}, share: 100 %}]\n", "white chocolate milk"},
		{"inside", "eu", "name: {en: filling}\ncontains: [milk]\nmay-contain: []\nmade-of: [{name: {en: cream}, share: 50 %}, {name: {en: whey}, share: 50 %, contains: [milk]}]\n", "cream milk"},
		{"deep inside", "eu", "name: {en: filling}\ncontains: []\nmay-contain: []\nmade-of: [{name: {en: base}, share: 100 %, made-of: [{name: {en: tahini}, share: 100 %}]}]\n", "tahini sesame"},
		{"said by a part", "eu", "name: {en: filling}\ncontains: [eggs]\nmay-contain: []\nmade-of: [{name: {en: meringue}, share: 100 %, made-of: [{name: {en: egg white}, share: 50 %, contains: [eggs]}, {name: {en: sugar}, share: 50 %}]}]\n", ""},
		{"glucose syrup in the Union", "eu", "name: {en: glucose syrup}\ncontains: []\nmay-contain: []\n", ""},
		{"glucose syrup in the United States", "us", "name: {en: glucose syrup}\ncontains: []\nmay-contain: []\n", "glucose syrup wheat, glucose syrup barley"},
		{"an amount of sulphur dioxide answers", "eu", "sulphites: 8 mg/kg\nname: {en: raisins}\ncontains: []\nmay-contain: []\n", ""},
		{"no sulphur dioxide does not", "eu", "name: {en: raisins}\ncontains: []\nmay-contain: []\n", "raisins sulphites"},
	} {
		text := c.text
		if !strings.Contains(text, "sulphites:") {
			text += "sulphites: 0 mg/kg\n"
		}
		if got := asked(t, c.market, text); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

// The demo shop, in three languages, answers all that its names speak of.
func TestDemoAnswers(t *testing.T) {
	sh := load(t, samples.Demo())
	names := 0
	for _, id := range sh.IngredientIDs {
		names += len(sh.Ingredients[id].Name)
		for _, q := range sh.Questions(sh.Ingredients[id]) {
			t.Errorf("%s: %+v", id, q)
		}
	}
	if names < 100 {
		t.Errorf("only %d names", names)
	}
}
