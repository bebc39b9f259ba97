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

// marksAgree finds batch marks that say another thing than the words beside
// them. The data of the mark are read back, Application Identifier by
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

// carried are the elements of a two-dimensional symbol; other symbols are read
// by other checks.
func carried(y *page.Symbol) (els []gs1.Element, ok bool, err error) {
	switch y.Kind {
	case gs1.GS1DataMatrix:
		els, err = gs1.ParseElementString(strings.TrimPrefix(y.Data, gs1.FNC1))
	case gs1.QR:
		els, err = gs1.ParseLink(y.Data)
	default:
		return nil, false, nil
	}
	return els, err == nil, err
}

// printedOf is what a label prints of an Application Identifier, in characters.
func printedOf(s Sheet, items []page.Item, ai string) (out []string) {
	roles := map[string]role.Role{"10": role.Batch, "15": role.Date, "17": role.Date, "21": role.Serial}
	for _, it := range items {
		switch {
		case ai == "01" && it.Symbol != nil && (it.Symbol.Kind == gs1.EAN13 || it.Symbol.Kind == gs1.EAN8):
			out = append(out, it.Symbol.Data)
		case it.Run != nil && roles[ai] != "" && it.Role == roles[ai]:
			out = append(out, it.Run.Text)
		}
	}
	if roles[ai] == role.Date { // a date may be broken over two lines
		out = append(out, strings.Join(out, " "))
	}
	return out
}

// agrees reports whether printed characters say what an element says.
func (s Sheet) agrees(e gs1.Element, printed string) bool {
	switch e.AI {
	case "01":
		full, err := gs1.Pad(printed)
		return err == nil && full == e.Value
	case "10":
		return printed == e.Value || printed == s.Market.Lot.Letter+" "+e.Value
	case "15", "17":
		d, _, err := gs1.ReadDate(e.Value, s.Today)
		return err == nil && s.dated(d, printed)
	}
	return printed == e.Value
}

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
