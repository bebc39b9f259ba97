package market_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"

	"pgregory.net/rapid"
)

// amount reads "9.96 g", "47 kcal", "137 mg" in billionths of g, kJ or kcal.
func amount(t *testing.T, s string) market.Amount {
	t.Helper()
	num, in, _ := strings.Cut(s, " ")
	if in == "kJ" || in == "kcal" || in == "%" {
		in = "g"
	}
	return market.Amount(mass(t, num+" "+in))
}

// printed writes "10 g", "0.5 g", "< 0.5 g" from a rounded value.
func printed(r market.Rounded) string {
	s := strconv.FormatInt(r.N, 10)
	if d := r.Decimals; d > 0 {
		s = fmt.Sprintf("%0*d", d+1, r.N)
		s = s[:len(s)-d] + "." + s[len(s)-d:]
	}
	if r.Less {
		s = "< " + s
	}
	return s + " " + r.Unit
}

func TestRound(t *testing.T) {
	const us, ca = cfr101 + ".9(c)", "C.R.C., c. 870, table to B.01.401"
	for _, c := range []struct{ market, key, in, want, source string }{
		{"eu", "fat", "9.96 g", "10 g", guide + ": both readings give 10"},
		{"eu", "fat", "0.5 g", "< 0.5 g", guide},
		{"eu", "fat", "0.51 g", "0.5 g", guide},
		{"eu", "fat", "10.4 g", "10 g", guide},
		{"eu", "fat", "10.5 g", "11 g", guide + ": half up"},
		{"eu", "fat", "9.94 g", "9.9 g", guide},
		{"eu", "fat", "0 g", "0.0 g", guide},
		{"eu", "carbohydrate", "55 g", "55 g", guide},
		{"eu", "sugars", "30.04 g", "30 g", guide},
		{"eu", "protein", "6.25 g", "6.3 g", guide},
		{"eu", "fibre", "0.49 g", "< 0.5 g", guide},
		{"eu", "polyols", "9.9510 g", "10 g", guide},
		{"eu", "starch", "12.5 g", "13 g", guide},
		{"eu", "saturates", "0.1 g", "< 0.1 g", guide},
		{"eu", "saturates", "0.14 g", "0.1 g", guide},
		{"eu", "mono-unsaturates", "0.15 g", "0.2 g", guide},
		{"eu", "polyunsaturates", "10.2 g", "10 g", guide},
		{"eu", "salt", "0.0125 g", "< 0.01 g", guide},
		{"eu", "salt", "0.0130 g", "0.01 g", guide},
		{"eu", "salt", "0.9940 g", "0.99 g", guide},
		{"eu", "salt", "0.9950 g", "1.0 g", guide + ": 1.00 is printed as 1 g is"},
		{"eu", "salt", "1.04 g", "1.0 g", guide},
		{"eu", "energy-kj", "1986 kJ", "1986 kJ", guide},
		{"eu", "energy-kj", "1986.5 kJ", "1987 kJ", guide + ": half up"},
		{"eu", "energy-kcal", "474.49 kcal", "474 kcal", guide},
		{"eu", "vitamin-c", "12.34 mg", "12 mg", guide + ": two significant figures"},
		{"eu", "vitamin-c", "1.25 mg", "1.3 mg", guide},
		{"eu", "calcium", "123.4 mg", "123 mg", guide + ": three significant figures"},
		{"eu", "vitamin-d", "0.996 µg", "1.0 µg", guide},
		{"eu", "iodine", "99.96 µg", "100 µg", guide},
		{"gb", "salt", "0.9940 g", "0.99 g", guide},
		{"us", "energy-kcal", "4.4 kcal", "0 kcal", us + "(1)"},
		{"us", "energy-kcal", "5 kcal", "5 kcal", us + "(1)"},
		{"us", "energy-kcal", "47 kcal", "45 kcal", us + "(1)"},
		{"us", "energy-kcal", "50 kcal", "50 kcal", us + "(1)"},
		{"us", "energy-kcal", "53 kcal", "50 kcal", us + "(1)"},
		{"us", "energy-kcal", "54.9 kcal", "50 kcal", us + "(1)"},
		{"us", "energy-kcal", "55 kcal", "60 kcal", us + "(1)"},
		{"us", "fat", "0.49 g", "0 g", us + "(2)"},
		{"us", "fat", "4.74 g", "4.5 g", us + "(2)"},
		{"us", "fat", "4.75 g", "5 g", us + "(2)"},
		{"us", "fat", "5.4 g", "5 g", us + "(2)"},
		{"us", "saturates", "0.5 g", "0.5 g", us + "(2)(i)"},
		{"us", "trans", "0.74 g", "0.5 g", us + "(2)(ii)"},
		{"us", "cholesterol", "1.9 mg", "0 mg", us + "(3)"},
		{"us", "cholesterol", "2 mg", "< 5 mg", us + "(3)"},
		{"us", "cholesterol", "5 mg", "< 5 mg", us + "(3)"},
		{"us", "cholesterol", "8 mg", "10 mg", us + "(3)"},
		{"us", "sodium", "4.9 mg", "0 mg", us + "(4)"},
		{"us", "sodium", "137 mg", "135 mg", us + "(4)"},
		{"us", "sodium", "143 mg", "140 mg", us + "(4)"},
		{"us", "sodium", "145 mg", "150 mg", us + "(4)"},
		{"us", "carbohydrate", "0.7 g", "< 1 g", us + "(6)"},
		{"us", "carbohydrate", "0.49 g", "0 g", us + "(6)"},
		{"us", "fibre", "1.4 g", "1 g", us + "(6)(i)"},
		{"us", "added-sugars", "0.5 g", "< 1 g", us + "(6)(iii)"},
		{"us", "protein", "0.99 g", "< 1 g", us + "(7)"},
		{"ca", "energy-kcal", "55 kcal", "60 kcal", ca},
		{"ca", "trans", "0.19 g", "0.2 g", ca},
		{"ca", "trans", "0.04 g", "0 g", ca},
		{"ca", "energy-kcal", "3.4 kcal", "3 kcal", ca},
		{"ca", "energy-kcal", "4.6 kcal", "5 kcal", ca},
		{"ca", "energy-kcal", "7.4 kcal", "5 kcal", ca},
		{"ca", "energy-kcal", "50 kcal", "50 kcal", ca},
		{"ca", "energy-kcal", "54 kcal", "50 kcal", ca},
		{"ca", "fat", "0.44 g", "0.4 g", ca},
		{"ca", "fat", "0.46 g", "0.5 g", ca},
		{"ca", "fat", "5.2 g", "5 g", ca},
		{"ca", "protein", "0.44 g", "0.4 g", ca},
		{"ca", "protein", "0.6 g", "1 g", ca},
		{"ca", "cholesterol", "2.4 mg", "0 mg", ca},
		{"ca", "cholesterol", "22 mg", "20 mg", ca},
		{"ca", "sodium", "3 mg", "3 mg", ca},
		{"ca", "sodium", "93 mg", "95 mg", ca},
		{"ca", "sodium", "146 mg", "150 mg", ca},
		{"ca", "trans", "0.24 g", "0.2 g", ca},
		{"ca", "trans", "0.6 g", "0.5 g", ca},
		{"ca", "trans", "5.2 g", "5 g", ca},
		{"ca", "sugars", "0.5 g", "1 g", ca},
		{"ca", "sugars", "0.49 g", "0 g", ca},
		{"us", "sodium", "5 mg", "5 mg", us + "(4)"},
		{"au", "energy-kj", "1986 kJ", "1990 kJ", "Standard 1.2.8 (from memory): three significant figures"},
		{"au", "sodium", "4.5670 mg", "5 mg", "Standard 1.2.8 (from memory); whole milligrams are a house rule"},
		{"au", "sodium", "1234 mg", "1230 mg", "Standard 1.2.8 (from memory): three significant figures"},
		{"au", "fat", "6.04 g", "6.0 g", "Standard 1.2.8 (from memory); tenths are a house rule"},
		{"us", "vitamin-d", "0.25 µg", "0.3 µg", us + "(8)(iii): daily value below 25, so tenths (copy of the guidance)"},
		{"us", "iron", "1.04 mg", "1.0 mg", us + "(8)(iii): the same"},
		{"us", "calcium", "124 mg", "120 mg", us + "(8)(iii) (tens: from memory)"},
		{"us", "potassium", "235 mg", "240 mg", us + "(8)(iii) (tens: from memory)"},
		{"ca", "potassium", "4.9 mg", "0 mg", ca},
		{"ca", "potassium", "44 mg", "40 mg", ca},
		{"ca", "calcium", "62 mg", "50 mg", ca},
		{"ca", "calcium", "240 mg", "250 mg", ca},
		{"ca", "calcium", "274 mg", "250 mg", ca},
		{"ca", "iron", "0.04 mg", "0 mg", ca},
		{"ca", "iron", "0.44 mg", "0.4 mg", ca},
		{"ca", "iron", "0.6 mg", "0.50 mg", ca},
		{"ca", "iron", "2.8 mg", "3.0 mg", ca},
	} {
		got, ok := get(t, c.market).Nutrition.Round(c.key, amount(t, c.in))
		if !ok || printed(got) != c.want {
			t.Errorf("%s %s %s: %q, want %q (%s)", c.market, c.key, c.in, printed(got), c.want, c.source)
		}
	}
}

