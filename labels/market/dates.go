package market

import (
	"slices"

	"chablon/labels/unit"
)

// Form says how much of a date is printed.
type Form string

// The forms, from the most exact to the least.
const (
	DayMonthYear Form = "day-month-year"
	DayMonth     Form = "day-month"
	MonthYear    Form = "month-year"
	YearOnly     Form = "year"
)

func exactness(f Form) int {
	return slices.Index([]Form{DayMonthYear, DayMonth, MonthYear, YearOnly}, f)
}

// Dates is the rule on best-before and use-by dates.
type Dates struct {
	Forms  []FormStep // by shelf life, rising; the last has no bound
	UseBy  Form       // least form of a use-by date; "" where the market has none
	Order  []string   // "day", "month", "year"; empty where no order is set
	Months []string   // two-letter signs from January on, where the law sets them
	Fresh  unit.Span  // pastry normally eaten within this time needs no date
	// Within limits the duty to shelf lives of at most so many days; 0: none.
	Within int
	// Years limits it to shelf lives below so many years; 0: none.
	Years int
	// None: no date is asked for by general law.
	None bool
	Cite
}

// FormStep is the least form of a best-before date for a shelf life of at most
// so many months (0: no bound).
type FormStep struct {
	Months int
	Form   Form
	Cite
}

// Asked reports whether food made on one day and good until another needs a
// date at all.
func (d Dates) Asked(made, end unit.Date) bool {
	switch {
	case d.None:
		return false
	case d.Within > 0:
		return !made.AddDays(d.Within).Before(end)
	case d.Years > 0:
		return end.Before(made.AddMonths(12 * d.Years))
	}
	return true
}

// DateForm gives the least exact form that a best-before date may have, for
// food made on one day and good through another. A more exact one is always
// allowed, day, month and year everywhere.
func (m *Market) DateForm(made, end unit.Date) Form {
	for _, s := range m.Dates.Forms {
		if s.Months == 0 || !made.AddMonths(s.Months).Before(end) {
			return s.Form
		}
	}
	return DayMonthYear
}

// FormAllowed reports whether a best-before date may have the form f.
func (m *Market) FormAllowed(f Form, made, end unit.Date) bool {
	return exactness(f) >= 0 && exactness(f) <= exactness(m.DateForm(made, end))
}

// Printed is a date as it goes on the label. Last is the last day that the
// print promises; of it only the parts that Form names are printed. End tells
// that the words are those of "best before end".
type Printed struct {
	Form Form
	Last unit.Date
	End  bool
}

// Print gives the date to print in a form for food that is good through end.
// The last day of a printed month or year is never later than end, so a month
// that end cuts short is replaced by the month before it. That is a cautious
// reading of "best before end"; the act does not spell it out.
func Print(f Form, end unit.Date) Printed {
	p := Printed{Form: f, Last: end}
	next := end.AddDays(1)
	switch f {
	case MonthYear:
		p.End = true
		p.Last = unit.Date{Year: next.Year, Month: next.Month, Day: 1}.AddDays(-1)
	case YearOnly:
		p.End = true
		p.Last = unit.Date{Year: next.Year, Month: 1, Day: 1}.AddDays(-1)
	}
	return p
}
