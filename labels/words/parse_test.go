package words

import (
	"strings"
	"testing"
	"unicode/utf8"
)

func TestParseKeepsTextSectionAndDoubt(t *testing.T) {
	l, err := parse("xx", "# note\nlanguage = X\n[label]\na.b = one_{n} ~\nc = two\n[card] ~\nd = three\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		key, text, section string
		memory             bool
	}{
		{"a.b", "one\u00a0{n}", "label", true},
		{"c", "two", "label", false},
		{"d", "three", "card", true},
	} {
		if e := l.entries[c.key]; e.text != c.text || e.section != c.section || e.memory != c.memory {
			t.Errorf("%s: got %+v", c.key, e)
		}
	}
	if got := l.Keys("label"); strings.Join(got, " ") != "a.b c" {
		t.Errorf("keys of [label]: %v", got)
	}
	if !l.Has("card") || l.Has("sheet") {
		t.Error("sections are told wrongly")
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"[label]\na = b\na = c", "lang/xx.txt:3: a stands on line 2 already"},
		{"\ufeff# note", "lang/xx.txt:1: "}, // a byte order mark
		{"[recipe]", "lang/xx.txt:1: the sections are format label card sheet audit counter due"},
		{"[label", "lang/xx.txt:1: the sections are"},
		{"a b = c", "is not a line of the form key = words"},
		{"A = c", "is not a line of the form key = words"},
		{"words alone", "is not a line of the form key = words"},
		{"a =", "a has no words"},
		{"a = ~", "a has no words"},
		{"a = {Slot}", "a has a slot that cannot be read"},
		{"a = {n", "a has a slot that cannot be read"},
		{"stems.x = a,,b", `lang/xx.txt: stems.x: the stem "" cannot be read`},
		{"stems.x = a<b", `the stem "a<b" cannot be read`},
	} {
		_, err := parse("xx", c.text)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: got %v, want %q", c.text, err, c.want)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"language = X\n[label]\nallergen.x = Ei\nstems.x = =<Ei, !<Eis, a>\n", "a = {n}", "[card] ~", "a = b ~\n", "_=_"} {
		f.Add(s, "Ei, Eis und Ei")
	}
	f.Fuzz(func(t *testing.T, file, text string) {
		l, err := parse("xx", file)
		if err != nil {
			if !strings.HasPrefix(err.Error(), "lang/xx.txt") {
				t.Errorf("an error without its file: %v", err)
			}
			return
		}
		for _, k := range l.keys {
			if w, err := l.Word(k); err != nil || w == "" {
				t.Errorf("%q: got %q, %v", k, w, err)
			}
		}
		wellFormed(t, l, text)
	})
}

// wellFormed checks that emphasis names ordered, separate, whole characters
// and that each allergen is either found or missing.
func wellFormed(t *testing.T, l *Lang, text string) {
	t.Helper()
	for id := range l.search {
		strong, missing := l.Emphasis(text, []string{id})
		end := -1
		for _, r := range strong {
			if r[0] <= end || r[1] <= r[0] || r[1] > len(text) {
				t.Fatalf("%s in %q: ranges %v", id, text, strong)
			}
			for _, at := range r {
				if utf8.ValidString(text) && at < len(text) && !utf8.RuneStart(text[at]) {
					t.Fatalf("%s in %q: %d is inside a character", id, text, at)
				}
			}
			end = r[1]
		}
		if (len(strong) == 0) != (len(missing) == 1) {
			t.Fatalf("%s in %q: found %v, missing %v", id, text, strong, missing)
		}
	}
}

// Any text in any language: emphasis stays in bounds and finds or misses.
func FuzzEmphasis(f *testing.F) {
	for _, s := range []string{"Weizenmehl", "noix de coco", "BLANC D’ŒUF", "γάλακτος", "FINDIK İ ı", "e\u0301gg \xff egg", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, code := range []string{"de", "el", "en", "fr", "tr"} {
			l, _ := Get(code)
			wellFormed(t, l, text)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	for b.Loop() {
		if _, err := read("de"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkEmphasis(b *testing.B) {
	l, _ := Get("de")
	for b.Loop() {
		l.Emphasis("Weizenmehl, Butter, Hühnervollei, gemahlene Haselnüsse", []string{"wheat", "milk", "eggs", "hazelnuts"})
	}
}
