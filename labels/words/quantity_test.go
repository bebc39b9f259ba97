package words_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"chablon/labels/unit"
	"chablon/labels/words"
)

// open makes the spaces that do not break readable.
func open(s string) string {
	return strings.NewReplacer("\u00a0", "_", "\u202f", "'").Replace(s)
}

func TestMass(t *testing.T) {
	for _, c := range []struct {
		lang string
		mass unit.Mass
		want string
	}{
		{"en", 360 * unit.Gram, "360_g"},
		{"en", 1200 * unit.Gram, "1.2_kg"},
		{"de", 1200 * unit.Gram, "1,2_kg"},
		{"en", unit.Kilogram, "1_kg"},
		{"en", 999*unit.Gram + 500*unit.Milligram, "999.5_g"},
		{"en", 12_345 * unit.Kilogram, "12'345_kg"},
		{"en", 0, "0_g"},
		{"fr", 1 * unit.Nanogram, "0,000000001_g"},
		{"uk", 45 * unit.Gram, "45_г"},
	} {
		if got := open(get(t, c.lang).Mass(c.mass)); got != c.want {
			t.Errorf("%s: %q, want %q", c.lang, got, c.want)
		}
	}
}

func TestMassIn(t *testing.T) {
	en := get(t, "en")
	for _, c := range []struct {
		mass     string
		name     string
		decimals int
		want     string
	}{
		{"180.05 g", "g", 1, "180.1_g"}, // halves away from zero
		{"0.9 g", "g", 0, "1_g"},
		{"12345 g", "g", 0, "12'345_g"},
		{"360 g", "kg", 3, "0.360_kg"},
		{"0.0125 g", "mg", 1, "12.5_mg"},
		{"5 g", "oz", 0, "5_g"},
	} {
		m, err := unit.ParseMass(c.mass)
		if err != nil {
			t.Fatal(err)
		}
		if got := open(en.MassIn(m, c.name, c.decimals)); got != c.want {
			t.Errorf("%s in %s: %q, want %q", c.mass, c.name, got, c.want)
		}
	}
}

func TestShareEnergyAndQuantity(t *testing.T) {
	de, en := get(t, "de"), get(t, "en")
	share, _ := unit.ParseShare("12.5 %")
	for _, c := range []struct{ got, want string }{
		{de.Share(share), "12,5_%"},
		{en.Share(unit.Whole), "100_%"},
		{en.Share(unit.MgPerKg), "0.0001_%"},
		// (EU) 1169/2011 Annex XV: kJ first, then kcal; 55 g carbohydrate, 6 g
		// protein, 25 g fat, 3 g fibre by the factors of Annex XIV.
		{en.Energy(1986, 475), "1986_kJ / 475_kcal"},
		{en.Quantity(330, 0, "ml"), "330_ml"},
		{de.Quantity(405, 1, "vol"), "40,5_% vol"},
	} {
		if open(c.got) != c.want {
			t.Errorf("%q, want %q", open(c.got), c.want)
		}
	}
}

func TestSpan(t *testing.T) {
	for _, c := range []struct {
		lang string
		span unit.Span
		want string
	}{
		{"en", 20 * unit.Minute, "20_min"},
		{"en", unit.Hour + 30*unit.Minute, "1_h_30_min"},
		{"en", 2 * unit.Hour, "2_h"},
		{"en", 30, "30_s"},
		{"en", 0, "0_min"},
		{"uk", unit.Hour + unit.Minute, "1_год_1_хв"},
	} {
		if got := open(get(t, c.lang).Span(c.span)); got != c.want {
			t.Errorf("%s: %q, want %q", c.lang, got, c.want)
		}
	}
}

