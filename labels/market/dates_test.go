package market_test

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"

	"pgregory.net/rapid"
)

// written prints a date as day.month.year, leaving out what the form leaves out.
func written(p market.Printed) string {
	d := p.Last
	switch p.Form {
	case market.DayMonth:
		return fmt.Sprintf("%02d.%02d", d.Day, d.Month)
	case market.MonthYear:
		return fmt.Sprintf("end %02d/%d", d.Month, d.Year)
	case market.YearOnly:
		return fmt.Sprintf("end %d", d.Year)
	}
	return fmt.Sprintf("%02d.%02d.%d", d.Day, d.Month, d.Year)
}

func TestLeastForm(t *testing.T) {
	for _, c := range []struct {
		market, made, end string
		form              market.Form
		print             string
		source            string
	}{
		{"eu", "2026-03-10", "2026-03-31", market.DayMonth, "31.03", fic + " Annex X 1(c): 21 days"},
		{"eu", "2026-03-10", "2026-06-10", market.DayMonth, "10.06", "exactly 3 months"},
		{"eu", "2026-03-10", "2026-06-11", market.MonthYear, "end 05/2026", "3 months and a day"},
		{"eu", "2026-03-10", "2026-09-10", market.MonthYear, "end 08/2026", fic + " Annex X 1(c): 6 months, rounded to the safe side"},
		{"eu", "2026-03-10", "2026-09-30", market.MonthYear, "end 09/2026", "the end is the last day of its month"},
		{"eu", "2026-03-10", "2027-09-10", market.MonthYear, "end 08/2027", "exactly 18 months"},
		{"eu", "2026-03-10", "2027-09-11", market.YearOnly, "end 2026", "18 months and a day"},
		{"eu", "2026-03-10", "2028-03-10", market.YearOnly, "end 2027", fic + " Annex X 1(c): 24 months"},
		{"eu", "2026-03-10", "2028-12-31", market.YearOnly, "end 2028", "the end is the last day of its year"},
		{"eu", "2025-11-30", "2026-02-28", market.DayMonth, "28.02", "three months to a shorter month"},
		{"gb", "2026-03-17", "2026-05-12", market.DayMonth, "12.05", "56 days"},
		{"codex", "2026-03-10", "2028-03-10", market.MonthYear, "end 02/2028", "CXS 1-1985, 4.7.1 (from memory): no bare year"},
		{"au", "2026-03-10", "2027-09-11", market.MonthYear, "end 08/2027", "Standard 1.2.5 (from memory): no bare year"},
		{"ca", "2026-03-10", "2026-05-05", market.DayMonth, "05.05", "C.R.C., c. 870, B.01.007(4)"},
		{"us", "2026-03-10", "2026-05-05", market.DayMonthYear, "05.05.2026", "no general rule: the most exact form"},
	} {
		m, end := get(t, c.market), day(t, c.end)
		if got := m.DateForm(day(t, c.made), end); got != c.form {
			t.Errorf("%s %s to %s: %s, want %s (%s)", c.market, c.made, c.end, got, c.form, c.source)
		}
		if got := written(market.Print(c.form, end)); got != c.print {
			t.Errorf("%s %s: %q, want %q (%s)", c.form, c.end, got, c.print, c.source)
		}
	}
}

// 24 months from 10 March 2026 in each form.
func TestPrintForms(t *testing.T) {
	end := day(t, "2028-03-10")
	for form, want := range map[market.Form]string{
		market.DayMonthYear: "10.03.2028", market.MonthYear: "end 02/2028", market.YearOnly: "end 2027",
	} {
		if got := written(market.Print(form, end)); got != want {
			t.Errorf("%s: %q, want %q", form, got, want)
		}
	}
}

// Worked readings published by authorities: what a printed date promises.
func TestPromisedDay(t *testing.T) {
	for _, c := range []struct {
		form              market.Form
		end, last, source string
	}{
		{market.DayMonthYear, "2021-11-12", "2021-11-12", "Swedish control wiki on Art. 41: through 12 Nov 2021"},
		{market.MonthYear, "2021-11-30", "2021-11-30", "Swedish control wiki: end of 11/21 is 30 Nov 2021"},
		{market.YearOnly, "2011-12-31", "2011-12-31", "livsmedelsverket.se: end of 2011 is 31 Dec 2011"},
		{market.MonthYear, "2021-12-31", "2021-12-31", "jupc.cz: end of December 2021"},
	} {
		if got := market.Print(c.form, day(t, c.end)); got.Last != day(t, c.last) {
			t.Errorf("%s %s promises %s, want %s (%s)", c.form, c.end, got.Last, c.last, c.source)
		}
	}
}

