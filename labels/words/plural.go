package words

import (
	"fmt"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// forms are the endings of the keys of a phrase that is counted, by CLDR's
// names of the plural forms.
var forms = map[plural.Form]string{
	plural.Zero: "zero", plural.One: "one", plural.Two: "two",
	plural.Few: "few", plural.Many: "many", plural.Other: "other",
}

// Count returns a phrase with a whole number in the plural form that the
// language wants: Count("count.pieces", 2) is "2 pieces", in Polish "2 sztuki".
func (l *Lang) Count(key string, n int64) (string, error) {
	if n < 0 {
		return "", fmt.Errorf("%q cannot be counted with %d", key, n)
	}
	full := key + "." + forms[l.form(n)]
	text, err := l.Word(full)
	if err != nil {
		return "", err
	}
	return put(text, "n", l.Plain(n, 0)), nil
}

// form is the plural form for a whole number; the rules of a language repeat
// every million at the latest, larger numbers are folded below.
func (l *Lang) form(n int64) plural.Form {
	if n >= 1_000_000 {
		n = 1_000_000 + n%1_000_000
	}
	return plural.Cardinal.MatchPlural(l.tag(), int(n), 0, 0, 0, 0)
}

// tag is the language as the outside tables know it: Portuguese is that of
// Portugal, which differs from Brazil's in numbers and plurals.
func (l *Lang) tag() language.Tag {
	if l.code == "pt" {
		return language.EuropeanPortuguese
	}
	return language.Make(l.code)
}
