package market_test

import (
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
)

// What each country asks of food sold loose, and packed where it is sold; the
// sources stand beside each row in country.go.
func TestCountries(t *testing.T) {
	all := []role.Role{role.Keep, role.Quid, role.Statement, role.Use}
	for _, c := range []struct {
		country string
		pack    market.Pack
		want    string
	}{
		{"DE", market.Pack{Sale: market.Loose}, "name allergens statement<list?"},                                                                          // LMIDV § 4(2), (3)
		{"DE", market.Pack{Sale: market.Loose, Calls: all}, "name allergens statement<list"},                                                               // LMZDV § 5(1)
		{"DE", market.Pack{Sale: market.Direct, Calls: all}, "name list allergens<list quid<list date keep use operator origin? strength? statement<list"}, // LMIDV § 4(1)
		{"DE", market.Pack{Sale: market.Direct, Served: true}, "name allergens<list statement<list?"},                                                      // LMIDV § 4(2) no. 3
		{"DE", market.Pack{Sale: market.Direct, Served: true, UseBy: true}, "name allergens<list date keep statement<list?"},
		{"DE", market.Pack{Sale: market.Direct, Fresh: true}, "name list allergens<list quid<list? keep? use? operator origin? strength? statement<list?"},
		{"IT", market.Pack{Sale: market.Loose, Calls: all}, "name list allergens<list keep strength?"}, // D.Lgs 231/2017 Art. 19(2)
		{"IT", market.Pack{Sale: market.Direct}, "name list allergens<list keep? strength?"},
		{"PL", market.Pack{Sale: market.Loose}, "name operator list allergens<list"}, // Dz.U. 2015 poz. 29 § 19
		{"PL", market.Pack{Sale: market.Direct}, "name operator list allergens<list"},
		{"FR", market.Pack{Sale: market.Loose}, "name allergens"}, // décret 2015-447
		{"FR", market.Pack{Sale: market.Direct}, "name allergens<list"},
		{"ES", market.Pack{Sale: market.Loose, Calls: all}, "name allergens<list quid<list strength?"}, // RD 126/2015 Art. 4
		{"ES", market.Pack{Sale: market.Direct, DayMonth: true}, "name list allergens<list quid<list? net date keep? use? operator origin?"},
		{"IE", market.Pack{Sale: market.Loose}, "name allergens"}, // S.I. 489/2014
		{"IE", market.Pack{Sale: market.Direct}, "name allergens<list"},
		{"AT", market.Pack{Sale: market.Loose}, "name allergens"}, // nobody here knows its rules
	} {
		m := get(t, "eu").In(c.country)
		needs, ok := m.Needs(c.pack)
		if got := duties(needs); !ok || got != c.want {
			t.Errorf("%s %+v:\n got %s\nwant %s", c.country, c.pack, got, c.want)
		}
		if m.KnowsCountry() != (c.country != "AT") {
			t.Errorf("%s: known %v", c.country, m.KnowsCountry())
		}
	}
	if m := get(t, "us").In("DE"); m.National != nil {
		t.Error("the United States have German rules")
	}
	if !get(t, "gb").KnowsCountry() || !get(t, "ch").KnowsCountry() || get(t, "eu").KnowsCountry() {
		t.Error("a market of one country knows its rules, the Union does not")
	}
}

// Each country is tested above, speaks one language, and stands beside the
// place in its law.
func TestCountryModules(t *testing.T) {
	for _, code := range market.Countries() {
		m, ok := market.OfCountry(code)
		if !ok || m.National == nil || m.National.Country != code || len(m.National.Languages.Codes) != 1 {
			t.Errorf("%s: %+v", code, m.National)
		}
		for _, s := range []market.Sale{market.Loose, market.Direct} {
			rows, known := m.Matrix(s)
			if !known || len(rows) < 2 {
				t.Errorf("%s %s: %d rows", code, s, len(rows))
			}
			for _, want := range []role.Role{role.Name, role.Allergens} {
				if !m.Asks(s, want) {
					t.Errorf("%s %s: %s is not asked for", code, s, want)
				}
			}
		}
	}
}
