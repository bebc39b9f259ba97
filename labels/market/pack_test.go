package market_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// duties writes needs as "name list allergens<list quid? …": "?" where the
// food calls for it, "~" available elsewhere, "<" carried by.
func duties(needs []market.Need) string {
	var out []string
	for _, n := range needs {
		s := string(n.Role)
		if n.In != "" {
			s += "<" + string(n.In)
		}
		out = append(out, s+map[market.Duty]string{market.Must: "", market.When: "?", market.Elsewhere: "~"}[n.Duty])
	}
	return strings.Join(out, " ")
}

func TestNeeds(t *testing.T) {
	small := market.Pack{Sale: market.Prepacked, Face: unit.AreaOf(49*unit.MM, 20*unit.MM)}
	smallUse := small
	smallUse.UseBy, smallUse.DayMonth = true, true
	for _, c := range []struct {
		market string
		pack   market.Pack
		want   string
		source string
	}{
		{"eu", market.Pack{Sale: market.Prepacked},
			"name list allergens<list quid<list? net date keep? use? operator origin? origin-of? strength? nutrition batch", fic + " Art. 9(1)"},
		{"eu", market.Pack{Sale: market.Prepacked, Face: unit.AreaOf(50*unit.MM, 20*unit.MM)},
			"name list allergens<list quid<list? net date keep? use? operator origin? origin-of? strength? batch", fic + " Art. 16(2): 10.0 cm² is not less than 10"},
		{"eu", small, "name list~ allergens<list net date", fic + " Art. 16(2): 9.8 cm²"},
		{"eu", smallUse, "name list~ allergens<list net date keep", fic + " Art. 16(2) and Annex X 2(b)"},
		{"eu", market.Pack{Sale: market.Prepacked, Face: unit.AreaOf(50*unit.MM, 50*unit.MM), DayMonth: true},
			"name list allergens<list quid<list? net date keep? use? operator origin? origin-of? strength? nutrition", fic + " Annex V 18: 25.0 cm² is not less than 25; Directive 2011/91/EU Art. 5"},
		{"eu", market.Pack{Sale: market.Prepacked, Face: unit.AreaOf(49*unit.MM, 50*unit.MM), DayMonth: true},
			"name list allergens<list quid<list? net date keep? use? operator origin? origin-of? strength?", fic + " Annex V 18: 24.5 cm²"},
		{"eu", market.Pack{Sale: market.Prepacked, Local: true, UseBy: true, DayMonth: true},
			"name list allergens<list quid<list? net date keep use? operator origin? origin-of? strength?", fic + " Annex V 19, Annex X 2(b)"},
		{"eu", market.Pack{Sale: market.Prepacked, Fresh: true, Local: true},
			"name list allergens<list quid<list? net keep? use? operator origin? origin-of? strength? batch", fic + " Annex X 1(d): pastry eaten within 24 h"},
		{"eu", market.Pack{Sale: market.Prepacked, Fresh: true, UseBy: true, DayMonth: true, Local: true},
			"name list allergens<list quid<list? net date keep use? operator origin? origin-of? strength?", "a use-by date is never dropped as fresh"},
		{"eu", market.Pack{Sale: market.Prepacked, Net: market.Quantity{Mass: 5*unit.Gram - 1}, Local: true},
			"name list allergens<list quid<list? date keep? use? operator origin? origin-of? strength? batch", fic + " Annex IX 1: less than 5 g"},
		{"eu", market.Pack{Sale: market.Prepacked, Net: market.Quantity{Volume: 5 * unit.Millilitre}, Local: true},
			"name list allergens<list quid<list? net date keep? use? operator origin? origin-of? strength? batch", fic + " Annex IX 1: 5 ml"},
		{"eu", market.Pack{Sale: market.Prepacked, DayMonth: true, Local: true, Calls: []role.Role{role.Use, role.Keep}},
			"name list allergens<list quid<list? net date keep use operator origin? origin-of? strength?", fic + " Art. 9(1)(j): a food that calls for instructions"},
		{"eu", market.Pack{Sale: market.Prepacked, Face: unit.AreaOf(49*unit.MM, 20*unit.MM), Calls: []role.Role{role.Use}}, "name list~ allergens<list net date", fic + " Art. 16(2)"},
		{"eu", market.Pack{Sale: market.Case}, "name date keep? operator", fic + " Art. 8(7) last subparagraph"},
		{"eu", market.Pack{Sale: market.Case, UseBy: true}, "name date keep operator", fic + " Art. 8(7), Annex X 2(b)"},
		{"eu", market.Pack{Sale: market.Loose}, "name allergens", fic + " Art. 44(1)(a); the name by our own rule"},
		{"eu", market.Pack{Sale: market.Direct}, "name allergens<list", fic + " Art. 44(1)(a); a list that shows them will do"},
		{"ie", market.Pack{Sale: market.Direct}, "name allergens<list", "S.I. No 489/2014"},
		{"gb", market.Pack{Sale: market.Direct, Face: 5 * unit.CM2}, "name list allergens<list", "food.gov.uk, food packed for direct sale"},
		{"ch", market.Pack{Sale: market.Prepacked, Local: true, DayMonth: true},
			"name list allergens<list quid<list? net date keep? use? operator origin<operator origin-of? strength?", "SR 817.022.16 (from memory): country of production"},
		{"us", market.Pack{Sale: market.Prepacked}, "name net list allergens<list operator keep? nutrition", cfr101},
		{"us", market.Pack{Sale: market.Prepacked, Local: true}, "name net list allergens<list operator keep? nutrition?", cfr101 + ".9(j) (from memory)"},
		{"ca", market.Pack{Sale: market.Prepacked}, "name net list allergens<list date? keep? operator nutrition batch", "SOR/2018-108; C.R.C., c. 870"},
		{"au", market.Pack{Sale: market.Prepacked}, "name batch operator list allergens date keep? use? nutrition quid<list? net origin?", "Food Standards Code (mostly from memory)"},
		{"codex", market.Pack{Sale: market.Prepacked, Face: 9 * unit.CM2}, "name allergens<list quid<list? net operator origin?", "CXS 1-1985, 6 (from memory)"},
	} {
		needs, ok := get(t, c.market).Needs(c.pack)
		if got := duties(needs); !ok || got != c.want {
			t.Errorf("%s %+v:\n got %s\nwant %s (%s)", c.market, c.pack, got, c.want, c.source)
		}
	}
}

