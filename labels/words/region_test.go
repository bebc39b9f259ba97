package words_test

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/words"
)

// The form of numbers in the regions of the markets, CLDR 48. Amounts on paper
// are grouped by thin spaces in all of them, as the SI has it.
func TestRegions(t *testing.T) {
	for _, c := range []struct{ market, lang, number, plain, money string }{
		{"eu", "de", "12.345,6", "12\u202f345,6", "4,20\u00a0CHF"},
		{"ch", "de", "12’345.6", "12\u202f345.6", "CHF\u00a04.20"},
		{"ch", "it", "12’345.6", "12\u202f345.6", "CHF\u00a04.20"},
		{"ch", "fr", "12\u202f345,6", "12\u202f345,6", "4,20\u00a0CHF"},
		{"ca", "fr", "12\u00a0345,6", "12\u202f345,6", ""},
		{"eu", "fr", "12\u202f345,6", "12\u202f345,6", "4,20\u00a0CHF"},
		{"gb", "en", "12,345.6", "12\u202f345.6", "CHF\u00a04.20"},
	} {
		l, err := get(t, c.lang).For(c.market)
		if err != nil {
			t.Fatal(err)
		}
		if got := l.Number(123456, 1); got != c.number {
			t.Errorf("%s-%s: %q, want %q", c.lang, c.market, got, c.number)
		}
		if got := l.Plain(123456, 1); got != c.plain {
			t.Errorf("%s-%s: %q on paper, want %q", c.lang, c.market, got, c.plain)
		}
		if got := l.MoneyIn("CHF", 420, 2); c.money != "" && got != c.money {
			t.Errorf("%s-%s: %q, want %q", c.lang, c.market, got, c.money)
		}
	}
}

// A region that is only a region changes the form of numbers and no word.
func TestRegionChangesNoWord(t *testing.T) {
	for _, code := range []string{"de", "it"} {
		base, swiss := get(t, code), variantOf(t, code, "ch")
		for _, section := range []string{"label", "card", "sheet", "audit", "due"} {
			for _, k := range base.Keys(section) {
				if a, b := word(t, base, k), word(t, swiss, k); a != b {
					t.Errorf("%s: %s is %q in Switzerland, %q elsewhere", code, k, b, a)
				}
			}
		}
	}
	if !slices.Contains(words.Markets(), "ch de") || strings.Contains(strings.Join(words.Markets(), " "), "ch fr") {
		t.Errorf("%v", words.Markets())
	}
}

func variantOf(t *testing.T, code, market string) *words.Lang {
	t.Helper()
	l, err := get(t, code).For(market)
	if err != nil {
		t.Fatal(err)
	}
	return l
}
