package market_test

import (
	"slices"
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

func TestShares(t *testing.T) {
	eu, us, codex := get(t, "eu"), get(t, "us"), get(t, "codex")
	for _, c := range []struct {
		name        string
		part        market.Part
		mass, whole string
		want        bool
		source      string
	}{
		{"water of 660 g bread", eu.List.Water, "30 g", "660 g", true, fic + " Annex VII A 1: 4.5 %"},
		{"water of 663.2 g bread", eu.List.Water, "33.2 g", "663.2 g", false, "5.006 %"},
		{"water of 830 g bread", eu.List.Water, "200 g", "830 g", false, "24.1 %"},
		{"water, exactly 5 %", eu.List.Water, "5 g", "100 g", true, "boundary"},
		{"1.9 % at the end", eu.List.Late, "1.9 g", "100 g", true, fic + " Annex VII A 6"},
		{"1.1 % at the end", eu.List.Late, "1.1 g", "100 g", true, fic + " Annex VII A 6"},
		{"2.0 % at the end", eu.List.Late, "2 g", "100 g", false, "2.0 % is not less than 2 %"},
		{"one nanogram below 2 %", eu.List.Late, "1.999999999 g", "100 g", true, "boundary"},
		{"American 2 %", us.List.Late, "2 g", "100 g", true, cfr101 + ".4(a)(2)"},
		{"chocolate chips 1.5 %", eu.List.Compound, "1.5 g", "100 g", true, fic + " Annex VII E 2(a)"},
		{"compound 4.9 % in the Union", eu.List.Compound, "4.9 g", "100 g", false, fic + " Annex VII E 2"},
		{"compound 4.9 % by Codex", codex.List.Compound, "4.9 g", "100 g", true, "CXS 1-1985, 4.2.1.3"},
		{"compound 5 % by Codex", codex.List.Compound, "5 g", "100 g", false, "CXS 1-1985, 4.2.1.3"},
		{"spices 2 %", eu.List.Mixture, "2 g", "100 g", true, fic + " Annex VII B"},
		{"and/or 2 %", eu.List.AndOr, "2 g", "100 g", false, fic + " Annex VII A 7"},
		{"pork 112 g in 100 g", eu.Quid.Over, "112 g", "100 g", true, fic + " Annex VIII 4(a)"},
		{"exactly 100 %", eu.Quid.Over, "100 g", "100 g", false, "boundary"},
		{"apricots, 800 mg/kg at 12 %", eu.Allergens.Sulphites, "96 mg", "1 kg", true, fic + " Annex II 12"},
		{"apricots, 60 mg/kg at 12 %", eu.Allergens.Sulphites, "7.2 mg", "1 kg", false, fic + " Annex II 12"},
		{"exactly 10 mg/kg in the Union", eu.Allergens.Sulphites, "10 mg", "1 kg", false, "more than 10"},
		{"exactly 10 mg/kg in the United States", us.Allergens.Sulphites, "10 mg", "1 kg", true, "21 CFR 130.9(a): 10 ppm or more"},
		{"exactly 10 mg/kg in Canada", get(t, "ca").Allergens.Sulphites, "10 mg", "1 kg", true, "C.R.C., c. 870, B.01.010.3: 10 ppm or more"},
		{"exactly 10 mg/kg in Australia", get(t, "au").Allergens.Sulphites, "10 mg", "1 kg", true, "Standard 1.2.3: 10 mg/kg or more"},
		{"just below in Australia", get(t, "au").Allergens.Sulphites, "9.9 mg", "1 kg", false, "Standard 1.2.3"},
		{"no such rule", us.List.Water, "1 g", "100 g", false, "absent"},
		{"no whole", eu.List.Late, "1 g", "0 g", false, "absent"},
	} {
		if got := c.part.Holds(mass(t, c.mass), mass(t, c.whole)); got != c.want {
			t.Errorf("%s: %v, want %v (%s)", c.name, got, c.want, c.source)
		}
	}
}

// The four shares of the law have different bases.
func TestBases(t *testing.T) {
	eu := get(t, "eu")
	for _, c := range []struct {
		name      string
		got, want market.Base
	}{
		{"order", eu.List.Order.Base, market.AtUse},
		{"added water", eu.List.Water.Base, market.Finished},
		{"percentage", eu.Quid.Base, market.AtUse},
		{"percentage with moisture lost", eu.Quid.Lost, market.UseFinished},
		{"percentage of a volatile ingredient", eu.Quid.Volatile, market.Finished},
		{"sulphites", eu.Allergens.Sulphites.Base, market.Finished},
	} {
		if c.got != c.want {
			t.Errorf("%s is taken of %q, want %q (%s)", c.name, c.got, c.want, fic)
		}
	}
	if eu.List.AndOrMost != 2 {
		t.Errorf("and/or for %d, want two (%s Annex VII A 7)", eu.List.AndOrMost, fic)
	}
	for name, base := range map[string]market.Base{"late": eu.List.Late.Base, "compound": eu.List.Compound.Base, "and/or": eu.List.AndOr.Base} {
		if base != market.Finished {
			t.Errorf("%s is taken of %q, want the finished product (%s Annex VII)", name, base, fic)
		}
	}
	if !eu.List.DefinedOnly || get(t, "au").List.DefinedOnly {
		t.Error("only the Union and Codex tie the relief to a defined composition")
	}
}

// Percentages by the house rule; the biscuits are a much published worked
// example of guidance on this rule (numbers from memory, arithmetic checked).
func TestRoundQuid(t *testing.T) {
	for _, c := range []struct {
		name, mass, whole string
		n                 int64
		decimals          int
	}{
		{"butter biscuits, 29.586 %", "50 g", "169 g", 30, 0},
		{"fruit in batter, 30 %", "300 g", "1000 g", 30, 0},
		{"rum left in cake, 1.5 %", "6 g", "400 g", 15, 1},
		{"butter, 50 % of the finished food", "250 g", "500 g", 50, 0},
		{"almonds, 52 % of the finished food", "260 g", "500 g", 52, 0},
		{"9.94 %", "9.94 g", "100 g", 99, 1},
		{"9.96 % becomes 10", "9.96 g", "100 g", 10, 0},
		{"10.5 % goes up", "10.5 g", "100 g", 11, 0},
		{"a trace is not zero", "1 mg", "1 kg", 1, 1},
		{"112 %", "112 g", "100 g", 112, 0},
		{"nothing", "0 g", "100 g", 0, 1},
	} {
		got, ok := market.RoundQuid(mass(t, c.mass), mass(t, c.whole))
		if !ok || got != (market.Figure{N: c.n, Decimals: c.decimals}) {
			t.Errorf("%s: %+v, want %d × 10^-%d", c.name, got, c.n, c.decimals)
		}
	}
	for _, bad := range [][2]unit.Mass{{1, 0}, {-1, 5}, {5000, 1}} {
		if got, ok := market.RoundQuid(bad[0], bad[1]); ok {
			t.Errorf("%d of %d gave %v", bad[0], bad[1], got)
		}
	}
	if !market.QuidRounding().House {
		t.Error("the rounding is a house rule and must say so")
	}
}

// 21 CFR 101.4(a)(2): the phrase may name 2, 1.5, 1 or 0.5 percent, and none
// of the group may exceed the figure.
func TestThreshold(t *testing.T) {
	for _, c := range []struct {
		market string
		masses []unit.Mass
		want   unit.Share
		ok     bool
	}{
		{"us", []unit.Mass{2 * unit.Gram, unit.Gram}, 2 * unit.Percent, true},
		{"us", []unit.Mass{1500 * unit.Milligram}, 3 * unit.Percent / 2, true},
		{"us", []unit.Mass{1000 * unit.Milligram}, unit.Percent, true},
		{"us", []unit.Mass{400 * unit.Milligram, 500 * unit.Milligram}, unit.Percent / 2, true},
		{"us", []unit.Mass{2001 * unit.Milligram}, 0, false},
		{"us", nil, 0, false},
		{"eu", []unit.Mass{unit.Gram}, 0, false},
	} {
		if got, ok := get(t, c.market).List.Threshold(c.masses, 100*unit.Gram); got != c.want || ok != c.ok {
			t.Errorf("%s %v: %s %v, want %s %v", c.market, c.masses, got, ok, c.want, c.ok)
		}
	}
}

func TestTriggers(t *testing.T) {
	for _, c := range []struct {
		market, key, of, mass, whole string
		want                         bool
		source                       string
	}{
		{"eu", "laxative", "added-polyols", "10 g", "100 g", false, fic + " Annex III 2.4: more than 10 %"},
		{"eu", "laxative", "added-polyols", "10.1 g", "100 g", true, fic + " Annex III 2.4"},
		{"eu", "liquorice", "glycyrrhizinic-acid", "100 mg", "1 kg", true, fic + " Annex III 3.1"},
		{"eu", "liquorice", "glycyrrhizinic-acid", "99 mg", "1 kg", false, fic + " Annex III 3.1"},
		{"eu", "liquorice-strong", "glycyrrhizinic-acid", "4 g", "1 kg", true, fic + " Annex III 3.2"},
		{"eu", "with-sweeteners", "sweeteners", "1 mg", "1 kg", true, fic + " Annex III 2.1"},
		{"eu", "with-sweeteners", "sweeteners", "0 g", "1 kg", false, fic + " Annex III 2.1"},
		{"ch", "gluten-traces", "gluten-by-mixing", "200 mg", "1 kg", false, "SR 817.022.16 (from memory): more than 200 mg/kg"},
		{"ch", "allergen-traces", "allergen-by-mixing", "1.1 g", "1 kg", true, "SR 817.022.16 (from memory): more than 1 g/kg"},
	} {
		triggers := get(t, c.market).Triggers
		i := slices.IndexFunc(triggers, func(x market.Trigger) bool { return x.Key == c.key && x.Of == c.of })
		if i < 0 {
			t.Errorf("%s: no statement %q of %q", c.market, c.key, c.of)
			continue
		}
		if got := triggers[i].Called(mass(t, c.mass), mass(t, c.whole)); got != c.want {
			t.Errorf("%s %s, %s in %s: %v (%s)", c.market, c.key, c.mass, c.whole, got, c.source)
		}
	}
}
