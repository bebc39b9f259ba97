package shop_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/shop"
)

var valued = regexp.MustCompile(`(?m)^[^#\n]*?: *\p{L}`)

// A letter that nobody sees is refused in every value of every file: the test
// plants one behind the first letter of each. Characters of general category Cf
// and those that are ignored by default: Unicode Character Database.
func TestInvisibleLettersAreRefusedEverywhere(t *testing.T) {
	n := 0
	for name := range small(t) {
		if !strings.HasSuffix(name, ".yaml") {
			continue
		}
		data := string(small(t)[name].Data)
		for _, at := range valued.FindAllStringIndex(data, -1) {
			fsys := small(t)
			fsys[name] = &fstest.MapFile{Data: []byte(data[:at[1]] + "\u200b" + data[at[1]:])}
			line := 1 + strings.Count(data[:at[1]], "\n")
			var found diag.List
			shop.Load(fsys, &found)
			hit := false
			for _, d := range found.All() {
				hit = hit || d.Rule == "invisible" && !d.Warning && d.Pos.File == name && d.Pos.Line == line
			}
			if n++; !hit {
				t.Errorf("%s:%d: nothing is said of U+200B", name, line)
			}
		}
	}
	if n < 80 {
		t.Errorf("only %d values", n)
	}
}

func TestLetters(t *testing.T) {
	for _, c := range []struct{ en, want string }{
		{"butter", ""},
		{"b\u0443tter", `caution: "bуtter" is written in two scripts: its 'у' is the Cyrillic letter U+0443 [mixed-scripts]`},
		{"\u0441\u043e\u0441\u043e\u0430 butter", `caution: "сосоа" is written in Cyrillic letters, the language en is not [foreign-letters]`},
		{"\u0392utter", `caution: "Βutter" is written in two scripts: its 'Β' is the Greek letter U+0392 [mixed-scripts]`},
		{"β-carotene", ""}, {"5 µg", ""}, {"crème brûlée", ""}, {"Straße № 5", ""},
		{"wheat\u00adflour", `"wheatflour" holds a character that nobody sees: U+00AD [invisible]`},
		{"wh\u200deat", `"wheat" holds a character that nobody sees: U+200D [invisible]`},
		{"wh\u034feat", `"wheat" holds a character that nobody sees: U+034F [invisible]`},
		{"wheat\ufe0f", `"wheat" holds a character that nobody sees: U+FE0F [invisible]`},
		{"wheat\u3164", `"wheat" holds a character that nobody sees: U+3164 [invisible]`},
		{"wh\u2060eat", `"wheat" holds a character that nobody sees: U+2060 [invisible]`},
	} {
		fsys := small(t)
		edit{flour, "en: wheat flour", `en: "` + c.en + `"`}.apply(t, fsys)
		var found diag.List
		shop.Load(fsys, &found)
		got := ""
		for _, d := range found.All() {
			if d.Rule == "invisible" || d.Rule == "mixed-scripts" || d.Rule == "foreign-letters" {
				got = fmt.Sprintf("%s [%s]", d.Msg, d.Rule)
				if d.Warning {
					got = "caution: " + got
				}
			}
		}
		if got != c.want {
			t.Errorf("%q:\n got %s\nwant %s", c.en, got, c.want)
		}
	}
}
