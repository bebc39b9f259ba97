package tradeword_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"chablon/labels/tradeword"
)

func ExampleLang_Find() {
	en, _ := tradeword.Get("en")
	for _, name := range []string{"brown butter", "peanut butter", "dark chocolate", "malted wheat flakes"} {
		fmt.Printf("%s: %q\n", name, spoken(en, name))
	}
	// Output:
	// brown butter: "milk!"
	// peanut butter: ""
	// dark chocolate: "milk?, soybeans?"
	// malted wheat flakes: "barley|wheat!"
}

// spoken writes what a name speaks of: ! is implied, ? is asked.
func spoken(l *tradeword.Lang, name string) string {
	var out []string
	for _, f := range l.Find(name) {
		sign := "!"
		if f.Asks {
			sign = "?"
		}
		if f.Law != "" {
			sign += f.Law
		}
		out = append(out, strings.Join(f.Any, "|")+sign)
	}
	return strings.Join(out, ", ")
}

// The words are of trade use and from memory. That butter, cream, cheese, whey,
// yoghurt and ghee are milk, and so on, is Reg. (EU) 1169/2011 Annex II read
// with Reg. (EU) 1308/2013 Annex VII part III (milk products); gianduja and
// white chocolate are of Directive 2000/36/EC Annex I.
func TestFind(t *testing.T) {
	for _, c := range []struct{ lang, name, want string }{
		{"en", "butter", "milk!"},
		{"en", "Cream", "milk!"},
		{"en", "cream cheese", "milk!"},
		{"en", "goat’s cheese", "milk!"},
		{"en", "whey powder", "milk!"},
		{"en", "ghee", "milk!"},
		{"en", "Greek yoghurts", "milk!"},
		{"en", "tahini", "sesame!"},
		{"en", "semolina", "wheat!"},
		{"en", "spelt", "wheat!"},
		{"en", "mayonnaise", "eggs!, mustard?"},
		{"en", "prawn powder", "crustaceans!"},
		{"en", "marzipan", "almonds!"},
		{"en", "praline paste", "nuts!"},
		{"en", "white chocolate", "milk!, soybeans?"},
		{"en", "couscous", "wheat!"},
		{"en", "breadcrumbs", "wheat?"},
		{"en", "malt extract", "barley|wheat!"},
		{"en", "celeriac", "celery!"},
		{"en", "soy sauce", "wheat?"},
		{"en", "oyster sauce", "molluscs!"},
		{"en", "glucose syrup", "wheat?wheat-glucose-syrup, barley?barley-glucose-syrup"},
		// What only looks like it.
		{"en", "peanut butter", ""},
		{"en", "cocoa butter", ""},
		{"en", "shea butter", ""},
		{"en", "hazelnut butter", ""},
		{"en", "butternut squash", ""},
		{"en", "butter beans", ""},
		{"en", "buttercup flowers", ""},
		{"en", "butterfly pea flower", ""},
		{"en", "cream of tartar", ""},
		{"en", "coconut milk", ""},
		{"en", "coconut cream", ""},
		{"en", "almond milk", ""}, // almond is the law's own word
		{"en", "lactic acid", ""},
		{"en", "nutmeg", ""},
		{"en", "rice vinegar", ""},
		{"en", "buckwheat flour", ""},
		{"en", "rice flour", ""},
		{"en", "maize starch", ""},
		{"en", "oyster mushrooms", ""},
		{"en", "maltitol", ""},
		{"en", "raising agent", ""},
		{"en", "stock syrup", ""},
		{"en", "beef gelatine", ""},
		// The longest word wins where words lie on each other, and only there.
		{"en", "cocoa butter, butter", "milk!"},
		{"en", "butter and peanut butter", "milk!"},
		{"en", "maltodextrin", "wheat?wheat-maltodextrin"},
		{"fr", "beurre", "milk!"},
		{"fr", "BEURRE DE CACAO", ""},
		{"fr", "beurre noisette", "milk!"},
		{"fr", "petit-beurre", "milk?, wheat?"},
		{"fr", "crème d’avoine", ""},
		{"fr", "lait d’amande", ""},
		{"fr", "fondant", ""},
		{"fr", "semoule de riz", ""},
		{"fr", "chocolat blanc", "milk!, soybeans?"},
		{"fr", "praliné noisettes", "nuts!"},
		{"de", "Butterreinfett", "milk!"},
		{"de", "Schlagsahne", "milk!"},
		{"de", "Kakaobutter", ""},
		{"de", "Schweineschmalz", ""},
		{"de", "Flachssamen", ""},
		{"de", "Erdnüsse", ""},
		{"de", "Haselnusscreme", "nuts?"},
		{"de", "Kartoffelstärke", ""},
		{"de", "Muskatnuss", ""},
		{"de", "Grieß", "wheat!"},
		{"hu", "tejsavópor", "milk!"},
		{"hu", "tejsav", ""},
		{"pl", "słodzik", ""},
		{"pl", "słód", "barley|wheat|rye!"},
		{"sv", "mjölkchoklad", "milk?, soybeans?"},
		{"hr", "sirup", ""},
		{"et", "sidrunikoor", ""},
	} {
		l, ok := tradeword.Get(c.lang)
		if !ok {
			t.Fatal(c.lang)
		}
		if got := spoken(l, c.name); got != c.want {
			t.Errorf("%s %q: %q, want %q", c.lang, c.name, got, c.want)
		}
	}
}

// lines reads a list of testdata.
func lines(t *testing.T, name string) []string {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for l := range strings.Lines(string(data)) {
		if l[0] != '#' {
			out = append(out, strings.TrimSuffix(l, "\n"))
		}
	}
	return out
}

// Names of the Ciqual table (ANSES, version 2020): of 910 in two languages 279
// speak of an allergen by a trade word, and 631 do not.
func TestCiqual(t *testing.T) {
	spokenOf := lines(t, "ciqual-spoken.txt")
	for _, l := range spokenOf {
		f := strings.Split(l, "\t")
		lang, _ := tradeword.Get(f[0])
		if got := spoken(lang, f[1]); got != f[2] {
			t.Errorf("%s %q: %q, want %q", f[0], f[1], got, f[2])
		}
	}
	quiet := 0
	for _, code := range []string{"en", "fr"} {
		lang, _ := tradeword.Get(code)
		for _, name := range lines(t, "ciqual-quiet-"+code+".txt") {
			quiet++
			if got := spoken(lang, name); got != "" {
				t.Errorf("%s %q: %q, want nothing", code, name, got)
			}
		}
	}
	if len(spokenOf) < 200 || quiet < 600 {
		t.Errorf("%d and %d names", len(spokenOf), quiet)
	}
}