// The guidance lets "0 g" stand for "< 0.5 g"; the American "less than" may not
// be replaced so.
func TestZeroInPlace(t *testing.T) {
	for _, c := range []struct {
		market, key, in string
		want            bool
	}{{"eu", "fat", "0.4 g", true}, {"eu", "salt", "0.01 g", true}, {"us", "protein", "0.7 g", false}, {"eu", "fat", "0.6 g", false}} {
		if got, _ := get(t, c.market).Nutrition.Round(c.key, amount(t, c.in)); got.OrZero != c.want {
			t.Errorf("%s %s %s: or zero = %v", c.market, c.key, c.in, got.OrZero)
		}
	}
}

// What nobody has read is not guessed.
func TestRoundUnknown(t *testing.T) {
	for _, c := range []struct {
		market, key string
		v           market.Amount
	}{
		{"codex", "fat", market.One}, {"us", "salt", market.One}, {"eu", "fat", -1},
		{"codex", "fat", market.One}, {"eu", "", 0},
	} {
		if got, ok := get(t, c.market).Nutrition.Round(c.key, c.v); ok {
			t.Errorf("%s %q %d: %q", c.market, c.key, c.v, printed(got))
		}
	}
}

// Rounding never moves a value by more than its step and never falls as the
// value rises.
func TestRoundProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, _ := market.Get(rapid.SampledFrom([]string{"eu", "us", "ca", "au"}).Draw(t, "market"))
		x := rapid.SampledFrom(m.Nutrition.Nutrients).Draw(t, "nutrient")
		a := market.Amount(rapid.Int64Range(0, 120_000_000_000).Draw(t, "a"))
		b := a + market.Amount(rapid.Int64Range(0, 2_000_000_000).Draw(t, "more"))
		ra, ok := m.Nutrition.Round(x.Key, a)
		rb, ok2 := m.Nutrition.Round(x.Key, b)
		if ok != ok2 || ok != (len(x.Bands) > 0) {
			t.Fatalf("%s %s: rounded %v and %v", m.Code, x.Key, ok, ok2)
		}
		if value(ra) > value(rb) {
			t.Fatalf("%s %s: %d gives %s, %d gives %s", m.Code, x.Key, a, printed(ra), b, printed(rb))
		}
	})
}

