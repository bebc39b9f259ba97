package unit_test

import (
	"encoding"
	"errors"
	"strings"
	"testing"

	"chablon/labels/unit"
)

// Exact values: 1 in = 25.4 mm and the decimal prefixes are exact by
// definition (NIST SP 811, from memory).
func TestParseExact(t *testing.T) {
	for _, c := range []struct {
		in   string
		into encoding.TextUnmarshaler
		want int64
		out  string
	}{
		{"360 g", new(unit.Mass), 360e9, "360 g"},
		{"1.2 kg", new(unit.Mass), 1200e9, "1200 g"},
		{"1.250 kg", new(unit.Mass), 1250e9, "1250 g"},
		{"1.000 kg", new(unit.Mass), 1000e9, "1000 g"},
		{"0.375 g", new(unit.Mass), 375e6, "0.375 g"},
		{"1.2500 g", new(unit.Mass), 125e7, "1.25 g"},
		{"6 mg", new(unit.Mass), 6e6, "0.006 g"},
		{"2.5 µg", new(unit.Mass), 2500, "0.0000025 g"}, // U+00B5
		{"2.5 μg", new(unit.Mass), 2500, "0.0000025 g"}, // U+03BC
		{"2.5 ug", new(unit.Mass), 2500, "0.0000025 g"},
		{"0.000000001 g", new(unit.Mass), 1, "0.000000001 g"},
		{"0 g", new(unit.Mass), 0, "0 g"},
		{"007 g", new(unit.Mass), 7e9, "7 g"},
		{"+5 g", new(unit.Mass), 5e9, "5 g"},
		{"360g", new(unit.Mass), 360e9, "360 g"},
		{"360\u00a0g", new(unit.Mass), 360e9, "360 g"},
		{"360\u202fg", new(unit.Mass), 360e9, "360 g"},
		{"12.5 %", new(unit.Share), 125e6, "12.5 %"},
		{"100 %", new(unit.Share), 1e9, "100 %"},
		{"0.026 %", new(unit.Share), 260_000, "0.026 %"},
		{"150 mg/kg", new(unit.Share), 150_000, "0.015 %"},
		{"5 g/kg", new(unit.Share), 5e6, "0.5 %"},
		{"40 % vol", new(unit.Share), 400e6, "40 %"},
		{"-12.5 %", new(unit.Share), -125e6, "-12.5 %"},
		{"1.03 kg/l", new(unit.Density), 1_030_000_000, "1.03 kg/l"},
		{"0.948 g/ml", new(unit.Density), 948_000_000, "0.948 kg/l"},
		{"12.5 mm", new(unit.Length), 12_500_000, "12.5 mm"},
		{"0.33 mm", new(unit.Length), 330_000, "0.33 mm"},
		{"1 in", new(unit.Length), 25_400_000, "25.4 mm"},
		{"-0.5 mm", new(unit.Length), -500_000, "-0.5 mm"},
		{"2.5 cm", new(unit.Length), 25_000_000, "25 mm"},
		{"1 m", new(unit.Length), 1e9, "1000 mm"},
		{"96 cm²", new(unit.Area), 96 * 1e8, "96 cm²"},
		{"79.2 cm2", new(unit.Area), 7_920_000_000, "79.2 cm²"},
		{"600 mm²", new(unit.Area), 600e6, "6 cm²"},
		{"24", new(unit.Count), 24, ""},
		{"24 pieces", new(unit.Count), 24, ""},
		{"1 piece", new(unit.Count), 1, ""},
	} {
		if err := c.into.UnmarshalText([]byte(c.in)); err != nil {
			t.Errorf("%q: %v", c.in, err)
			continue
		}
		got, out := value(c.into)
		if got != c.want || out != c.out {
			t.Errorf("%q = %d %q, want %d %q", c.in, got, out, c.want, c.out)
		}
	}
}