// Celsius and Fahrenheit: 32 and 9/5 exactly, differences 9/5 alone. Pairs of
// limits as the FDA Food Code 2022, 3-501.14 to 3-501.16, states them. Highest and
// lowest temperatures round to the safe side, ranges outwards: common practice, no source.
func TestTemp(t *testing.T) {
	for _, c := range []struct{ lang, target, want string }{
		{"en", "≤ 5 °C", "≤_5_°C_(41_°F)"},
		{"en", "≥ 75 °C", "≥_75_°C_(167_°F)"},
		{"en", "≤ 4 °C", "≤_4_°C_(39_°F)"},    // 39.2
		{"en", "≥ 92 °C", "≥_92_°C_(198_°F)"}, // 197.6
		{"en", "≥ 57 °C", "≥_57_°C_(135_°F)"}, // 134.6; the Food Code's pair
		{"en", "≤ -18 °C", "≤_−18_°C_(0_°F)"},
		{"en", "165 °C", "165_°C_(329_°F)"},
		{"en", "118 °C", "118_°C_(244_°F)"},
		{"en", "-40 °C", "−40_°C_(−40_°F)"},
		{"en", "88 ± 3 °C", "88_±_3_°C_(190_±_5_°F)"},
		{"de", "31.5 ± 0.5 °C", "31,5_±_0,5_°C_(89_±_1_°F)"},
		{"en", "20 ± 0.1 °C", "20_±_0.1_°C_(68_±_1_°F)"},
		{"en", "12 to 14 °C", "12 to 14_°C_(53 to 58_°F)"}, // 53.6 and 57.2
		{"de", "12 to 14 °C", "12 bis 14_°C_(53 bis 58_°F)"},
		{"en", "329 °F", "329_°F_(165_°C)"},
		{"en", "≤ 41 °F", "≤_41_°F_(5_°C)"},
		{"en", "≤ 40 °F", "≤_40_°F_(4_°C)"}, // 4.44
	} {
		target, err := unit.ParseTarget(c.target)
		if err != nil {
			t.Fatal(err)
		}
		l := get(t, c.lang)
		if got := open(l.Temp(target, true)); got != c.want {
			t.Errorf("%s: %q, want %q", c.target, got, c.want)
		}
		alone, _, _ := strings.Cut(c.want, "_(")
		if got := open(l.Temp(target, false)); got != alone {
			t.Errorf("%s alone: %q, want %q", c.target, got, alone)
		}
	}
}

// What must be met is rounded inwards in the scale that was not written, so
// that whoever keeps to it keeps to the limit: common practice, no source.
// 82 °C is 179.6 °F, 85 °C is 185 °F.
func TestLimit(t *testing.T) {
	for _, c := range []struct{ target, want string }{
		{"82 to 85 °C", "82 to 85_°C_(180 to 185_°F)"},
		{"2 to 4 °C", "2 to 4_°C_(36 to 39_°F)"},         // 35.6 and 39.2
		{"83 ± 2 °C", "83_±_2_°C_(181_±_3_°F)"},          // 177.8 and 185
		{"180 to 185 °F", "180 to 185_°F_(83 to 85_°C)"}, // 82.2 and 85
		{"181 ± 4 °F", "181_±_4_°F_(83_±_2_°C)"},         // 80.6 and 85
		{"20.1 to 20.3 °C", "20.1 to 20.3_°C_(68.18 to 68.54_°F)"},
		{"4 ± 0.4 °C", "4_±_0.4_°C_(39.2_±_0.72_°F)"},
		{"≤ 4 °C", "≤_4_°C_(39_°F)"}, {"≥ 92 °C", "≥_92_°C_(198_°F)"}, {"165 °C", "165_°C_(329_°F)"},
	} {
		target, err := unit.ParseTarget(c.target)
		if err != nil {
			t.Fatal(err)
		}
		if got := open(get(t, "en").Limit(target, true)); got != c.want {
			t.Errorf("%s: %q, want %q", c.target, got, c.want)
		}
	}
}

