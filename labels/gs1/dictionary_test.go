package gs1

import (
	"slices"
	"strings"
	"testing"
)

func TestDictionary(t *testing.T) {
	d, err := readDictionary(dictionaryText)
	if err != nil {
		t.Fatal(err)
	}
	if len(d.all) < 500 || len(d.all) != len(d.order) || !slices.IsSorted(d.order) {
		t.Errorf("%d AIs, %d in order, sorted %v", len(d.all), len(d.order), slices.IsSorted(d.order))
	}
	for _, ai := range d.order {
		e := d.all[ai]
		if len(e.parts) == 0 || e.title == "" && ai != "8110" && ai != "8112" {
			t.Errorf("(%s) has %d parts and title %q", ai, len(e.parts), e.title)
		}
		if e.fixed && (len(e.parts) != 1 || e.parts[0].min != e.parts[0].max) {
			t.Errorf("(%s) has a predefined length but its format varies", ai)
		}
	}
}

// GGS fig. 7.8.5-2 (as in the reference encoder's table of fixed prefixes):
// the first two digits of the AI tell the whole length, AI included.
func TestPredefinedLengths(t *testing.T) {
	whole := map[string]int{
		"00": 20, "01": 16, "02": 16, "03": 16, "04": 18, "11": 8, "12": 8, "13": 8, "14": 8, "15": 8,
		"16": 8, "17": 8, "18": 8, "19": 8, "20": 4, "31": 10, "32": 10, "33": 10, "34": 10, "35": 10, "36": 10, "41": 16,
	}
	seen := map[string]bool{}
	for ai, e := range dict().all {
		n, fixed := whole[ai[:2]]
		if fixed != e.fixed || fixed && n != len(ai)+e.parts[0].max {
			t.Errorf("(%s): fixed %v, %d characters; the table says %v, %d", ai, e.fixed, len(ai)+e.parts[0].max, fixed, n)
		}
		seen[ai[:2]] = true
	}
	// 04, 14, 18 and 19 are kept free by the table and not yet given to an AI.
	for p := range whole {
		if free := strings.Contains("04 14 18 19", p); seen[p] == free {
			t.Errorf("prefix %s: AI given %v", p, seen[p])
		}
	}
}

// GGS fig. 7.8.5-1: the length of the AI by its first two digits.
func TestAILengths(t *testing.T) {
	for ai := range dict().all {
		want := 2
		switch p := ai[:2]; {
		case p >= "23" && p <= "25", p >= "40" && p <= "42", p == "71":
			want = 3
		case p >= "31" && p <= "36", p == "39", p == "43", p == "70", p == "72", p >= "80" && p <= "82":
			want = 4
		}
		if len(ai) != want {
			t.Errorf("(%s) has %d digits, the table says %d", ai, len(ai), want)
		}
	}
}

// Titles and formats of the AIs that a pastry kitchen's cartons carry, from
// the Syntax Dictionary of 2026-01-27 (GGS section 3).
func TestTitles(t *testing.T) {
	tests := []struct {
		ai, title string
		fixed     bool
		most      int
	}{
		{"00", "SSCC", true, 18}, {"01", "GTIN", true, 14}, {"02", "CONTENT", true, 14}, {"10", "BATCH/LOT", false, 20},
		{"11", "PROD DATE", true, 6}, {"12", "DUE DATE", true, 6}, {"13", "PACK DATE", true, 6},
		{"15", "BEST BEFORE or BEST BY", true, 6}, {"16", "SELL BY", true, 6}, {"17", "USE BY or EXPIRY", true, 6},
		{"20", "VARIANT", true, 2}, {"21", "SERIAL", false, 20}, {"22", "CPV", false, 20}, {"235", "TPX", false, 28},
		{"240", "ADDITIONAL ID", false, 30}, {"30", "VAR. COUNT", false, 8}, {"3103", "NET WEIGHT (kg)", true, 6},
		{"3203", "NET WEIGHT (lb)", true, 6}, {"3302", "GROSS WEIGHT (kg)", true, 6}, {"37", "COUNT", false, 8},
		{"400", "ORDER NUMBER", false, 30}, {"401", "GINC", false, 30}, {"402", "GSIN", false, 17}, {"403", "ROUTE", false, 30},
		{"410", "SHIP TO LOC", true, 13}, {"413", "SHIP FOR LOC", true, 13}, {"414", "LOC No.", true, 13}, {"416", "PROD/SERV LOC", true, 13},
		{"420", "SHIP TO POST", false, 20}, {"422", "ORIGIN", false, 3}, {"8008", "PROD TIME", false, 12}, {"8020", "REF No.", false, 25},
		{"8200", "PRODUCT URL", false, 70}, {"90", "INTERNAL", false, 30}, {"99", "INTERNAL", false, 90},
	}
	for _, tt := range tests {
		most := 0
		e, err := lookup(tt.ai)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, p := range e.parts {
			most += p.max
		}
		if Title(tt.ai) != tt.title || Fixed(tt.ai) != tt.fixed || most != tt.most {
			t.Errorf("(%s) = %q, fixed %v, up to %d; want %v", tt.ai, Title(tt.ai), Fixed(tt.ai), most, tt)
		}
	}
	for _, none := range []string{"", "0", "04", "23", "89", "310", "3106", "x"} {
		if Title(none) != "" || Fixed(none) {
			t.Errorf("(%s) is taken for an AI", none)
		}
	}
}

// Each test that the dictionary names is either done or refused on purpose.
func TestEveryNamedTestIsKnown(t *testing.T) {
	refused := map[string]bool{}
	for _, ai := range dict().order {
		for _, p := range dict().all[ai].parts {
			for _, name := range p.tests {
				if strings.Contains(test(name, strings.Repeat("0", p.max)), "not checked here") {
					refused[name] = true
				}
			}
		}
	}
	want := map[string]bool{"couponcode": true, "couponposoffer": true, "csumalpha": true, "iban": true, "mediatype": true, "packagetype": true}
	for name := range refused {
		if !want[name] {
			t.Errorf("test %q of the dictionary is not done", name)
		}
	}
	if len(refused) != len(want) {
		t.Errorf("refused %v, want %v", refused, want)
	}
}

func TestReadDictionaryFaults(t *testing.T) {
	for _, bad := range []string{"01", "0x *? N14", "01 * Nx", "01 N0", "30-20 N2", "01 X..", "3100-3300 N6", "01 N14\n011 N3"} {
		if _, err := readDictionary(bad); err == nil {
			t.Errorf("%q was read without an error", bad)
		}
	}
}

func TestCountryLists(t *testing.T) {
	if n, m := len(strings.Fields(countryNumbers)), len(strings.Fields(countryLetters)); n != 249 || m != 249 {
		t.Errorf("%d numbers and %d letter codes; ISO 3166-1 has 249 of each", n, m)
	}
	for _, list := range []string{countryNumbers, countryLetters, currencyNumbers} {
		f := strings.Fields(list)
		slices.Sort(f)
		if len(slices.Compact(f)) != len(strings.Fields(list)) {
			t.Error("a code stands in its list twice")
		}
	}
}
