package gs1

import (
	"strings"
	"testing"
)

// Every country of ISO 3166-1 has its number, and no two have one. The list of
// numbers is the Syntax Dictionary's; a few pairs by hand from ISO 3166-1 (from
// memory), among them those whose numbers are no older than 1990.
func TestCountryNumbers(t *testing.T) {
	seen := map[string]string{}
	for _, c := range strings.Fields(countryLetters) {
		n, ok := CountryNumber(c)
		if !ok || seen[n] != "" {
			t.Errorf("%s: %q, %v, as %s", c, n, ok, seen[n])
		}
		seen[n] = c
	}
	if want := len(strings.Fields(countryNumbers)); len(seen) != want {
		t.Errorf("%d numbers, and ISO 3166-1 has %d", len(seen), want)
	}
	for c, want := range map[string]string{"FR": "250", "DE": "276", "GB": "826", "US": "840", "AF": "004", "CZ": "203", "SK": "703", "RS": "688", "ME": "499", "SS": "728", "UA": "804", "AT": "040"} {
		if n, _ := CountryNumber(c); n != want {
			t.Errorf("%s: %s, not %s", c, n, want)
		}
	}
	for _, c := range []string{"", "fr", "QZ", "FRA", "XX", "UK"} {
		if n, ok := CountryNumber(c); ok {
			t.Errorf("%q has the number %s", c, n)
		}
	}
}