// No form ever promises a day after the end, and the least form that the law
// allows is itself allowed.
func TestPrintNeverLate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		made := unit.Date{Year: 2026, Month: 1, Day: 1}.AddDays(rapid.IntRange(0, 3000).Draw(t, "made"))
		end := made.AddDays(rapid.IntRange(0, 1500).Draw(t, "life"))
		for _, f := range []market.Form{market.DayMonthYear, market.DayMonth, market.MonthYear, market.YearOnly} {
			p := market.Print(f, end)
			if end.Before(p.Last) {
				t.Fatalf("%s for %s promises %s", f, end, p.Last)
			}
			if p.End != (f == market.MonthYear || f == market.YearOnly) {
				t.Fatalf("%s: end = %v", f, p.End)
			}
		}
		for _, m := range market.All() {
			if f := m.DateForm(made, end); !m.FormAllowed(f, made, end) || !m.FormAllowed(market.DayMonthYear, made, end) {
				t.Fatalf("%s: %s from %s to %s is its own least form and not allowed", m.Code, f, made, end)
			}
		}
	})
}

func TestFormAllowed(t *testing.T) {
	m, made, end := get(t, "eu"), day(t, "2026-03-10"), day(t, "2026-09-10")
	for f, want := range map[market.Form]bool{
		market.DayMonthYear: true, market.DayMonth: true, market.MonthYear: true, market.YearOnly: false, "week": false,
	} {
		if got := m.FormAllowed(f, made, end); got != want {
			t.Errorf("%s for 6 months: %v, want %v", f, got, want)
		}
	}
}

func TestDateAsked(t *testing.T) {
	for _, c := range []struct {
		market, made, end string
		want              bool
		source            string
	}{
		{"ca", "2026-03-10", "2026-06-08", true, "C.R.C., c. 870, B.01.007(1.1): 90 days"},
		{"ca", "2026-03-10", "2026-06-09", false, "91 days"},
		{"us", "2026-03-10", "2026-03-12", false, "no general rule"},
		{"au", "2026-03-10", "2028-03-09", true, "Standard 1.2.5 (from memory): below two years"},
		{"au", "2026-03-10", "2028-03-10", false, "two years"},
		{"eu", "2026-03-10", "2036-03-10", true, fic + " Art. 24"},
	} {
		if got := get(t, c.market).Dates.Asked(day(t, c.made), day(t, c.end)); got != c.want {
			t.Errorf("%s %s to %s: %v, want %v (%s)", c.market, c.made, c.end, got, c.want, c.source)
		}
	}
}

func TestDateOrder(t *testing.T) {
	for code, want := range map[string]string{
		"eu": "[day month year]", "gb": "[day month year]", "au": "[day month year]", "ca": "[year month day]", "us": "[]",
	} {
		if got := fmt.Sprint(get(t, code).Dates.Order); got != want {
			t.Errorf("%s: %s, want %s", code, got, want)
		}
	}
	// C.R.C., c. 870, B.01.007(5)
	if months := strings.Join(get(t, "ca").Dates.Months, " "); months != "JA FE MR AL MA JN JL AU SE OC NO DE" {
		t.Errorf("Canadian months: %s", months)
	}
	if h := get(t, "eu").Dates.Fresh; h != 24*unit.Hour {
		t.Errorf("fresh pastry: %s, want 24 h (%s Annex X 1(d))", h, fic)
	}
}

func ExampleMarket_DateForm() {
	eu, _ := market.Get("eu")
	made := unit.Date{Year: 2026, Month: 3, Day: 10}
	end := made.AddMonths(6)
	p := market.Print(eu.DateForm(made, end), end)
	fmt.Println(p.Form, p.Last.Month, p.Last.Year, p.End)
	// Output: month-year August 2026 true
}