func value(v any) (int64, string) {
	switch v := v.(type) {
	case *unit.Mass:
		return int64(*v), v.String()
	case *unit.Share:
		return int64(*v), v.String()
	case *unit.Density:
		return int64(*v), v.String()
	case *unit.Length:
		return int64(*v), v.String()
	case *unit.Area:
		return int64(*v), v.String()
	case *unit.Count:
		return int64(*v), ""
	}
	return -1, "?"
}

// Every message says what is wrong and how to write it. That no dose is
// written with a naked decimal point is common practice where amounts can
// hurt; the thousands comma must never turn into a decimal point.
func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		in   string
		into encoding.TextUnmarshaler
		rule string
		want string
	}{
		{"360", new(unit.Mass), "unit", `"360" has no unit: write it like "360 g"`},
		{"360 ml", new(unit.Mass), "unit", `"360 ml": unit "ml" is not one of kg, g, mg, µg: write it like "360 g"; weigh it: by its density a litre of milk is 1.03 kg, of oil 0.92 kg`},
		{"2 Kg", new(unit.Mass), "unit", `"2 Kg": unit "Kg" is not one of kg, g, mg, µg: write the unit as "kg"`},
		{"165 C", new(unit.Temp), "unit", `"165 C": unit "C" is not one of °C, °F: write the unit as "°C"`},
		{"20 Min.", new(unit.Span), "unit", `"20 Min.": unit "Min." is not one of s, min, h: write the unit as "min"`},
		{"some", new(unit.Mass), "unit", `"some" is not a mass: write it like "360 g"`},
		{"", new(unit.Mass), "unit", `"" is not a mass: write it like "360 g"`},
		{"1,5 kg", new(unit.Mass), "number", `"1,5 kg": a comma in a number: write 1.5`},
		{"1,200 g", new(unit.Mass), "number", `"1,200 g": a comma in a number: write 1200 or 1.2, whichever is meant`},
		// A thousand, in half of Europe; of kilograms and litres a gram and a millilitre are weighed and measured.
		{"1.000 g", new(unit.Mass), "number", `"1.000 g": three digits behind the point may be thousands: write 1000 or 1, whichever is meant`},
		{"12.500 g", new(unit.Mass), "number", `"12.500 g": three digits behind the point may be thousands: write 12500 or 12.5, whichever is meant`},
		{"1.125 mg", new(unit.Mass), "number", `"1.125 mg": three digits behind the point may be thousands: write 1125 or 1.1250, whichever is meant`},
		{"1.000 ml", new(unit.Volume), "number", `"1.000 ml": three digits behind the point may be thousands: write 1000 or 1, whichever is meant`},
		{"1.000", new(unit.Count), "number", `"1.000" is not a whole number: write 1000, if that is meant`},
		{"1,000 pieces", new(unit.Count), "number", `"1,000 pieces" is not a whole number: write 1000, if that is meant`},
		{"1,200,000 g", new(unit.Mass), "number", `"1,200,000 g": a comma in a number: write the number without signs between the thousands, and decimals with a point`},
		{"1.200,5 g", new(unit.Mass), "number", `"1.200,5 g": a comma in a number: write the number without signs between the thousands, and decimals with a point`},
		{".5 g", new(unit.Mass), "number", `".5 g": a point at the edge of a number: write a digit on both sides of the point`},
		{"5. g", new(unit.Mass), "number", `"5. g": a point at the edge of a number: write a digit on both sides of the point`},
		{"1.2.3 g", new(unit.Mass), "number", `"1.2.3 g": two points in a number: write one point, before the decimals`},
		{"1 200 g", new(unit.Mass), "unit", `"1 200 g": unit "200 g" is not one of kg, g, mg, µg: write it like "360 g"`},
		{"-5 g", new(unit.Mass), "number", `"-5 g" is less than nothing: take the minus sign out`},
		{"-5 cm²", new(unit.Area), "number", `"-5 cm²" is less than nothing: take the minus sign out`},
		{"0.5 µm", new(unit.Length), "unit", `"0.5 µm": unit "µm" is not one of mm, cm, m, in: write it like "12.5 mm"`},
		{"0.0000000001 g", new(unit.Mass), "number", `"0.0000000001 g": this number has too many decimals: write fewer decimals`},
		{"9999999999 kg", new(unit.Mass), "number", `"9999999999 kg": this number is too large: see whether the unit is right`},
		{"99999999999999999999 g", new(unit.Mass), "number", `"99999999999999999999 g": this number has too many digits: write fewer digits`},
		{"2.5", new(unit.Count), "number", `"2.5" is not a whole number: write it like "24"`},
		{"-3", new(unit.Count), "number", `"-3" is not a whole number: write it like "24"`},
		{"", new(unit.Count), "number", `"" is not a whole number: write it like "24"`},
		{"pieces", new(unit.Count), "number", `"pieces" is not a whole number: write it like "24"`},
		{"1_000", new(unit.Count), "number", `"1_000" is not a whole number: write it like "24"`},
		{"0x10", new(unit.Count), "number", `"0x10" is not a whole number: write it like "24"`},
		{"2000000000", new(unit.Count), "number", `"2000000000" is too many: write a smaller number`},
		{"19.01.2026", new(unit.Date), "date", `"19.01.2026" is not written like a date: write year, month and day like "2026-03-17"`},
		{"2026-02-30", new(unit.Date), "date", `"2026-02-30" is not a day that exists: write year, month and day like "2026-03-17"`},
		{"2500 °C", new(unit.Temp), "number", `"2500 °C" is not a temperature that a kitchen has: see whether the unit is right`},
		{"soon", new(unit.Life), "unit", `"soon" is not a shelf life: write it like "2 days" or "6 months"`},
		{"8 dpmm", new(unit.Dots), "unit", `"8 dpmm" is not a printer fineness: write it like "8 per mm" or "300 dpi"`},
		{strings.Repeat("x", 500), new(unit.Mass), "unit", `"` + strings.Repeat("x", 39) + `…" is not a mass: write it like "360 g"`},
	} {
		err := c.into.UnmarshalText([]byte(c.in))
		var e *unit.Error
		if !errors.As(err, &e) {
			t.Errorf("%q: %v is no unit.Error", c.in, err)
			continue
		}
		if rule, msg, hint := e.Finding(); rule != c.rule || err.Error() != c.want || msg+": "+hint != c.want {
			t.Errorf("%q:\n got %s [%s]\nwant %s [%s]", c.in, err, rule, c.want, c.rule)
		}
	}
}