// value is a rounded value in millionths of its unit; "< 5" counts as just
// below 5.
func value(r market.Rounded) int64 {
	n := r.N
	for range 6 - r.Decimals {
		n *= 10
	}
	if r.Less {
		n--
	}
	return n
}

// Regulation (EU) No 1169/2011 Annex XIV; the sums are worked by hand.
func TestEnergy(t *testing.T) {
	g := unit.Gram
	for _, c := range []struct {
		name     string
		eaten    []market.Eaten
		kj, kcal market.Amount
	}{
		{"carbohydrate 55, protein 6, fat 25, fibre 3",
			[]market.Eaten{{"carbohydrate", 55 * g}, {"protein", 6 * g}, {"fat", 25 * g}, {"fibre", 3 * g}}, 1986, 475},
		{"carbohydrate 20, of which polyols 10",
			[]market.Eaten{{"carbohydrate", 10 * g}, {"polyols", 10 * g}}, 270, 64},
		{"alcohol 1, organic acids 1, salatrims 1, erythritol 50",
			[]market.Eaten{{"alcohol", g}, {"organic acids", g}, {"salatrims", g}, {"erythritol", 50 * g}}, 29 + 13 + 25, 7 + 3 + 6},
		{"nothing", nil, 0, 0},
	} {
		kj, kcal, err := get(t, "eu").Nutrition.Energy(c.eaten)
		if err != nil || kj != c.kj*market.One || kcal != c.kcal*market.One {
			t.Errorf("%s: %d and %d billionths (%v), want %d kJ and %d kcal", c.name, kj, kcal, err, c.kj, c.kcal)
		}
	}
	// 475 kcal × 4.184 would be 1987 kJ: the two are not converted.
	if converted := int64(475 * 4184 / 1000); converted == 1986 {
		t.Error("the example no longer shows the difference")
	}
	if _, _, err := get(t, "eu").Nutrition.Energy([]market.Eaten{{"ash", g}}); err == nil {
		t.Error("an unknown key counted as no energy")
	}
	if _, kcal, err := get(t, "us").Nutrition.Energy([]market.Eaten{{"alcohol", g}}); err != nil || kcal != 7*market.One {
		t.Errorf("a gram of alcohol is %d billionths of a kcal in the United States, %v; 7 are usual", kcal, err)
	}
}

