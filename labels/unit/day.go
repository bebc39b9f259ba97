package unit

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Span counts seconds of working or waiting time.
type Span int64

// Spans to multiply with.
const (
	Minute Span = 60
	Hour   Span = 3600
)

var spans = measure{"a time", "20 min", false, []string{"s", "min", "h"},
	map[string]int64{"s": 1, "min": int64(Minute), "h": int64(Hour)}, nil}

// ParseSpan reads "20 min", "2 h", "30 s", "1 h 30 min".
func ParseSpan(s string) (Span, error) {
	if h, m, ok := strings.Cut(clean(s), " h "); ok {
		a, err1 := spans.parse(h + " h")
		b, err2 := spans.parse(m)
		if err1 != nil || err2 != nil || !strings.HasSuffix(m, "min") {
			return 0, bad("unit", s, fmt.Sprintf("write it like %q or %q", "1 h 30 min", "20 min"), " is not a time")
		}
		return Span(a + b), nil
	}
	v, err := spans.parse(s)
	return Span(v), err
}

// UnmarshalText reads a time with its unit.
func (s *Span) UnmarshalText(b []byte) (err error) {
	*s, err = ParseSpan(string(b))
	return err
}

// Minutes gives whole minutes, rounded up.
func (s Span) Minutes() int64 { return (int64(s) + 59) / 60 }

// String gives "1 h 30 min", "20 min" or "30 s".
func (s Span) String() string {
	switch h, m := s/Hour, s%Hour/Minute; {
	case s%Minute != 0:
		return fmt.Sprintf("%d s", int64(s))
	case h == 0:
		return fmt.Sprintf("%d min", m)
	case m == 0:
		return fmt.Sprintf("%d h", h)
	default:
		return fmt.Sprintf("%d h %d min", h, m)
	}
}

// Clock is a time of day, counted in seconds from midnight.
type Clock int64

var clock = regexp.MustCompile(`^(\d{1,2}):(\d{2})$`)

// ParseClock reads a time of day from "00:01" to "24:00".
func ParseClock(s string) (Clock, error) {
	m := clock.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return 0, bad("unit", s, `write it like "09:00"`, " is not a time of day")
	}
	h, _ := strconv.Atoi(m[1])
	min, _ := strconv.Atoi(m[2])
	if min > 59 || h*60+min < 1 || h*60+min > 24*60 {
		return 0, bad("number", s, `write it like "09:00"`, " is not a time of day")
	}
	return Clock(Span(h)*Hour + Span(min)*Minute), nil
}

// UnmarshalText reads a time of day.
func (c *Clock) UnmarshalText(b []byte) (err error) {
	*c, err = ParseClock(string(b))
	return err
}

// Span is how long after midnight it is.
func (c Clock) Span() Span { return Span(c) }

// String gives "09:00".
func (c Clock) String() string {
	return fmt.Sprintf("%02d:%02d", Span(c)/Hour, Span(c)%Hour/Minute)
}

// Date is a calendar day without a clock and without a time zone.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// ParseDate reads "2026-03-17"; a day that does not exist is an error.
func ParseDate(s string) (Date, error) {
	const hint = `write year, month and day like "2026-03-17"`
	t, err := time.Parse("2006-01-02", strings.TrimSpace(s))
	if fault := new(time.ParseError); errors.As(err, &fault) && fault.Message == "" {
		return Date{}, bad("date", s, hint, " is not written like a date")
	}
	if err != nil {
		return Date{}, bad("date", s, hint, " is not a day that exists")
	}
	return DateOf(t), nil
}

// DateOf is the day of t in t's own time zone.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return Date{y, m, d}
}

// UnmarshalText reads a date.
func (d *Date) UnmarshalText(b []byte) (err error) {
	*d, err = ParseDate(string(b))
	return err
}

// Time is midnight UTC of the day.
func (d Date) Time() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// IsZero reports whether no day was given.
func (d Date) IsZero() bool { return d == Date{} }

// AddDays is the day n days later.
func (d Date) AddDays(n int) Date { return DateOf(d.Time().AddDate(0, 0, n)) }

// AddMonths is the same day n months later, or the last day of that month
// where it has no such day (31 January and one month is 28 or 29 February).
func (d Date) AddMonths(n int) Date {
	first := time.Date(d.Year, d.Month+time.Month(n), 1, 0, 0, 0, 0, time.UTC)
	last := first.AddDate(0, 1, -1).Day()
	return Date{first.Year(), first.Month(), min(d.Day, last)}
}

// Before reports whether d is an earlier day than e.
func (d Date) Before(e Date) bool { return d.Time().Before(e.Time()) }

// YearDay counts from 1 on 1 January.
func (d Date) YearDay() int { return d.Time().YearDay() }

// String gives the ISO form, "2026-03-17".
func (d Date) String() string { return d.Time().Format("2006-01-02") }

// Life is how long a food keeps, counted from the day of making, which is
// day 0: either days or months.
type Life struct{ Days, Months int }

var life = regexp.MustCompile(`^(\d{1,4}) (day|days|weeks|week|months|month|years|year)$`)

// ParseLife reads "2 days", "8 weeks", "6 months".
func ParseLife(s string) (Life, error) {
	m := life.FindStringSubmatch(clean(s))
	if m == nil {
		return Life{}, bad("unit", s, `write it like "2 days" or "6 months"`, " is not a shelf life")
	}
	n, _ := strconv.Atoi(m[1])
	switch m[2][0] {
	case 'd':
		return Life{Days: n}, nil
	case 'w':
		return Life{Days: 7 * n}, nil
	case 'm':
		return Life{Months: n}, nil
	}
	return Life{Months: 12 * n}, nil
}

// UnmarshalText reads a shelf life.
func (l *Life) UnmarshalText(b []byte) (err error) {
	*l, err = ParseLife(string(b))
	return err
}

// End is the last day of a food made on day d.
func (l Life) End(d Date) Date { return d.AddMonths(l.Months).AddDays(l.Days) }

// String gives "2 days" or "6 months".
func (l Life) String() string {
	n, what := l.Days, "day"
	if l.Months != 0 {
		n, what = l.Months, "month"
	}
	if n != 1 {
		what += "s"
	}
	return fmt.Sprintf("%d %s", n, what)
}