// A number with many digits after the point must not wrap around.
func TestLongFractions(t *testing.T) {
	for n := 1; n < 200; n++ {
		in := "0." + strings.Repeat("0", n) + "1 g"
		if m, err := unit.ParseMass(in); (err == nil) != (n < 9) {
			t.Errorf("%s = %d (%v)", in, m, err)
		}
		in = "1." + strings.Repeat("0", n) + " g"
		if m, err := unit.ParseMass(in); (err == nil && m == unit.Gram) == (n == 3) { // three digits ask
			t.Errorf("%s = %d (%v)", in, m, err)
		}
	}
}

func TestPrintable(t *testing.T) {
	for _, s := range []string{"", "Tarte aux poires", "Weißmehl, Vehnäjauho, Ħobż", "½ ℮ ° ± ≤ ≥ − – „“ €", "12\u202f%", "\u00a0", "кафе", "📦"} {
		if !unit.Printable(s) {
			t.Errorf("%q may not stand on paper", s)
		}
	}
	for _, s := range []string{
		"\x00", "a\tb", "a\nb", "a\rb", "\x7f", "\u0085", "\u009f", "\u2028", "\u2029", "\u202a", "\u202e", "\u2066", "\u2069",
		"\ufeff", "\ufffd", "\ufffe", "\uffff", "\U0001fffe", "\ufdd0", "\xff", "caf\xe9", "\xed\xa0\x80",
	} {
		if unit.Printable(s) {
			t.Errorf("%q may stand on paper", s)
		}
	}
}
