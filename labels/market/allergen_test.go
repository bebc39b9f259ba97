package market_test

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/market"
)

// What each market leaves out of the common table.
func TestAllergenTables(t *testing.T) {
	for _, c := range []struct{ market, not, source string }{
		{"eu", "pine nuts", fic + " Annex II"},
		{"gb", "pine nuts", fic + " Annex II, as assimilated"},
		{"ie", "pine nuts", fic + " Annex II"},
		{"ch", "pine nuts", "SR 817.022.16 (from memory)"},
		{"us", "rye barley oats celery mustard sulphites lupin molluscs", "21 U.S.C. 321(qq), with sesame since 2023"},
		{"ca", "celery lupin", "C.R.C., c. 870, B.01.010.1(1)"},
		{"au", "celery mustard", "Food Standards Code, Schedule 9"},
		{"codex", "pine nuts celery mustard lupin molluscs", "CXS 1-1985 as revised in 2024, 4.2.1.4 (from memory): sesame is in it"},
	} {
		var not []string
		a := get(t, c.market).Allergens
		for _, id := range market.AllergenIDs() {
			if _, ok := a.Find(id); !ok {
				not = append(not, id)
			}
		}
		want := strings.Fields(strings.ReplaceAll(c.not, "pine nuts", "pine_nuts"))
		for i := range want {
			want[i] = strings.ReplaceAll(want[i], "_", " ")
		}
		slices.Sort(not)
		slices.Sort(want)
		if !slices.Equal(not, want) {
			t.Errorf("%s leaves out %v, want %v (%s)", c.market, not, want, c.source)
		}
	}
}

// Annex II of Regulation (EU) No 1169/2011: fourteen groups, cereals and nuts
// by their own names.
func TestFourteenGroups(t *testing.T) {
	a := get(t, "eu").Allergens
	groups := map[int][]string{}
	for _, x := range a.Table {
		groups[x.Group] = append(groups[x.Group], x.ID)
	}
	for n, want := range map[int]string{
		1: "wheat,rye,barley,oats", 2: "crustaceans", 3: "eggs", 4: "fish", 5: "peanuts", 6: "soybeans", 7: "milk",
		8: "almonds,hazelnuts,walnuts,cashews,pecan nuts,brazil nuts,pistachio nuts,macadamia nuts",
		9: "celery", 10: "mustard", 11: "sesame", 12: "sulphites", 13: "lupin", 14: "molluscs",
	} {
		if got := strings.Join(groups[n], ","); got != want {
			t.Errorf("group %d: %s, want %s", n, got, want)
		}
	}
	if len(groups) != 14 {
		t.Errorf("%d groups", len(groups))
	}
}

func TestShow(t *testing.T) {
	for _, c := range []struct {
		market   string
		show     market.Show
		complete bool
		source   string
	}{
		{"eu", market.Emphasis, false, fic + " Art. 21(1)(b)"},
		{"gb", market.Emphasis, false, fic + " Art. 21(1)(b), as assimilated"},
		{"us", market.ListOrLine, true, "21 U.S.C. 343(w)"},
		{"ca", market.ListOrLine, true, "C.R.C., c. 870, B.01.010.3(1)(b)"},
		{"au", market.ListAndLine, true, "Food Standards Code, Standard 1.2.3"},
		{"codex", market.InList, false, "CXS 1-1985, 4.2.1.4 (from memory)"},
	} {
		a := get(t, c.market).Allergens
		if a.Show != c.show || a.LineComplete != c.complete {
			t.Errorf("%s: %s, %v; want %s, %v (%s)", c.market, a.Show, a.LineComplete, c.show, c.complete, c.source)
		}
	}
	for id, want := range map[string]string{"barley": "gluten", "rye": "gluten", "oats": "gluten", "wheat": "", "milk": ""} {
		if x, ok := get(t, "au").Allergens.Find(id); !ok || x.Label != want {
			t.Errorf("Australian line says %q for %s, want %q (Standard 1.2.3)", x.Label, id, want)
		}
	}
}

// The exceptions of Annex II, one by one.
func TestExceptions(t *testing.T) {
	for _, c := range []struct {
		market, id, key string
		want            bool
	}{
		{"eu", "wheat", "wheat-glucose-syrup", true},
		{"eu", "wheat", "wheat-maltodextrin", true},
		{"eu", "barley", "barley-glucose-syrup", true},
		{"eu", "barley", "wheat-glucose-syrup", false},
		{"eu", "rye", "distillate", true},
		{"eu", "milk", "distillate", true},
		{"eu", "walnuts", "distillate", true},
		{"eu", "eggs", "distillate", false},
		{"eu", "peanuts", "refined-soya-oil", false},
		{"eu", "soybeans", "refined-soya-oil", true},
		{"eu", "soybeans", "soya-tocopherols", true},
		{"eu", "soybeans", "soya-lecithin", false},
		{"eu", "milk", "lactitol", true},
		{"eu", "fish", "isinglass-fining", true},
		{"eu", "mustard", "mustard-behenic-acid", true},
		{"gb", "mustard", "mustard-behenic-acid", false}, // new in the Union's consolidated text
		{"gb", "wheat", "wheat-glucose-syrup", true},
		{"us", "wheat", "wheat-glucose-syrup", false},
	} {
		if got := get(t, c.market).Allergens.Excepted(c.id, c.key); got != c.want {
			t.Errorf("%s: %s as %s excepted = %v, want %v (%s Annex II)", c.market, c.id, c.key, got, c.want, fic)
		}
	}
}
