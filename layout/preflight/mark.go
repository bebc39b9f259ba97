package preflight

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// marksAgree finds batch marks, and the bars of cartons, that say another thing
// than the words beside them, and bars whose figures below are not theirs. The data of the mark are read back, Application Identifier by
// Application Identifier, and held against the characters that are printed: a
// value that was carried along to both would prove nothing.
func marksAgree(s Sheet, items []page.Item, found *diag.List) {
	if s.Mark && !slices.ContainsFunc(items, isMark) {
		found.Errorf(s.Src, "batch-mark", "report this", "%s lacks its batch mark", s.What)
	}
	for _, it := range items {
		if it.Symbol == nil || s.Market == nil {
			continue
		}
		els, ok, err := carried(it.Symbol)
		if err != nil {
			found.Errorf(at(s, it), "batch-mark", "report this", "%s: the %s carries no GS1 data: %v", s.What, it.Symbol.Kind, err)
		}
		if !ok {
			continue
		}
		if it.Symbol.Kind == gs1.GS1128 && !slices.ContainsFunc(items, func(o page.Item) bool { return o.Role == role.Digits && o.Run != nil && o.Run.Text == gs1.HRI(els) }) {
			found.Errorf(at(s, it), "batch-mark", "report this", "%s: %s does not stand under its bars", s.What, gs1.HRI(els))
		}
		for _, e := range els {
			if says := printedOf(s, items, e.AI); !slices.ContainsFunc(says, func(p string) bool { return s.agrees(e, p) }) {
				found.Errorf(at(s, it), "batch-mark", "report this: the label and its mark must say the same",
					"%s: the %s says (%s) %s, and the words say %s", s.What, it.Symbol.Kind, e.AI, e.Value, strings.Join(says, ", "))
			}
		}
	}
}

func isMark(it page.Item) bool {
	return it.Symbol != nil && (it.Symbol.Kind == gs1.GS1DataMatrix || it.Symbol.Kind == gs1.QR)
}

// carried are the elements of a symbol that holds more than a number; other
// symbols are read by other checks.
func carried(y *page.Symbol) (els []gs1.Element, ok bool, err error) {
	switch y.Kind {
	case gs1.GS1DataMatrix, gs1.GS1128:
		els, err = gs1.ParseElementString(strings.TrimPrefix(y.Data, gs1.FNC1))
	case gs1.QR:
		els, err = gs1.ParseLink(y.Data)
	default:
		return nil, false, nil
	}
	return els, err == nil, err
}

// printedIn are the roles of the words that say an Application Identifier.
func printedIn(ai string) []role.Role {
	switch ai {
	case "10":
		return []role.Role{role.Batch}
	case "15", "17":
		return []role.Role{role.Date}
	case "21":
		return []role.Role{role.Serial}
	case "37", "3100", "3101", "3102", "3103", "3104", "3105": // how many, or how heavy
		return []role.Role{role.Net}
	case "11", "13", "400": // what a customer wants
		return []role.Role{role.Note, role.Key}
	}
	return []role.Role{role.Key}
}

// printedOf is what a label prints of an Application Identifier, in characters.
func printedOf(s Sheet, items []page.Item, ai string) (out []string) {
	roles := printedIn(ai)
	for _, it := range items {
		switch {
		case ai == "01" && it.Symbol != nil && slices.Contains([]string{gs1.EAN13, gs1.EAN8, gs1.UPCA}, it.Symbol.Kind):
			out = append(out, it.Symbol.Data)
		case it.Run != nil && slices.Contains(roles, it.Role):
			out = append(out, it.Run.Text)
		}
	}
	if roles[0] == role.Date { // a date may be broken over two lines
		out = append(out, strings.Join(out, " "))
	}
	return out
}

// agrees reports whether printed characters say what an element says.
func (s Sheet) agrees(e gs1.Element, printed string) bool {
	if m, weighed := gs1.ReadWeight(e); weighed {
		grams, ok := metric(printed)
		return ok && unit.Mass(grams)*unit.Gram == m
	}
	switch e.AI {
	case "01", "02":
		full, err := gs1.Pad(printed)
		return err == nil && full == e.Value
	case "10":
		return printed == e.Value || strings.ReplaceAll(printed, "\u00a0", " ") == s.Market.Lot.Letter+" "+e.Value
	case "11", "13", "15", "17":
		d, _, err := gs1.ReadDate(e.Value, s.Today)
		return err == nil && s.dated(d, printed)
	case "37": // "7 × 170 g"
		return firstNumber.FindString(printed) == e.Value
	}
	return printed == e.Value
}

var firstNumber = regexp.MustCompile(`^\d+`)

// Dates as labels print them: day, month and year in figures, or less of it.
var (
	dayMonthYear = regexp.MustCompile(`\b(\d{2})\.(\d{2})\.(\d{4})\b`)
	monthYear    = regexp.MustCompile(`(?:^|[^.\d])(\d{2})[./](\d{4})\b`)
	dayMonth     = regexp.MustCompile(`(?:^|[^.\d])(\d{2})\.(\d{2})\.?(?:[^.\d]|$)`)
	yearOnly     = regexp.MustCompile(`\b(\d{4})\b`)
)

// dated reports whether printed characters say the day d, as far as they say a
// day: in figures, or in words of the market where it orders the year first or
// the month as a word.
func (s Sheet) dated(d unit.Date, printed string) bool {
	is := func(got string, want int) bool { n, err := strconv.Atoi(got); return err == nil && n == want }
	text := strings.ReplaceAll(printed, "\u00a0", " ")
	if m := dayMonthYear.FindStringSubmatch(text); m != nil {
		return is(m[1], d.Day) && is(m[2], int(d.Month)) && is(m[3], d.Year)
	}
	if months := s.Market.Dates.Months; len(months) == 12 && s.Market.Dates.Order[0] == "year" {
		return strings.Contains(text, fmt.Sprintf("%04d %s %02d", d.Year, months[d.Month-1], d.Day))
	}
	if names := s.Months; len(s.Market.Dates.Order) == 0 && len(names) > 0 {
		return slices.ContainsFunc(names[int(d.Month)], func(name string) bool { return s.worded(d, name, text) })
	}
	if m := monthYear.FindStringSubmatch(text); m != nil {
		return is(m[1], int(d.Month)) && is(m[2], d.Year)
	}
	if m := dayMonth.FindStringSubmatch(text); m != nil {
		return is(m[1], d.Day) && is(m[2], int(d.Month))
	}
	m := yearOnly.FindStringSubmatch(text)
	return m != nil && is(m[1], d.Year)
}

// worded reports whether text says the day with the month as a word.
func (s Sheet) worded(d unit.Date, month, text string) bool {
	figures := regexp.MustCompile(`\d+`).FindAllString(text, -1)
	return strings.Contains(text, month) && slices.Contains(figures, strconv.Itoa(d.Day)) && slices.Contains(figures, strconv.Itoa(d.Year))
}
