package gs1

import (
	"testing"
	"time"

	"chablon/labels/unit"
)

func day(t *testing.T, s string) unit.Date {
	t.Helper()
	d, err := unit.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func TestDate(t *testing.T) {
	if got := Date(day(t, "2026-03-07")); got != "260307" {
		t.Errorf("Date = %s", got)
	}
	if got := MonthDate(2026, time.December); got != "261200" { // DD 00: GGS 3.4.2 to 3.4.7
		t.Errorf("MonthDate = %s", got)
	}
	if Check(Element{"15", MonthDate(2026, time.March)}) != nil || Check(Element{"15", Date(day(t, "2028-02-29"))}) != nil {
		t.Error("a date that was written here is refused")
	}
}

func TestReadDate(t *testing.T) {
	tests := []struct {
		in, today, want string
		whole           bool
	}{
		{"260307", "2026-11-25", "2026-03-07", false},
		{"261200", "2026-11-25", "2026-12-31", true}, // the last day of the month: from memory of GGS 3.4
		{"280200", "2026-11-25", "2028-02-29", true},
		// The century by GGS 7.12, as in the Syntax Dictionary's lint_yymmd0.
		{"760101", "2026-11-25", "2076-01-01", false}, // 50 ahead
		{"770101", "2026-11-25", "1977-01-01", false}, // 51 ahead
		{"000229", "2026-11-25", "2000-02-29", false},
		{"490101", "2099-01-01", "2149-01-01", false}, // 50 back
		{"500101", "2099-01-01", "2050-01-01", false}, // 49 back
		{"210229", "2026-11-25", "", false}, {"200230", "2026-11-25", "", false}, {"201310", "2026-11-25", "", false},
		{"200010", "2026-11-25", "", false}, {"200431", "2026-11-25", "", false}, {"2604", "2026-11-25", "", false}, {"26030A", "2026-11-25", "", false},
		{"000229", "2075-01-01", "", false}, // 2100 has no 29 February
	}
	for _, tt := range tests {
		d, whole, err := ReadDate(tt.in, day(t, tt.today))
		if (err == nil) != (tt.want != "") || err == nil && (d.String() != tt.want || whole != tt.whole) {
			t.Errorf("ReadDate(%s) on %s = %s, %v, %v; want %s, %v", tt.in, tt.today, d, whole, err, tt.want, tt.whole)
		}
	}
}

// The three examples of weights are those of GGS 3.6.2 and of the reference
// tests; n in 310n counts the decimals.
func TestWeight(t *testing.T) {
	tests := []struct {
		family   string
		mass     unit.Mass
		decimals int
		want     Element
	}{
		{"310", 1750 * unit.Gram, 3, Element{"3103", "001750"}},
		{"310", 1750 * unit.Gram, 2, Element{"3102", "000175"}},
		{"330", 15 * unit.Kilogram, 2, Element{"3302", "001500"}},
		{"310", 123 * unit.Gram, 3, Element{"3103", "000123"}},
		{"310", 0, 0, Element{"3100", "000000"}},
		{"330", 999_999 * unit.Kilogram, 0, Element{"3300", "999999"}},
	}
	for _, tt := range tests {
		got, err := Weight(tt.family, tt.mass, tt.decimals)
		if err != nil || got != tt.want || Check(got) != nil {
			t.Errorf("Weight(%s, %s, %d) = %v, %v; want %v", tt.family, tt.mass, tt.decimals, got, err, tt.want)
		}
	}
	for _, bad := range []struct {
		family   string
		mass     unit.Mass
		decimals int
	}{{"310", 1755 * unit.Gram, 2}, {"310", 1000 * unit.Kilogram, 3}, {"310", -unit.Gram, 3}, {"310", unit.Gram, 6}, {"310", unit.Gram, -1}, {"311", unit.Gram, 3}} {
		if got, err := Weight(bad.family, bad.mass, bad.decimals); err == nil {
			t.Errorf("Weight(%v) = %v, want an error", bad, got)
		}
	}
}

// ReadWeight is the reverse of Weight; the first two are the examples of the
// General Specifications' kind: 310n with n decimals of a kilogram.
func TestReadWeight(t *testing.T) {
	for _, c := range []struct {
		e    Element
		want unit.Mass
	}{{Element{"3103", "001750"}, 1750 * unit.Gram}, {Element{"3102", "000175"}, 1750 * unit.Gram}, {Element{"3100", "000012"}, 12000 * unit.Gram}, {Element{"3105", "000001"}, 10 * unit.Milligram}} {
		if got, ok := ReadWeight(c.e); !ok || got != c.want {
			t.Errorf("%v: %s, %v", c.e, got, ok)
		}
	}
	for _, e := range []Element{{"3302", "001500"}, {"3106", "000001"}, {"3103", "1750"}, {"10", "310"}, {}} {
		if got, ok := ReadWeight(e); ok {
			t.Errorf("%v is a net weight of %s", e, got)
		}
	}
}