// Annex XIV of Regulation (EU) No 1169/2011, and what the other markets are
// remembered to use; in tenths of a kJ and of a kcal per gram.
func TestFactors(t *testing.T) {
	const annex = "carbohydrate 170 40, polyols 100 24, protein 170 40, fat 370 90, salatrims 250 60, alcohol 290 70, " +
		"organic acids 130 30, fibre 80 20, erythritol 0 0"
	for code, want := range map[string]string{
		"eu": annex, "gb": annex, "ie": annex, "ch": annex,
		"us":    "carbohydrate 0 40, protein 0 40, fat 0 90, alcohol 0 70",                                      // 21 CFR 101.9(c)(1)(i)(B), from memory; alcohol is common practice
		"ca":    "carbohydrate 0 40, protein 0 40, fat 0 90, alcohol 0 70",                                      // from memory; alcohol is the agency's practice
		"au":    "carbohydrate 170 0, protein 170 0, fat 370 0, alcohol 290 0, organic acids 130 0, fibre 80 0", // Schedule 11, from memory
		"codex": "carbohydrate 170 40, protein 170 40, fat 370 90, alcohol 290 70, organic acids 130 30",        // CXG 2-1985, from memory
	} {
		var got []string
		for _, f := range get(t, code).Nutrition.Factors {
			got = append(got, fmt.Sprintf("%s %d %d", f.Key, f.Kj, f.Kcal))
		}
		if s := strings.Join(got, ", "); s != want {
			t.Errorf("%s: %s, want %s", code, s, want)
		}
	}
}

// Daily values of 21 CFR 101.9(c)(8)(iv) and (9) as amended in 2016, from
// memory; sugars and trans fat have none.
func TestDailyValues(t *testing.T) {
	n := get(t, "us").Nutrition
	for key, want := range map[string]string{
		"energy-kcal": "2000 g", "fat": "78 g", "saturates": "20 g", "cholesterol": "300 mg", "sodium": "2300 mg",
		"carbohydrate": "275 g", "fibre": "28 g", "added-sugars": "50 g", "protein": "50 g", "vitamin-d": "20 µg",
		"calcium": "1300 mg", "iron": "18 mg", "potassium": "4700 mg", "sugars": "0 g", "trans": "0 g",
	} {
		if x, ok := n.Find(key); !ok || x.Reference != amount(t, want) || !x.Must {
			t.Errorf("%s: %s, want %s", key, x.Reference, want)
		}
	}
}

// Two Canadian foods for a portion of 30 g, by the table to B.01.401 of C.R.C.,
// c. 870: shortbread, and a marshmallow that is free of fat, of saturated and
// trans fat and of cholesterol (what makes it free is from memory).
func TestCanadianPanels(t *testing.T) {
	for food, c := range map[string]struct{ per100, want string }{
		"shortbread": {"energy-kcal 512, fat 28, saturates 17.5, trans 0.9, cholesterol 0.074, sodium 0.31, carbohydrate 60, fibre 1.6, sugars 18, protein 6, potassium 0.08, calcium 0.02, iron 0.0011",
			"150 kcal, 8 g 11 %, 5 g, 0.3 g 28 %, 18 g, 0 g 0 %, 5 g 5 %, 2 g, 20 mg, 95 mg 4 %, 20 mg 1 %, 10 mg 1 %, 0.3 mg 2 %"},
		"marshmallow": {"energy-kcal 338, fat 0.4, saturates 0.1, trans 0, cholesterol 0, sodium 0.018, carbohydrate 83, fibre 0, sugars 78, protein 1.3, potassium 0.025, calcium 0.012, iron 0.0003",
			"100 kcal, 0 g 0 %, 0 g, 0 g 0 %, 25 g, 0 g 0 %, 23 g 23 %, 0.4 g, 0 mg, 5 mg 0 %, 10 mg 0 %, 0 mg 0 %, 0.1 mg 1 %"},
	} {
		exact := map[string]market.Amount{}
		for _, f := range strings.Split(c.per100, ", ") {
			key, figure, _ := strings.Cut(f, " ")
			exact[key] = amount(t, figure+" g") * 30 / 100
		}
		n, got := get(t, "ca").Nutrition, []string{}
		of := func(key string) market.Amount { return exact[key] }
		for _, x := range n.Nutrients {
			r, _ := n.RoundFor(x.Key, of)
			one := printed(r)
			if p, ok := n.PercentFor(x.Key, of); ok {
				one += " " + printed(p)
			}
			got = append(got, one)
		}
		if g := strings.Join(got, ", "); g != c.want {
			t.Errorf("%s\n got %s\nwant %s", food, g, c.want)
		}
	}
}

