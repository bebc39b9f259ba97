package unit_test

import (
	"testing"

	"chablon/labels/unit"
)

// The definition of the degree Fahrenheit, F = C × 9/5 + 32, as in NIST SP 811
// (from memory). The column tenths holds tenths of a degree.
func TestCelsiusToFahrenheit(t *testing.T) {
	for _, c := range []struct {
		in     string
		tenths int64 // exact °F, in tenths
		whole  int64 // nearest whole °F
	}{
		{"-40 °C", -400, -40},
		{"-18 °C", -4, 0},
		{"0 °C", 320, 32},
		{"4 °C", 392, 39},
		{"31.5 °C", 887, 89},
		{"82 °C", 1796, 180},
		{"100 °C", 2120, 212},
		{"118 °C", 2444, 244},
		{"121 °C", 2498, 250},
		{"160 °C", 3200, 320},
		{"165 °C", 3290, 329},
		{"175 °C", 3470, 347},
		{"180 °C", 3560, 356},
		{"190 °C", 3740, 374},
		{"200 °C", 3920, 392},
		{"220 °C", 4280, 428},
	} {
		temp, err := unit.ParseTemp(c.in)
		if err != nil {
			t.Errorf("%s: %v", c.in, err)
			continue
		}
		exact := unit.Fahrenheit(0) + unit.Temp(c.tenths)*unit.Temp(unit.DegF)/10
		if temp != exact || temp.RoundF() != c.whole || temp.F() != float64(c.tenths)/10 {
			t.Errorf("%s = %v °F, rounded %d; want %d tenths, %d", c.in, temp.F(), temp.RoundF(), c.tenths, c.whole)
		}
	}
}

// Limits that a rule states as a pair are not conversions of one another: FDA
// Food Code 2022, 3-501.14, 3-501.16, 3-401.11 (as quoted in guidance). The
// exact °F of the °C value, and the °F that errs on the safe side.
func TestRulePairsAreNotExact(t *testing.T) {
	for _, c := range []struct {
		c, f   int64
		tenths int64
		exact  bool
	}{
		{5, 41, 410, true},
		{21, 70, 698, false},
		{57, 135, 1346, false},
		{63, 145, 1454, false},
		{68, 155, 1544, false},
		{74, 165, 1652, false},
	} {
		temp := unit.Celsius(c.c)
		if got := temp == unit.Fahrenheit(c.f); got != c.exact {
			t.Errorf("%d °C is %d °F: %v, want %v", c.c, c.f, got, c.exact)
		}
		if got := int64(temp-unit.Fahrenheit(0)) * 10 / int64(unit.DegF); got != c.tenths {
			t.Errorf("%d °C = %d tenths °F, want %d", c.c, got, c.tenths)
		}
		if lo, hi := temp.FloorF(), temp.CeilF(); lo > c.tenths/10 || hi < c.tenths/10 || hi-lo > 1 {
			t.Errorf("%d °C lies between %d and %d °F", c.c, lo, hi)
		}
	}
}

// 9 CFR 590.570, pasteurisation of liquid egg: °F of the rule, °C to two
// decimals.
func TestLiquidEggTable(t *testing.T) {
	for _, c := range []struct {
		f, hundredths int64
	}{
		{134, 5667}, {132, 5556}, {140, 6000}, {142, 6111}, {144, 6222}, {146, 6333},
	} {
		if got := unit.MulDiv(int64(unit.Fahrenheit(c.f)), 100, int64(unit.DegC)); got != c.hundredths {
			t.Errorf("%d °F = %d hundredths °C, want %d", c.f, got, c.hundredths)
		}
	}
}

func TestFloorAndCeilF(t *testing.T) {
	for _, c := range []struct {
		in              string
		floor, ceil, rd int64
	}{
		{"-18 °C", -1, 0, 0},
		{"-40 °C", -40, -40, -40},
		{"74 °C", 165, 166, 165},
		{"63 °C", 145, 146, 145},
		{"8 °C", 46, 47, 46},
		{"-0.5 °F", -1, 0, -1},
		{"0.5 °F", 0, 1, 1},
	} {
		temp, err := unit.ParseTemp(c.in)
		if err != nil || temp.FloorF() != c.floor || temp.CeilF() != c.ceil || temp.RoundF() != c.rd {
			t.Errorf("%s: %d, %d, %d (%v)", c.in, temp.FloorF(), temp.CeilF(), temp.RoundF(), err)
		}
	}
}

// A difference has no zero point: ±2 °C is ±3.6 °F, not 35.6 °F.
func TestDifference(t *testing.T) {
	if d := 2 * unit.DegC; d != unit.TempDiff(36*unit.DegF)/10 || d.RoundF() != 4 || d.String() != "2 °C" {
		t.Errorf("2 K = %v, %d °F", d, d.RoundF())
	}
}