// Any range or tolerance in the other scale lies within the written one; two
// decimals may stick out by half of the last.
func TestLimitWithin(t *testing.T) {
	en := get(t, "en")
	rapid.Check(t, func(r *rapid.T) {
		lo, wide := rapid.IntRange(-400, 2500).Draw(r, "lo"), rapid.IntRange(0, 300).Draw(r, "wide")
		scale := rapid.SampledFrom([]string{"°C", "°F"}).Draw(r, "scale")
		text := fmt.Sprintf("%.1f to %.1f %s", float64(lo)/10, float64(lo+wide)/10, scale)
		if rapid.Bool().Draw(r, "tolerance") {
			text = fmt.Sprintf("%.1f ± %.1f %s", float64(lo)/10, float64(wide)/10, scale)
		}
		in, err := unit.ParseTarget(text)
		if err != nil {
			r.Fatal(err)
		}
		_, other, _ := strings.Cut(en.Limit(in, true), "(")
		out, err := unit.ParseTarget(strings.ReplaceAll(strings.Trim(other, ")"), "−", "-"))
		if half := unit.Temp(unit.DegC / 100); err != nil || out.Lo < in.Lo-half || out.Hi > in.Hi+half {
			r.Fatalf("%s: %q, %v", text, other, err)
		}
	})
}

func TestTempPair(t *testing.T) {
	en := get(t, "en")
	// Food Code 3-501.14(A): 57 °C (135 °F) to 21 °C (70 °F), though 57 °C is
	// 134.6 °F and 21 °C is 69.8 °F.
	for _, c := range []struct {
		sign string
		c, f int64
		want string
	}{{"", 57, 135, "57_°C_(135_°F)"}, {"≤", 21, 70, "≤_21_°C_(70_°F)"}, {"≤", 5, 41, "≤_5_°C_(41_°F)"}} {
		if got := open(en.TempPair(c.sign, unit.Celsius(c.c), unit.Fahrenheit(c.f))); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// Long dates and months as CLDR 48 has them (through ICU 78.2), English with
// the day first, as in the United Kingdom.
func TestLongDatesAndMonths(t *testing.T) {
	day := unit.Date{Year: 2026, Month: time.March, Day: 9}
	for _, c := range []struct{ lang, date, month string }{
		{"en", "9 March 2026", "March"},
		{"de", "9. März 2026", "März"},
		{"fr", "9 mars 2026", "mars"},
		{"el", "9 Μαρτίου 2026", "Μάρτιος"},
		{"fi", "9. maaliskuuta 2026", "maaliskuu"},
		{"pl", "9 marca 2026", "marzec"},
		{"es", "9 de marzo de 2026", "marzo"},
		{"hr", "9. ožujka 2026.", "ožujak"},
		{"hu", "2026. március 9.", "március"},
		{"lt", "2026 m. kovo 9 d.", "kovas"},
		{"uk", "9 березня 2026_р.", "березень"},
	} {
		l := get(t, c.lang)
		if got := open(l.Date(day, words.Long)); got != c.date {
			t.Errorf("%s: %q, want %q", c.lang, got, c.date)
		}
		if got := l.Month(time.March); got != c.month {
			t.Errorf("%s: %q, want %q", c.lang, got, c.month)
		}
	}
}

func TestTwelveMonths(t *testing.T) {
	each(t, func(t *testing.T, l *words.Lang) {
		have := map[string]bool{}
		for m := time.January; m <= time.December; m++ {
			have[l.Month(m)] = true
		}
		if len(have) != 12 || have[""] {
			t.Errorf("months: %v", have)
		}
		if l.Month(0) != "" || l.Month(13) != "" {
			t.Error("a thirteenth month")
		}
	})
}

func ExampleLang_Temp() {
	de, _ := words.Get("de")
	limit, _ := unit.ParseTarget("≤ 5 °C")
	fmt.Printf("%q\n", de.Temp(limit, true)) // the spaces do not break
	fmt.Printf("%q\n", de.Mass(1200*unit.Gram))
	// Output:
	// "≤\u00a05\u00a0°C\u00a0(41\u00a0°F)"
	// "1,2\u00a0kg"
}
