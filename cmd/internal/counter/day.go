package counter

import (
	"fmt"
	"net/url"
	"strconv"
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/unit"
)

// dayFields are three plain fields for a day. The browser's own field for dates
// is not used: it shows the order of its own settings.
type dayFields struct{ Name, D, M, Y string }

// dayOf fills the fields with a day; a day that is not set leaves them empty.
func dayOf(name string, d unit.Date) dayFields {
	f := dayFields{Name: name}
	if !d.IsZero() {
		f.D, f.M, f.Y = strconv.Itoa(d.Day), strconv.Itoa(int(d.Month)), strconv.Itoa(d.Year)
	}
	return f
}

// dayIn reads three fields; all empty is no day.
func (a *ask) dayIn(q url.Values, name string) (unit.Date, error) {
	var part [3]string
	for i, end := range []string{"-y", "-m", "-d"} {
		part[i] = strings.TrimSpace(q.Get(name + end))
	}
	if part == [3]string{} {
		return unit.Date{}, nil
	}
	var n [3]int
	for i, s := range part {
		var err error
		if n[i], err = strconv.Atoi(s); err != nil || n[i] < 1 || n[i] > 9999 {
			return unit.Date{}, &refusal{400, "bad-day", nil}
		}
	}
	d, err := unit.ParseDate(fmt.Sprintf("%04d-%02d-%02d", n[0], n[1], n[2]))
	if err != nil {
		return d, &refusal{400, "bad-day", &usage.Error{Msg: err.Error()}}
	}
	return d, nil
}

// figures reads a number with the decimal sign of the language. The sign of
// another language is refused: 1.200 is a little more than one here and over a
// thousand there.
func (s say) figures(text string) (string, error) {
	text = strings.TrimSpace(text)
	sign, other := s.l.Decimal(), ","
	if sign == "," {
		other = "."
	}
	if strings.Contains(text, other) {
		return "", &refusal{400, "bad-number", nil}
	}
	return strings.ReplaceAll(text, sign, "."), nil
}

// massIn reads a mass with its unit; empty is none.
func (s say) massIn(text string) (unit.Mass, error) {
	text, err := s.figures(text)
	if err != nil || text == "" {
		return 0, err
	}
	for _, name := range []string{"kg", "mg", "g"} { // кг
		word, err := s.l.Word("unit." + name)
		if n, ok := strings.CutSuffix(text, word); err == nil && ok {
			text = n + name
			break
		}
	}
	m, err := unit.ParseMass(text)
	if err != nil {
		return 0, &refusal{400, "bad-number", err}
	}
	return m, nil
}

// countIn reads a whole number; empty is none.
func countIn(text string) (unit.Count, error) {
	if text = strings.TrimSpace(text); text == "" {
		return 0, nil
	}
	n, err := unit.ParseCount(text)
	if err != nil {
		return 0, &refusal{400, "bad-number", err}
	}
	return n, nil
}