func TestParseTemp(t *testing.T) {
	for _, c := range []struct {
		in   string
		want unit.Temp
	}{
		{"165 °C", unit.Celsius(165)},
		{"329 °F", unit.Celsius(165)},
		{" 329 °F ", unit.Celsius(165)},
		{"329\u202f°F\u00a0", unit.Celsius(165)},
		{"−18 °C", unit.Celsius(-18)},
		{"31.5°C", unit.Celsius(63) / 2},
		{"-273.15 °C", -245835},
		{"0.01 °C", 9},
		{"32.01 °F", 5},
	} {
		if got, err := unit.ParseTemp(c.in); err != nil || got != c.want {
			t.Errorf("%q = %d (%v), want %d", c.in, got, err, c.want)
		}
	}
	for _, in := range []string{"", "165", "165 C", "165 °", "165 K", "warm", "-274 °C", "-460 °F", "2001 °C", "1,5 °C", "0.001 °C"} {
		if got, err := unit.ParseTemp(in); err == nil {
			t.Errorf("%q was read as %v", in, got)
		}
	}
}

func TestParseTarget(t *testing.T) {
	c := unit.Celsius
	for _, k := range []struct {
		in   string
		want unit.Target
		out  string
	}{
		{"165 °C", unit.Target{Kind: unit.Exactly, Lo: c(165), Hi: c(165)}, "165 °C"},
		{"88 ± 3 °C", unit.Target{Kind: unit.Within, Lo: c(85), Hi: c(91), Tol: 3 * unit.DegC}, "88 ± 3 °C"},
		{"88±3°C", unit.Target{Kind: unit.Within, Lo: c(85), Hi: c(91), Tol: 3 * unit.DegC}, "88 ± 3 °C"},
		{"12 to 14 °C", unit.Target{Kind: unit.Between, Lo: c(12), Hi: c(14)}, "12 to 14 °C"},
		{"12–14 °C", unit.Target{Kind: unit.Between, Lo: c(12), Hi: c(14)}, "12 to 14 °C"},
		{"-20 to -18 °C", unit.Target{Kind: unit.Between, Lo: c(-20), Hi: c(-18)}, "-20 to -18 °C"},
		{"≤ 5 °C", unit.Target{Kind: unit.AtMost, Lo: c(5), Hi: c(5)}, "≤ 5 °C"},
		{"<= 5 °C", unit.Target{Kind: unit.AtMost, Lo: c(5), Hi: c(5)}, "≤ 5 °C"},
		{"≥92 °C", unit.Target{Kind: unit.AtLeast, Lo: c(92), Hi: c(92)}, "≥ 92 °C"},
		{">= -18 °C", unit.Target{Kind: unit.AtLeast, Lo: c(-18), Hi: c(-18)}, "≥ -18 °C"},
		{"329 °F", unit.Target{Kind: unit.Exactly, Lo: c(165), Hi: c(165), InF: true}, "165 °C"},
		{"185 ± 9 °F", unit.Target{Kind: unit.Within, Lo: c(80), Hi: c(90), Tol: 5 * unit.DegC, InF: true}, "85 ± 5 °C"},
	} {
		got, err := unit.ParseTarget(k.in)
		if err != nil || got != k.want || got.String() != k.out {
			t.Errorf("%q = %+v %v (%v), want %+v", k.in, got, got, err, k.want)
		}
	}
}

func TestParseTargetRefuses(t *testing.T) {
	for _, in := range []string{
		"", "165", "165 °", "88 ± 3", "88 °C ± 3 °C", "88 ± 3 °F °C", "88 ± -3 °C", "14 to 12 °C", "12 °C to 14 °F",
		"≤ 12 to 14 °C", "≤ ≥ 5 °C", "12 to 14 to 16 °C", "± 3 °C", "88 ± 4000 °C", "-270 ± 10 °C", "to °C", "5 °C ≤", "5,5 °C",
	} {
		if got, err := unit.ParseTarget(in); err == nil {
			t.Errorf("%q was read as %v", in, got)
		}
	}
}

func TestTargetMid(t *testing.T) {
	for in, want := range map[string]unit.Temp{"88 ± 3 °C": unit.Celsius(88), "12 to 14 °C": unit.Celsius(13), "≤ 5 °C": unit.Celsius(5)} {
		if got, err := unit.ParseTarget(in); err != nil || got.Mid() != want {
			t.Errorf("the middle of %s = %v (%v), want %v", in, got.Mid(), err, want)
		}
	}
}

// A difference of 6 °C is one of 10.8 °F; the zero of the scales has no part
// in it (SI Brochure, 9th edition, 2.3.1).
func TestParseTempDiff(t *testing.T) {
	for text, want := range map[string]unit.TempDiff{"6 °C": 6 * unit.DegC, "10.8 °F": 6 * unit.DegC, "-1 °C": -unit.DegC, "0 °F": 0} {
		var d unit.TempDiff
		if err := d.UnmarshalText([]byte(text)); err != nil || d != want {
			t.Errorf("%s: %d, %v, want %d", text, d, err, want)
		}
	}
	for _, text := range []string{"6", "6 K", "", "99999 °C", "6,5 °C"} {
		var d unit.TempDiff
		if err := d.UnmarshalText([]byte(text)); err == nil || d != 0 {
			t.Errorf("%q was read as %d", text, d)
		}
	}
}
