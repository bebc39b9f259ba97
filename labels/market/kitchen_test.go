package market_test

import (
	"fmt"
	"slices"
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

func limit(t *testing.T, code, key string) market.Limit {
	t.Helper()
	k := get(t, code).Kitchen
	i := slices.IndexFunc(k, func(l market.Limit) bool { return l.Key == key })
	if i < 0 {
		t.Fatalf("%s: no limit %q", code, key)
	}
	return k[i]
}

// Cooling that starts with 57 °C at 10:00; the whole time counts from the
// start, not from the end of the first stage (FDA Food Code 3-501.14).
func TestCooling(t *testing.T) {
	clock := func(h, m unit.Span) unit.Span { return (h-10)*unit.Hour + m*unit.Minute }
	for _, c := range []struct {
		key  string
		deg  int64
		inF  bool
		at   unit.Span
		want bool
	}{
		{"cooling-first", 21, false, clock(12, 0), true},
		{"cooling-first", 22, false, clock(12, 0), false},
		{"cooling-first", 21, false, clock(11, 30), true},
		{"cooling-first", 21, false, clock(12, 1), false},
		{"cooling-first", 70, true, clock(12, 0), true},
		{"cooling-first", 71, true, clock(12, 0), false},
		{"cooling-whole", 5, false, clock(16, 0), true},
		{"cooling-whole", 6, false, clock(16, 0), false},
		{"cooling-whole", 5, false, clock(16, 1), false},
		{"cooling-whole", 41, true, clock(16, 0), true},
		{"cooling-from-ambient", 5, false, clock(14, 0), true},
		{"cooling-from-ambient", 5, false, clock(14, 1), false},
	} {
		temp := unit.Celsius(c.deg)
		if c.inF {
			temp = unit.Fahrenheit(c.deg)
		}
		if got := limit(t, "us", c.key).Met(temp, c.inF, c.at); got != c.want {
			t.Errorf("%s: %d after %s: %v, want %v", c.key, c.deg, c.at, got, c.want)
		}
	}
}

// The pairs of a rule are kept as pairs; the exact conversion stands beside
// them to show that they are not converted.
func TestPairs(t *testing.T) {
	for _, c := range []struct {
		market, key string
		c, f        string
		stated      string
		exactF      string // of the °C figure
		source      string
	}{
		{"us", "cold", "5 °C", "41 °F", "both", "41 °F", foodCode + " 3-501.16(A)(2)"},
		{"us", "hot", "57 °C", "135 °F", "both", "134.6 °F", foodCode + " 3-501.16(A)(1)"},
		{"us", "cooling-first", "21 °C", "70 °F", "both", "69.8 °F", foodCode + " 3-501.14(A)"},
		{"us", "eggs-to-order", "63 °C", "145 °F", "both", "145.4 °F", foodCode + " 3-401.11"},
		{"us", "pooled-eggs", "68 °C", "155 °F", "both", "154.4 °F", foodCode + " 3-401.11"},
		{"us", "reheating", "74 °C", "165 °F", "both", "165.2 °F", foodCode + " 3-403.11"},
		{"us", "plant-food-for-hot-holding", "57 °C", "135 °F", "both", "134.6 °F", foodCode + " 3-401.13"},
		{"gb", "cold", "8 °C", "46.4 °F", "C", "46.4 °F", "Food Safety and Hygiene Regulations 2013, Schedule 4"},
		{"gb", "hot", "63 °C", "145.4 °F", "C", "145.4 °F", "Food Safety and Hygiene Regulations 2013, Schedule 4"},
		{"gb", "core-70", "70 °C", "158 °F", "C", "158 °F", "FSA cooking advice"},
		{"eu", "frozen", "-18 °C", "-0.4 °F", "C", "-0.4 °F", "Directive 89/108/EEC (from memory)"},
		{"eu", "fr-cooling", "10 °C", "50 °F", "C", "50 °F", "Arrêté du 21 décembre 2009 (from memory)"},
		{"us", "egg-whole", "60 °C", "140 °F", "F", "140 °F", "9 CFR 590.570"},
	} {
		to := limit(t, c.market, c.key).To
		if to.C != temp(t, c.c) || to.F != temp(t, c.f) || to.Stated != c.stated {
			t.Errorf("%s %s: %s and %s by %s, want %s and %s by %s (%s)", c.market, c.key, to.C, to.F, to.Stated, c.c, c.f, c.stated, c.source)
		}
		if to.C != temp(t, c.exactF) {
			t.Errorf("%s %s: %s is not exactly %s", c.market, c.key, to.C, c.exactF)
		}
	}
}

func temp(t *testing.T, s string) unit.Temp {
	t.Helper()
	x, err := unit.ParseTemp(s)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestHoldingTimes(t *testing.T) {
	for _, c := range []struct {
		market, key string
		hold        unit.Span
		within      unit.Span
		days        int
		source      string
	}{
		{"us", "eggs-to-order", 15, 0, 0, foodCode + " 3-401.11"},
		{"us", "pooled-eggs", 17, 0, 0, foodCode + " 3-401.11 (from memory)"},
		{"us", "reheating", 15, 2 * unit.Hour, 0, foodCode + " 3-403.11"},
		{"us", "ready-to-eat", 0, 0, 7, foodCode + " 3-501.17"},
		{"us", "time-only", 0, 4 * unit.Hour, 0, foodCode + " 3-501.19 (from memory)"},
		{"us", "time-only-cool", 0, 6 * unit.Hour, 0, foodCode + " 3-501.19 (from memory)"},
		{"gb", "cold-display", 0, 4 * unit.Hour, 0, "FSA guidance 2016"},
		{"gb", "hot-display", 0, 2 * unit.Hour, 0, "FSA guidance 2016"},
		{"gb", "core-60", 45 * unit.Minute, 0, 0, "FSA cooking advice (from memory)"},
		{"gb", "core-65", 10 * unit.Minute, 0, 0, "FSA cooking advice (from memory)"},
		{"gb", "core-70", 2 * unit.Minute, 0, 0, "FSA cooking advice"},
		{"gb", "core-75", 30, 0, 0, "FSA cooking advice (from memory)"},
		{"gb", "core-80", 6, 0, 0, "FSA cooking advice (from memory)"},
		{"eu", "fr-cooling", 0, 2 * unit.Hour, 0, "Arrêté du 21 décembre 2009 (from memory)"},
	} {
		l := limit(t, c.market, c.key)
		if l.Hold != c.hold || l.Within != c.within || l.Days != c.days {
			t.Errorf("%s %s: hold %s, within %s, %d days (%s)", c.market, c.key, l.Hold, l.Within, l.Days, c.source)
		}
	}
}

// 9 CFR 590.570: °F, and minutes in seconds; the °C column of the published
// table is the exact conversion to two decimals.
func TestLiquidEgg(t *testing.T) {
	for _, c := range []struct {
		key      string
		f        int64
		hundredC int64
		seconds  unit.Span
	}{
		{"egg-albumen", 134, 5667, 210}, {"egg-albumen-long", 132, 5556, 372},
		{"egg-whole", 140, 6000, 210},
		{"egg-whole-blend", 142, 6111, 210}, {"egg-whole-blend-long", 140, 6000, 372},
		{"egg-whole-fortified", 144, 6222, 210}, {"egg-whole-fortified-long", 142, 6111, 372},
		{"egg-whole-salted", 146, 6333, 210}, {"egg-whole-salted-long", 144, 6222, 372},
		{"egg-whole-sugared", 142, 6111, 210}, {"egg-whole-sugared-long", 140, 6000, 372},
		{"egg-yolk", 142, 6111, 210}, {"egg-yolk-long", 140, 6000, 372},
		{"egg-yolk-sugared", 146, 6333, 210}, {"egg-yolk-sugared-long", 144, 6222, 372},
		{"egg-yolk-salted", 146, 6333, 210}, {"egg-yolk-salted-long", 144, 6222, 372},
	} {
		l := limit(t, "us", c.key)
		if got := unit.MulDiv(int64(l.To.C), 100, int64(unit.DegC)); got != c.hundredC || l.To.F != unit.Fahrenheit(c.f) || l.Hold != c.seconds {
			t.Errorf("%s: %d/100 °C, %s, want %d/100 °C, %d °F, %d s", c.key, got, l.Hold, c.hundredC, c.f, c.seconds)
		}
	}
}

// Day of preparation is day 1 (FDA Food Code 3-501.17).
func TestSevenDays(t *testing.T) {
	if got := limit(t, "us", "ready-to-eat").LastDay(day(t, "2026-03-17")); got != day(t, "2026-03-23") {
		t.Errorf("made on 17 March, last day %s, want 23 March", got)
	}
}

func TestLimitsByKind(t *testing.T) {
	for _, c := range []struct {
		market string
		kind   market.LimitKind
		want   string
	}{
		{"us", market.Cooling, "cooling-first cooling-whole cooling-from-ambient "},
		{"gb", market.Cold, "cold "},
		{"au", market.Hot, "hot "},
		{"ca", market.Cold, ""},
	} {
		got := ""
		for _, l := range get(t, c.market).Limits(c.kind) {
			got += l.Key + " "
		}
		if got != c.want {
			t.Errorf("%s %s: %q, want %q", c.market, c.kind, got, c.want)
		}
	}
	if limit(t, "gb", "core-70").Law || !limit(t, "gb", "cold").Law {
		t.Error("cooking times are advice, chill holding is law")
	}
}

func ExampleLimit_Met() {
	us, _ := market.Get("us")
	whole := us.Limits(market.Cooling)[1]
	fmt.Println(whole.Met(unit.Celsius(5), false, 6*unit.Hour), whole.Met(unit.Celsius(6), false, 6*unit.Hour))
	// Output: true false
}