// A kind of pack that no one here has read about is not the same as one
// without duties.
func TestNeedsUnknown(t *testing.T) {
	for _, c := range []struct {
		market string
		sale   market.Sale
	}{{"us", market.Case}, {"us", market.Loose}, {"codex", market.Direct}, {"au", market.Direct}, {"eu", ""}} {
		if needs, ok := get(t, c.market).Needs(market.Pack{Sale: c.sale}); ok || needs != nil {
			t.Errorf("%s %q: %v, %v; want nothing known", c.market, c.sale, needs, ok)
		}
	}
}

// No relief ever takes the allergens away, and the name never goes.
func TestAllergensAlwaysAsked(t *testing.T) {
	for _, m := range market.All() {
		for i := range 64 {
			p := market.Pack{Sale: market.Prepacked, UseBy: i&1 > 0, DayMonth: i&2 > 0, Fresh: i&4 > 0, Local: i&8 > 0}
			if i&16 > 0 {
				p.Face = unit.CM2
			}
			if i&32 > 0 {
				p.Net.Mass = unit.Gram
			}
			needs, ok := m.Needs(p)
			for _, what := range []role.Role{role.Name, role.Allergens} {
				if !ok || !slices.ContainsFunc(needs, func(n market.Need) bool { return n.Role == what && n.Duty == market.Must }) {
					t.Errorf("%s %+v: %s is not asked for", m.Code, p, what)
				}
			}
		}
	}
}

// The law asks for no role that words and pages do not have.
func TestRolesAreKnown(t *testing.T) {
	known := []role.Role{role.Name, role.List, role.Allergens, role.Quid, role.Net, role.Date, role.Keep, role.Use, role.Operator, role.Origin, role.OriginOf,
		role.Strength, role.Nutrition, role.Batch}
	for _, m := range market.All() {
		for _, k := range m.Kinds {
			for _, n := range k.Needs {
				if !slices.Contains(known, n.Role) || n.In != "" && !slices.Contains(known, n.In) {
					t.Errorf("%s: role %q in %q is unknown", m.Code, n.Role, n.In)
				}
			}
		}
		for _, r := range m.Reliefs {
			for _, what := range r.Roles {
				if !slices.Contains(known, what) {
					t.Errorf("%s: relief of unknown role %q", m.Code, what)
				}
			}
		}
	}
}

func TestLanguages(t *testing.T) {
	for _, c := range []struct {
		market string
		have   []string
		lack   string
	}{
		{"ca", []string{"en"}, "fr"},
		{"ca", []string{"fr", "en"}, ""},
		{"ie", []string{"ga"}, "en"},
		{"gb", []string{"en", "fr"}, ""},
		{"ch", []string{"it"}, ""},
		{"ch", []string{"en"}, "de fr it"},
		{"eu", []string{"de"}, ""},
		{"codex", nil, ""},
	} {
		if got := strings.Join(get(t, c.market).Languages.Lacking(c.have), " "); got != c.lack {
			t.Errorf("%s with %v lacks %q, want %q", c.market, c.have, got, c.lack)
		}
	}
	if lack := get(t, "eu").Languages.Lacking([]string{"nb"}); len(lack) != 24 {
		t.Errorf("the Union has 24 official languages, %d are lacking", len(lack))
	}
}

func ExampleMarket_Needs() {
	eu, _ := market.Get("eu")
	needs, _ := eu.Needs(market.Pack{Sale: market.Case, UseBy: true})
	for _, n := range needs {
		fmt.Println(n.Role, n.Duty, n.Article)
	}
	// Output:
	// name must Art. 8(7)
	// date must Art. 8(7)
	// keep must Annex X 2(b)
	// operator must Art. 8(7)
}
