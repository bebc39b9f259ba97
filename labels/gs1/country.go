package gs1

import (
	"fmt"

	"golang.org/x/text/language"
)

// CountryNumber is the number of a country in ISO 3166-1, as AIs 421 and 422
// take it, from its two letters: FR is 250. The pairs are those of CLDR; only
// numbers that the Syntax Dictionary lists are given.
func CountryNumber(letters string) (string, bool) {
	if !listed(countryLetters, letters) {
		return "", false
	}
	r, err := language.ParseRegion(letters)
	n := fmt.Sprintf("%03d", r.M49())
	return n, err == nil && listed(countryNumbers, n)
}
