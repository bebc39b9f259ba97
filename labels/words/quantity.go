package words

import (
	"fmt"
	"strings"
	"time"

	"chablon/labels/unit"
)

// Mass gives m exactly, in grams below one kilogram and in kilograms from
// there: "360 g", "1.2 kg". The space does not break.
func (l *Lang) Mass(m unit.Mass) string {
	base, key := unit.Gram, "unit.g"
	if m >= unit.Kilogram || m <= -unit.Kilogram {
		base, key = unit.Kilogram, "unit.kg"
	}
	n, decimals := exact(int64(m), int64(base))
	return l.amount(n, decimals, key)
}

// MassIn gives m in the unit "kg", "g" or "mg" with a fixed number of
// decimals, halves rounded away from zero: MassIn(m, "g", 1) is "180.1 g".
// Another unit gives grams.
func (l *Lang) MassIn(m unit.Mass, name string, decimals int) string {
	base, key := unit.Gram, "unit.g"
	switch name {
	case "kg":
		base, key = unit.Kilogram, "unit.kg"
	case "mg":
		base, key = unit.Milligram, "unit.mg"
	}
	decimals = min(max(decimals, 0), 9)
	return l.amount(unit.MulDiv(int64(m), pow10(decimals), int64(base)), decimals, key)
}

// Share gives a share in percent, exactly: "12.5 %".
func (l *Lang) Share(s unit.Share) string {
	n, decimals := exact(int64(s), int64(unit.Percent))
	return l.Percent(n, decimals)
}

// Energy gives whole kilojoules and kilocalories as a nutrition declaration
// prints them: "1986 kJ / 475 kcal".
func (l *Lang) Energy(kJ, kcal int64) string {
	return l.amount(kJ, 0, "unit.kj") + " / " + l.amount(kcal, 0, "unit.kcal")
}

// Quantity gives n×10^-decimals of a unit of the language file: "g", "kg",
// "mg", "l", "ml", "kj", "kcal", "h", "min", "s", "vol".
func (l *Lang) Quantity(n int64, decimals int, name string) string {
	return l.amount(n, decimals, "unit."+name)
}

func (l *Lang) amount(n int64, decimals int, key string) string {
	return l.Plain(n, decimals) + noBreak + l.entries[key].text
}

// exact writes n base units as a decimal of a unit worth a power of ten.
func exact(n, worth int64) (digits int64, decimals int) {
	for p := worth; p > 1; p /= 10 {
		decimals++
	}
	for decimals > 0 && n%10 == 0 {
		n /= 10
		decimals--
	}
	return n, decimals
}

func pow10(n int) int64 {
	p := int64(1)
	for range n {
		p *= 10
	}
	return p
}

// Span gives a time: "1 h 30 min", "20 min", "30 s".
func (l *Lang) Span(s unit.Span) string {
	h, m, sec := int64(s/unit.Hour), int64(s%unit.Hour/unit.Minute), int64(s%unit.Minute)
	out := ""
	for _, p := range []struct {
		n    int64
		name string
	}{{h, "h"}, {m, "min"}, {sec, "s"}} {
		if p.n != 0 {
			out += noBreak + l.Quantity(p.n, 0, p.name)
		}
	}
	if out == "" {
		return l.Quantity(0, 0, "min")
	}
	return out[len(noBreak):]
}

// Length gives a length in millimetres: "2.5 mm".
func (l *Lang) Length(v unit.Length) string {
	n, decimals := exact(int64(v), int64(unit.MM))
	return l.amount(n, decimals, "card.mm")
}

// Extent gives a size in two or three directions: "300 × 400 × 10 mm".
func (l *Lang) Extent(e unit.Extent) string {
	var all []string
	for _, v := range []unit.Length{e.W, e.L, e.H} {
		if v > 0 {
			n, decimals := exact(int64(v), int64(unit.MM))
			all = append(all, l.Plain(n, decimals))
		}
	}
	return strings.Join(all, noBreak+"×"+noBreak) + noBreak + l.entries["card.mm"].text
}

// Shares gives a range of shares: "75 to 80 %".
func (l *Lang) Shares(lo, hi unit.Share) string {
	n, decimals := exact(int64(lo), int64(unit.Percent))
	return l.between(l.Plain(n, decimals), l.Share(hi))
}

// Wait gives a time, or from when to when: "20 min", "45 to 60 min", "12 to
// 16 h", "30 min to 2 h".
func (l *Lang) Wait(w unit.Wait) string {
	if !w.Ranges() {
		return l.Span(w.Least)
	}
	for _, u := range []struct {
		worth unit.Span
		name  string
		most  unit.Span
	}{{unit.Hour, "h", 365 * 24 * unit.Hour}, {unit.Minute, "min", 2*unit.Hour + 1}, {1, "s", 2 * unit.Minute}} {
		if w.Least%u.worth == 0 && w.Most%u.worth == 0 && w.Most < u.most {
			return l.between(l.Plain(int64(w.Least/u.worth), 0), l.Quantity(int64(w.Most/u.worth), 0, u.name))
		}
	}
	return l.between(l.Span(w.Least), l.Span(w.Most))
}

// Form says how much of a date is shown.
type Form string

// The forms of a date. All but Long are forms for a statutory date: figures,
// with day, month and year in this order in every language (Regulation (EU)
// No 1169/2011, Annex X 1(c) and 2(c)).
const (
	Day      Form = "day"       // 19.03.2026
	DayMonth Form = "day-month" // 19.03
	Month    Form = "month"     // 03/2026
	Year     Form = "year"      // 2026
	Long     Form = "long"      // 19 March 2026
)

// Date gives a day in one of the forms; an unknown form gives Day.
func (l *Lang) Date(d unit.Date, form Form) string {
	if form == Year {
		return fmt.Sprintf("%04d", d.Year)
	}
	e, ok := l.entries["date."+string(form)]
	if !ok {
		e = l.entries["date.day"]
	}
	return put(e.text, "dd", fmt.Sprintf("%02d", d.Day), "mm", fmt.Sprintf("%02d", int(d.Month)),
		"yyyy", fmt.Sprintf("%04d", d.Year), "d", fmt.Sprint(d.Day),
		"month", l.entries[fmt.Sprintf("month-of.%d", int(d.Month))].text)
}

// MonthOf gives the name of a month as a date in words has it; outside January
// to December it is empty.
func (l *Lang) MonthOf(m time.Month) string {
	return l.entries[fmt.Sprintf("month-of.%d", int(m))].text
}

// Month gives the name of a month standing alone; outside January to December
// it is empty.
func (l *Lang) Month(m time.Month) string {
	return l.entries[fmt.Sprintf("month.%d", int(m))].text
}
