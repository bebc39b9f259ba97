package words_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"chablon/labels/words"
)

// As CLDR 48 prints them (through ICU 78.2): 12.5, 1234, 12345, -3.5, 12345.67.
var cldr = []struct{ lang, half, four, five, negative, long string }{
	{"bg", "12,5", "1234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
	{"cs", "12,5", "1\u00a0234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
	{"da", "12,5", "1.234", "12.345", "-3,5", "12.345,67"},
	{"de", "12,5", "1.234", "12.345", "-3,5", "12.345,67"},
	{"el", "12,5", "1.234", "12.345", "-3,5", "12.345,67"},
	{"en", "12.5", "1,234", "12,345", "-3.5", "12,345.67"},
	{"es", "12,5", "1234", "12.345", "-3,5", "12.345,67"},
	{"et", "12,5", "1234", "12\u00a0345", "\u22123,5", "12\u00a0345,67"},
	{"fi", "12,5", "1\u00a0234", "12\u00a0345", "\u22123,5", "12\u00a0345,67"},
	{"fr", "12,5", "1\u202f234", "12\u202f345", "-3,5", "12\u202f345,67"},
	{"ga", "12.5", "1,234", "12,345", "-3.5", "12,345.67"},
	{"hr", "12,5", "1.234", "12.345", "\u22123,5", "12.345,67"},
	{"hu", "12,5", "1234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
	{"is", "12,5", "1.234", "12.345", "-3,5", "12.345,67"},
	{"it", "12,5", "1234", "12.345", "-3,5", "12.345,67"},
	{"lt", "12,5", "1\u00a0234", "12\u00a0345", "\u22123,5", "12\u00a0345,67"},
	{"lv", "12,5", "1234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
	{"mt", "12.5", "1,234", "12,345", "-3.5", "12,345.67"},
	{"nb", "12,5", "1\u00a0234", "12\u00a0345", "\u22123,5", "12\u00a0345,67"},
	{"nl", "12,5", "1.234", "12.345", "-3,5", "12.345,67"},
	{"pl", "12,5", "1234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
	{"pt", "12,5", "1234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
	{"ro", "12,5", "1.234", "12.345", "-3,5", "12.345,67"},
	{"sk", "12,5", "1\u00a0234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
	{"sl", "12,5", "1234", "12.345", "\u22123,5", "12.345,67"},
	{"sv", "12,5", "1\u00a0234", "12\u00a0345", "\u22123,5", "12\u00a0345,67"},
	{"tr", "12,5", "1.234", "12.345", "-3,5", "12.345,67"},
	{"uk", "12,5", "1\u00a0234", "12\u00a0345", "-3,5", "12\u00a0345,67"},
}

func TestNumberAgainstCLDR(t *testing.T) {
	for _, c := range cldr {
		l := get(t, c.lang)
		for _, n := range []struct {
			n        int64
			decimals int
			want     string
		}{{125, 1, c.half}, {1234, 0, c.four}, {12345, 0, c.five}, {-35, 1, c.negative}, {1234567, 2, c.long}} {
			if got := l.Number(n.n, n.decimals); got != n.want {
				t.Errorf("%s: %d with %d decimals is %q, CLDR has %q", c.lang, n.n, n.decimals, got, n.want)
			}
		}
	}
}

// tag is the language for the other implementation: the Portuguese of Portugal.
func tag(code string) language.Tag {
	if code == "pt" {
		return language.EuropeanPortuguese
	}
	return language.Make(code)
}

// What golang.org/x/text (CLDR 32) prints differently from CLDR 48, and why.
var older = map[string]string{
	"fr": "groups by U+00A0; CLDR has U+202F since release 34",
	"hr": "writes minus as a hyphen; CLDR has U+2212 since release 36",
	"bg": fourDigits, "es": fourDigits, "et": fourDigits, "hu": fourDigits, "it": fourDigits,
	"lv": fourDigits, "pl": fourDigits, "pt": fourDigits, "sl": fourDigits,
}

const fourDigits = "groups four digits, though CLDR groups from five"

func TestNumberAgainstAnotherImplementation(t *testing.T) {
	var differ []string
	for _, code := range words.Codes() {
		l, p := get(t, code), message.NewPrinter(tag(code))
		for _, n := range []int64{0, 7, 999, 1000, 1234, 9999, 10_000, 123_456, 1_234_567, -1, -1234, -98_765} {
			for decimals := range 4 {
				want := p.Sprint(number.Decimal(float64(n)/math.Pow10(decimals), number.Scale(decimals)))
				if got := l.Number(n, decimals); got != want {
					if older[code] == "" {
						t.Errorf("%s: %q, there %q", code, got, want)
					}
					if !slices.Contains(differ, code) {
						differ = append(differ, code)
					}
				}
			}
		}
	}
	for code, why := range older {
		if !slices.Contains(differ, code) {
			t.Errorf("%s does not differ any more: %s", code, why)
		}
	}
}

func TestNumberIsExact(t *testing.T) {
	en := get(t, "en")
	for _, c := range []struct {
		n        int64
		decimals int
		want     string
	}{
		{5, 3, "0.005"}, {-5, 3, "-0.005"}, {50, 1, "5.0"}, {0, 2, "0.00"}, {7, -2, "7"},
		{math.MaxInt64, 0, "9,223,372,036,854,775,807"}, {math.MinInt64, 0, "-9,223,372,036,854,775,808"},
		{math.MaxInt64, 18, "9.223372036854775807"},
	} {
		if got := en.Number(c.n, c.decimals); got != c.want {
			t.Errorf("%d, %d: %q, want %q", c.n, c.decimals, got, c.want)
		}
	}
}

// SI Brochure, 9th edition, 5.4.4: groups of three by a thin space, neither
// dots nor commas between them; four digits need none. 5.4.7: a space before %.
func TestPlainAndPercent(t *testing.T) {
	for _, c := range []struct{ lang, plain, long, percent string }{
		{"en", "1234.5", "12\u202f345", "12.5\u00a0%"},
		{"de", "1234,5", "12\u202f345", "12,5\u00a0%"},
		{"fr", "1234,5", "12\u202f345", "12,5\u00a0%"},
		{"pl", "1234,5", "12\u202f345", "12,5\u00a0%"},
		{"tr", "1234,5", "12\u202f345", "%12,5"}, // Turkish puts the sign first (CLDR)
	} {
		l := get(t, c.lang)
		if got := l.Plain(12345, 1); got != c.plain {
			t.Errorf("%s: %q, want %q", c.lang, got, c.plain)
		}
		if got := l.Plain(12345, 0); got != c.long {
			t.Errorf("%s: %q, want %q", c.lang, got, c.long)
		}
		if got := l.Percent(125, 1); got != c.percent {
			t.Errorf("%s: %q, want %q", c.lang, got, c.percent)
		}
	}
	if got := get(t, "en").Plain(-18, 0); got != "\u221218" {
		t.Errorf("minus: %q", got)
	}
}

// Where CLDR has no space before %, the SI's space is ours all the same.
const closedUp = "bg el en et ga hu is it lv mt nl pl pt uk"

func TestPercentAgainstAnotherImplementation(t *testing.T) {
	for _, code := range words.Codes() {
		p := message.NewPrinter(tag(code))
		want := p.Sprint(number.Percent(0.41))
		got := get(t, code).Percent(41, 0)
		if code == "hr" && want == "41%" {
			want = "41\u00a0%" // CLDR 48; the older table has no space
		}
		switch closed := slices.Contains(strings.Fields(closedUp), code); {
		case closed && want != "41%":
			t.Errorf("%s: CLDR has %q, so it does not belong to those without a space", code, want)
		case !closed && got != want:
			t.Errorf("%s: %q, there %q", code, got, want)
		}
	}
}

// The plural forms of CLDR 48 (through ICU 78.2) for the numbers in counted:
// z zero, 1 one, 2 two, f few, m many, a point for other.
var counted = []int64{0, 1, 2, 3, 4, 5, 6, 10, 11, 12, 13, 14, 19, 20, 21, 22, 25, 31, 99, 100, 101, 102, 103, 111, 112, 121, 1000}

var plurals = map[string]string{
	"bg": ".1.........................",
	"cs": ".1fff......................",
	"da": ".1.........................",
	"de": ".1.........................",
	"el": ".1.........................",
	"en": ".1.........................",
	"es": ".1.........................",
	"et": ".1.........................",
	"fi": ".1.........................",
	"fr": "11.........................",
	"ga": ".12ffffm...................",
	"hr": ".1fff.........1f.1..1ff..1.",
	"hu": ".1.........................",
	"is": ".1............1..1..1....1.",
	"it": ".1.........................",
	"lt": ".1fffff.......1ff1f.1ff..1.",
	"lv": "z1.....zzzzzzz1..1.z1..zz1z",
	"mt": "f12fffffmmmmm.........fmm..",
	"nb": ".1.........................",
	"nl": ".1.........................",
	"pl": "m1fffmmmmmmmmmmfmmmmmffmmmm",
	"pt": ".1.........................",
	"ro": "f1fffffffffff.......fffff..",
	"sk": ".1fff......................",
	"sl": ".12ff...............12f....",
	"sv": ".1.........................",
	"tr": ".1.........................",
	"uk": "m1fffmmmmmmmmm1fm1mm1ffmm1m",
}

// Maltese: CLDR 48 has a form for 2 and says other for 102; the tables in use
// (CLDR 32) say few for both. The words are those for few.
func TestPluralsAgainstCLDR(t *testing.T) {
	names := map[string]string{"z": "zero", "1": "one", "2": "two", "f": "few", "m": "many", ".": "other"}
	for _, code := range words.Codes() {
		l, forms := get(t, code), plurals[code]
		if len(forms) != len(counted) {
			t.Fatalf("%s: %d forms for %d numbers", code, len(forms), len(counted))
		}
		for i, n := range counted {
			form := names[forms[i:i+1]]
			if code == "mt" && n%100 == 2 {
				form = "few"
			}
			want := strings.ReplaceAll(word(t, l, "count.pieces."+form), "{n}", l.Plain(n, 0))
			if got, err := l.Count("count.pieces", n); err != nil || got != want {
				t.Errorf("%s: %q (%v), want the form %s: %q", code, got, err, form, want)
			}
		}
	}
}

func ExampleLang_Count() {
	for _, code := range []string{"pl", "sl"} {
		l, _ := words.Get(code)
		for _, n := range []int64{1, 2, 5} {
			s, _ := l.Count("count.pieces", n)
			fmt.Println(s)
		}
	}
	// Output:
	// 1 sztuka
	// 2 sztuki
	// 5 sztuk
	// 1 kos
	// 2 kosa
	// 5 kosov
}
