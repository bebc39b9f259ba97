package diag_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"chablon/labels/diag"
)

// Categories are those of the Unicode Character Database, UAX #44, table 12.
func TestVisible(t *testing.T) {
	for _, c := range [][2]string{
		{"crème brûlée, 12 °C · ½", "crème brûlée, 12 °C · ½"},
		{"a\u00a0b\u202fc", "a\u00a0b\u202fc"}, // no-break spaces are spaces
		{"\x1b[31mred", `\u001b[31mred`},
		{"two\nlines\tand\rmore", `two\u000alines\u0009and\u000dmore`},
		{"\u0085\u009b31m\x7f", `\u0085\u009b31m\u007f`}, // C1: U+009B begins a sequence as ESC [ does (ECMA-48)
		{"but\u200bter \u202eretaw", `but\u200bter \u202eretaw`},
		{"soft\u00adhyphen\u2060\ufeff", `soft\u00adhyphen\u2060\ufeff`},
		{"\u2028\u2029", `\u2028\u2029`},
		{"tag \U000e0041", `tag \U000e0041`},
		{"\xff\xc3(", `\xff\xc3(`},
		{"\ufffd", "\ufffd"},
	} {
		if got := diag.Visible(c[0]); got != c[1] {
			t.Errorf("%q: %s, want %s", c[0], got, c[1])
		}
	}
}

// A finding is two lines, whatever the file is called or says.
func TestFindingIsTwoLines(t *testing.T) {
	evil := "a\x1b[2J\nshop.yaml:1:1: error: forged [x]\u202e\u2028"
	got := diag.Diag{Pos: at(evil, 1, 2), Rule: "file", Msg: evil, Hint: evil}.String()
	if strings.Count(got, "\n") != 1 || strings.ContainsFunc(got, func(r rune) bool { return r != '\n' && !unicode.IsPrint(r) }) {
		t.Errorf("%q", got)
	}
}

func FuzzVisible(f *testing.F) {
	f.Add("a\x1b[31m\u200b\xff")
	f.Fuzz(func(t *testing.T, s string) {
		got := diag.Visible(s)
		if strings.ContainsFunc(got, func(r rune) bool {
			return unicode.In(r, unicode.C, unicode.Zl, unicode.Zp) && !unicode.In(r, unicode.Co, unicode.Cs)
		}) {
			t.Errorf("%q became %q", s, got)
		}
		if diag.Visible(got) != got {
			t.Errorf("%q is not settled", got)
		}
	})
}

func ExampleVisible() {
	fmt.Println(diag.Visible("salt\x1b[31m.yaml"))
	// Output: salt\u001b[31m.yaml
}
