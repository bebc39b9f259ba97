package words_test

import (
	"strings"
	"testing"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// What an additive calls for follows from its number, without a flag: the
// sentence of Regulation (EC) No 1333/2008 Annex V (read) behind the colours
// that it names, and those of Regulation (EU) No 1169/2011 Annex III, with the
// name of the food where they must accompany it (2.1, 2.2), and by how aspartame
// is named in the list (2.3).
func TestAdditives(t *testing.T) {
	colour := func(name, number string) *shop.Ingredient {
		i := bought(strings.ReplaceAll(name, " ", "-"))
		i.Name, i.Class, i.Number = named(func(string) string { return name }), at("colour"), at(number)
		return i
	}
	sweet := func(name, number string) *shop.Ingredient {
		i := colour(name, number)
		i.Class = at("sweetener")
		return i
	}
	sugar := bought("sugar")
	sugar.Per100 = &shop.Composition{AddedSugars: at(100 * unit.Gram)}
	hidden := bought("icing")
	hidden.MadeOf = []shop.Inner{{Pos: hidden.Pos, Name: neutral("base"), Share: at(99 * unit.Percent)},
		{Pos: hidden.Pos, Name: named(func(string) string { return "tartrazine" }), Share: at(unit.Percent), Class: at("colour"), Number: at("E102"), CarryOver: at(true)}}
	for _, c := range []struct {
		what, in, lang string
		of             []*shop.Ingredient
		numbers        bool
		name, said     string
		rules          string
	}{
		{"a colour of Annex V", "eu", "en", []*shop.Ingredient{colour("tartrazine", "E 102")}, false, "", "Tartrazine: may have an adverse effect on activity and attention in children.", ""},
		{"by number", "eu", "de", []*shop.Ingredient{colour("tartrazine", "E 102")}, true, "", "E 102: kann Aktivität und Aufmerksamkeit bei Kindern beeinträchtigen.", ""},
		{"two of them", "gb", "en", []*shop.Ingredient{colour("tartrazine", "E 102"), colour("allura red AC", "E 129")}, false, "", "Allura red AC, tartrazine: may have", ""},
		{"inside something, without a function", "eu", "fr", []*shop.Ingredient{hidden}, false, "", "Tartrazine : peut avoir des effets indésirables", ""},
		{"another colour", "eu", "en", []*shop.Ingredient{colour("curcumin", "E 100")}, false, "", "", ""},
		{"a colour without a number", "eu", "en", []*shop.Ingredient{colour("rose", "")}, false, "", "", "e-number"},
		{"a market that asks for nothing", "us", "en", []*shop.Ingredient{colour("tartrazine", "E 102")}, false, "", "", ""},
		{"a language without the sentence", "eu", "bg", []*shop.Ingredient{colour("tartrazine", "E 102")}, false, "", "?", "words"},
		{"titanium dioxide", "eu", "en", []*shop.Ingredient{colour("titanium dioxide", "E 171")}, false, "", "", "additive"},
		{"where it is not forbidden", "gb", "en", []*shop.Ingredient{colour("titanium dioxide", "E 171")}, false, "", "", ""},
		{"a sweetener", "eu", "en", []*shop.Ingredient{sweet("sucralose", "E 955")}, false, "(with sweetener(s))", "", ""},
		{"with sugar", "eu", "en", []*shop.Ingredient{sweet("sucralose", "E 955"), sugar}, false, "(with sugar(s) and sweetener(s))", "", ""},
		{"aspartame by name", "eu", "en", []*shop.Ingredient{sweet("aspartame", "E 951")}, false, "(with sweetener(s))", "Contains a source of phenylalanine.", ""},
		{"aspartame by number", "eu", "en", []*shop.Ingredient{sweet("aspartame", "E 951")}, true, "(with sweetener(s))", "Contains aspartame (a source of phenylalanine).", ""},
		{"a polyol without a flag", "eu", "en", []*shop.Ingredient{sweet("maltitol", "E 965")}, false, "(with sweetener(s))", "Excessive consumption may produce laxative effects.", ""},
		{"sorbitol as a humectant", "eu", "en", []*shop.Ingredient{func() *shop.Ingredient { i := colour("sorbitol", "E 420"); i.Class = at("humectant"); return i }()}, false, "", "Excessive consumption", ""},
	} {
		s := newScene()
		s.buys(bought("plain"))
		lines := []shop.Line{line("plain", 100)}
		for _, i := range c.of {
			s.buys(i)
			lines = append(lines, line(i.ID, 40))
		}
		p := s.sells("food", lines...)
		if c.numbers {
			p.Additives = at("numbers")
		}
		label, found := s.tell(t, p, c.in, c.lang)
		var all, rules []string
		for _, x := range label.Statements {
			all = append(all, strings.ReplaceAll(x.Text, "\u00a0", " "))
		}
		for _, d := range found.All() {
			rules = append(rules, d.Rule)
		}
		got := strings.Join(all, " ")
		if !strings.HasPrefix(got, c.said) || c.said == "" && got != "" || strings.Join(rules, " ") != c.rules {
			t.Errorf("%s: says %q, found %v; want %q, %q", c.what, got, found.All(), c.said, c.rules)
		}
		if !strings.HasSuffix(label.Name.Text, c.name) || c.name == "" && strings.Contains(label.Name.Text, "(") {
			t.Errorf("%s: the name is %q, want %q behind it", c.what, label.Name.Text, c.name)
		}
	}
}