// Percentages of the daily value: 21 CFR 101.9(c)(7)(ii), (8)(iii), (9) and
// the Table of Daily Values of C.R.C., c. 870, both from memory but for the
// steps of vitamins and minerals.
func TestPercentFor(t *testing.T) {
	for _, c := range []struct{ market, key, in, want string }{
		{"us", "fat", "8 g", "10 %"},
		{"us", "sodium", "160 mg", "7 %"},
		{"us", "added-sugars", "10 g", "20 %"},
		{"us", "vitamin-d", "2 µg", "10 %"},
		{"us", "calcium", "260 mg", "20 %"},
		{"us", "potassium", "240 mg", "6 %"}, // 5.1 % is nearer to 6 than to 4
		{"us", "energy-kcal", "230 kcal", ""},
		{"us", "protein", "3 g", ""},
		{"us", "trans", "1 g", ""},
		{"us", "sugars", "12 g", ""},
		{"ca", "saturates", "1 g", ""},
		{"ca", "trans", "0.4 g", "7 %"}, // with the same 1 g of saturated fat: 1.4 of 20 g
		{"ca", "sugars", "22 g", "22 %"},
		{"ca", "fibre", "2 g", "7 %"},
		{"ca", "carbohydrate", "26 g", ""},
		{"ca", "potassium", "225 mg", "7 %"}, // 6.6 of 3400 mg, to the nearest whole
		{"ca", "potassium", "24 mg", "1 %"},  // 20 mg as rounded: 0.59 %
		{"ca", "calcium", "11.4 mg", "1 %"},  // 10 mg as rounded: 0.77 %
		{"ca", "iron", "0.33 mg", "2 %"},     // 0.3 mg as rounded: 1.67 %
		{"eu", "salt", "0.4 g", "7 %"},
		{"au", "fat", "8 g", ""},
	} {
		n := get(t, c.market).Nutrition
		got, ok := n.PercentFor(c.key, func(key string) market.Amount {
			if key == c.key {
				return amount(t, c.in)
			}
			return market.One
		})
		if ok != (c.want != "") || ok && printed(got) != c.want {
			t.Errorf("%s %s of %s: %q (%v), want %q", c.market, c.in, c.key, printed(got), ok, c.want)
		}
	}
}

// The guidance gives three significant figures to eight vitamins and minerals.
func TestSignificantFigures(t *testing.T) {
	three := strings.Fields("vitamin-a folic-acid chloride calcium phosphorus magnesium iodine potassium")
	for _, x := range get(t, "eu").Nutrition.Nutrients[13:] {
		want := 2
		if slices.Contains(three, x.Key) {
			want = 3
		}
		if len(x.Bands) != 1 || x.Bands[0].Sig != want {
			t.Errorf("%s: %+v, want %d significant figures (%s)", x.Key, x.Bands, want, guide)
		}
	}
}

