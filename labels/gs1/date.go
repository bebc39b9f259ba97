package gs1

import (
	"fmt"
	"strconv"
	"time"

	"chablon/labels/unit"
)

// Date writes a day as YYMMDD for the AIs 11 to 17.
func Date(d unit.Date) string { return fmt.Sprintf("%02d%02d%02d", d.Year%100, d.Month, d.Day) }

// MonthDate writes a month as YYMM00, for a date that is given without a day.
func MonthDate(year int, m time.Month) string { return fmt.Sprintf("%02d%02d00", year%100, m) }

// ReadDate reads YYMMDD as seen on the given day. Where DD is 00, whole is
// true and d is the last day of that month. The century is chosen by the
// rule of GGS 7.12: 51 or more years ahead means the past century, 50 or
// more years back the coming one.
func ReadDate(s string, today unit.Date) (d unit.Date, whole bool, err error) {
	if len(s) != 6 || !digits(s) {
		return d, false, fmt.Errorf("%q is not a date of the form YYMMDD", s)
	}
	if msg := date(s, true); msg != "" {
		return d, false, fmt.Errorf("%q %s", s, msg)
	}
	yy, _ := strconv.Atoi(s[:2])
	mm, _ := strconv.Atoi(s[2:4])
	dd, _ := strconv.Atoi(s[4:])
	year := today.Year - today.Year%100 + yy
	switch diff := yy - today.Year%100; {
	case diff >= 51:
		year -= 100
	case diff <= -50:
		year += 100
	}
	first := unit.Date{Year: year, Month: time.Month(mm), Day: 1}
	if dd == 0 {
		return first.AddMonths(1).AddDays(-1), true, nil
	}
	d = first.AddDays(dd - 1)
	if d.Month != first.Month {
		return unit.Date{}, false, fmt.Errorf("%q is not a day that exists", s)
	}
	return d, false, nil
}

// ReadWeight reads the net weight of an element (310n), and reports whether it
// is one.
func ReadWeight(e Element) (unit.Mass, bool) {
	if len(e.AI) != 4 || e.AI[:3] != "310" || Check(e) != nil {
		return 0, false
	}
	n, err := strconv.ParseInt(e.Value, 10, 64)
	step := 1000 * unit.Gram
	for range e.AI[3] - '0' {
		step /= 10
	}
	return unit.Mass(n) * step, err == nil
}

// Weight writes a mass for a family of AIs in kilograms ("310" net, "330"
// gross) with 0 to 5 decimals, six digits in all: 1.750 kg with 3 decimals is
// (3103)001750. A mass that the decimals cannot hold exactly is an error.
func Weight(family string, m unit.Mass, decimals int) (Element, error) {
	if (family != "310" && family != "330") || decimals < 0 || decimals > 5 {
		return Element{}, fmt.Errorf("no Application Identifier for kilograms begins with %s and has %d decimals", family, decimals)
	}
	step := 1000 * unit.Gram
	for range decimals {
		step /= 10
	}
	n := m / step
	switch {
	case m < 0 || n > 999_999:
		return Element{}, fmt.Errorf("%s does not fit in six digits with %d decimals of a kilogram", m, decimals)
	case m%step != 0:
		return Element{}, fmt.Errorf("%s has more than %d decimals of a kilogram: round it first", m, decimals)
	}
	return Element{family + strconv.Itoa(decimals), fmt.Sprintf("%06d", int64(n))}, nil
}
