package unit_test

import (
	"testing"
	"time"

	"chablon/labels/unit"
)

// The Gregorian calendar as ISO 8601 takes it; the days of the year are those
// of ISO 8601 ordinal dates.
func TestParseDate(t *testing.T) {
	for _, c := range []struct {
		in  string
		day int // of the year
	}{
		{"2026-01-01", 1}, {"2026-03-17", 76}, {"2026-12-31", 365},
		{"2024-02-29", 60}, {"2024-12-31", 366}, {"2000-02-29", 60}, {" 2026-03-17 ", 76},
	} {
		d, err := unit.ParseDate(c.in)
		if err != nil || d.YearDay() != c.day {
			t.Errorf("%q: day %d (%v), want %d", c.in, d.YearDay(), err, c.day)
		}
	}
	for _, in := range []string{
		"", "2026-02-29", "2026-02-30", "1900-02-29", "2026-04-31", "2026-13-01", "2026-00-10", "2026-01-00",
		"2026-1-7", "26-01-07", "17.03.2026", "03/17/2026", "2026-03-17T10:00:00Z", "tomorrow",
	} {
		if d, err := unit.ParseDate(in); err == nil {
			t.Errorf("%q was read as %v", in, d)
		}
	}
}

func TestDateArithmetic(t *testing.T) {
	day := func(s string) unit.Date {
		d, err := unit.ParseDate(s)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	for _, c := range []struct{ what, got, want string }{
		{"28 days on", day("2026-03-17").AddDays(28).String(), "2026-04-14"},
		{"56 days on", day("2026-03-17").AddDays(56).String(), "2026-05-12"},
		{"70 days on", day("2026-03-17").AddDays(70).String(), "2026-05-26"},
		{"a day back over the leap day", day("2024-03-01").AddDays(-1).String(), "2024-02-29"},
		{"a month after 31 January", day("2026-01-31").AddMonths(1).String(), "2026-02-28"},
		{"the same in a leap year", day("2024-01-31").AddMonths(1).String(), "2024-02-29"},
		{"6 months after 31 August", day("2026-08-31").AddMonths(6).String(), "2027-02-28"},
		{"12 months after 29 February", day("2024-02-29").AddMonths(12).String(), "2025-02-28"},
		{"11 months after December", day("2026-12-15").AddMonths(11).String(), "2027-11-15"},
		{"a month back", day("2026-01-15").AddMonths(-1).String(), "2025-12-15"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
	a, b := day("2026-03-17"), day("2026-03-18")
	if !a.Before(b) || b.Before(a) || a.Before(a) {
		t.Error("17 March is not before 18 March")
	}
	if (unit.Date{}).IsZero() != true || a.IsZero() {
		t.Error("IsZero is wrong")
	}
	// The day is that of the clock's own zone.
	late := time.Date(2026, 3, 17, 23, 30, 0, 0, time.FixedZone("", -5*3600))
	if unit.DateOf(late) != a || a.Time() != time.Date(2026, 3, 17, 0, 0, 0, 0, time.UTC) {
		t.Error("a day changed with its zone")
	}
}

func TestLife(t *testing.T) {
	made := unit.Date{Year: 2026, Month: time.March, Day: 17}
	for _, c := range []struct {
		in, out, end string
	}{
		{"0 days", "0 days", "2026-03-17"}, // the day of making is day 0
		{"1 day", "1 day", "2026-03-18"},
		{"2 days", "2 days", "2026-03-19"},
		{"8 weeks", "56 days", "2026-05-12"},
		{"1 month", "1 month", "2026-04-17"},
		{"18 months", "18 months", "2027-09-17"},
		{"1 year", "12 months", "2027-03-17"},
	} {
		l, err := unit.ParseLife(c.in)
		if err != nil || l.String() != c.out || l.End(made).String() != c.end {
			t.Errorf("%q = %v until %v (%v), want %s until %s", c.in, l, l.End(made), err, c.out, c.end)
		}
	}
	for _, in := range []string{"", "2", "days", "2d", "-2 days", "2.5 days", "2 fortnights", "2  days", "12345 days", "2 days old"} {
		if l, err := unit.ParseLife(in); err == nil {
			t.Errorf("%q was read as %v", in, l)
		}
	}
}

func TestSpan(t *testing.T) {
	for _, c := range []struct {
		in      string
		want    unit.Span
		out     string
		minutes int64
	}{
		{"20 min", 20 * unit.Minute, "20 min", 20},
		{"2 h", 2 * unit.Hour, "2 h", 120},
		{"1.5 h", 90 * unit.Minute, "1 h 30 min", 90},
		{"1 h 30 min", 90 * unit.Minute, "1 h 30 min", 90},
		{"1 h 30 min", 90 * unit.Minute, "1 h 30 min", 90}, // no-break spaces
		{"30 s", 30, "30 s", 1},
		{"90 s", 90, "90 s", 2},
		{"0 min", 0, "0 min", 0},
		{"720 min", 12 * unit.Hour, "12 h", 720},
	} {
		s, err := unit.ParseSpan(c.in)
		if err != nil || s != c.want || s.String() != c.out || s.Minutes() != c.minutes {
			t.Errorf("%q = %v, %d min (%v), want %v", c.in, s, s.Minutes(), err, c.out)
		}
	}
	for _, in := range []string{"", "20", "min", "-20 min", "-1 h 30 min", "1 h -30 min", "1 h 2 h", "1 h 30", "0.5 s", "1:30", "2 days", "1 h 30 s"} {
		if s, err := unit.ParseSpan(in); err == nil {
			t.Errorf("%q was read as %v", in, s)
		}
	}
}