// Regulation (EU) No 1169/2011 Annex XIII B.
func TestReferenceIntake(t *testing.T) {
	n := get(t, "eu").Nutrition
	for _, c := range []struct{ key, in, exact, print string }{
		{"energy-kcal", "190 kcal", "9.5 %", "10 %"}, // 40 g of a food with 475 kcal
		{"sugars", "12 g", "13.333333333 %", "13 %"}, // 40 g of a food with 30 g
		{"energy-kj", "8400 kJ", "100 %", "100 %"},
		{"fat", "70 g", "100 %", "100 %"},
		{"saturates", "20 g", "100 %", "100 %"},
		{"carbohydrate", "260 g", "100 %", "100 %"},
		{"protein", "50 g", "100 %", "100 %"},
		{"salt", "6 g", "100 %", "100 %"},
	} {
		got, ok := n.OfReference(c.key, amount(t, c.in))
		if !ok || got != amount(t, c.exact) {
			t.Errorf("%s of %s: %d, want %s", c.in, c.key, got, c.exact)
		}
		if r, _ := n.RoundPercent(got); printed(r) != c.print {
			t.Errorf("%s of %s prints %q, want %q", c.in, c.key, printed(r), c.print)
		}
	}
	for _, key := range []string{"fibre", "starch", "nothing"} {
		if _, ok := n.OfReference(key, market.One); ok {
			t.Errorf("%s has no reference intake in the annex", key)
		}
	}
}

// Annex XIII A: the reference values, and the 15 % that make a significant
// amount.
func TestNutrientReferenceValues(t *testing.T) {
	n := get(t, "eu").Nutrition
	for key, want := range map[string]string{
		"vitamin-a": "800 µg", "vitamin-d": "5 µg", "vitamin-e": "12 mg", "vitamin-k": "75 µg", "vitamin-c": "80 mg",
		"thiamin": "1.1 mg", "riboflavin": "1.4 mg", "niacin": "16 mg", "vitamin-b6": "1.4 mg", "folic-acid": "200 µg",
		"vitamin-b12": "2.5 µg", "biotin": "50 µg", "pantothenic-acid": "6 mg", "potassium": "2000 mg",
		"chloride": "800 mg", "calcium": "800 mg", "phosphorus": "700 mg", "magnesium": "375 mg", "iron": "14 mg",
		"zinc": "10 mg", "copper": "1 mg", "manganese": "2 mg", "fluoride": "3.5 mg", "selenium": "55 µg",
		"chromium": "40 µg", "molybdenum": "50 µg", "iodine": "150 µg",
	} {
		x, ok := n.Find(key)
		if !ok || x.Reference != amount(t, want) {
			t.Errorf("%s: %d, want %s", key, x.Reference, want)
		}
	}
	if !n.Significant("calcium", amount(t, "120 mg")) || n.Significant("calcium", amount(t, "119.9 mg")) {
		t.Error("15 % of 800 mg calcium is 120 mg")
	}
}

// Annex XV: the order of the declaration.
func TestNutritionOrder(t *testing.T) {
	var must, all []string
	for _, x := range get(t, "eu").Nutrition.Nutrients[:13] {
		all = append(all, x.Key)
		if x.Must {
			must = append(must, x.Key)
		}
	}
	if got := strings.Join(all, " "); got != "energy-kj energy-kcal fat saturates mono-unsaturates polyunsaturates carbohydrate sugars polyols starch fibre protein salt" {
		t.Errorf("order: %s", got)
	}
	if got := strings.Join(must, " "); got != "energy-kj energy-kcal fat saturates carbohydrate sugars protein salt" {
		t.Errorf("mandatory: %s", got)
	}
}

func TestSaltAndProtein(t *testing.T) {
	if got := market.Salt(mass(t, "0.4 g")); got != unit.Gram {
		t.Errorf("0.4 g sodium = %s salt, want 1 g (%s Annex I)", got, fic)
	}
	if got := market.Protein(unit.Gram); got != mass(t, "6.25 g") {
		t.Errorf("1 g nitrogen = %s protein, want 6.25 g (%s Annex I)", got, fic)
	}
}

// FDA table on rounding: vitamins and minerals as percentages.
func TestMicroPercent(t *testing.T) {
	for in, want := range map[string]string{"1.9 %": "0 %", "2.9 %": "2 %", "3 %": "4 %", "10 %": "10 %", "11 %": "10 %", "12.4 %": "10 %",
		"12.5 %": "15 %", "50 %": "50 %", "54 %": "50 %", "55 %": "60 %"} {
		if got, ok := market.MicroPercent(amount(t, in)); !ok || printed(got) != want {
			t.Errorf("%s: %q, want %q", in, printed(got), want)
		}
	}
}

func ExampleNutrition_Round() {
	eu, _ := market.Get("eu")
	r, _ := eu.Nutrition.Round("saturates", market.Amount(140*unit.Milligram))
	fmt.Println(r.N, r.Decimals, r.Unit, r.Less)
	// Output: 1 1 g false
}
