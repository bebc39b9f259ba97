// Package unit answers: how much is it, exactly?
//
// Every quantity is an integer count of a small unit, as time.Duration is, so
// that 12.5 mm, 0.33 mm, 1 in and 0.026 % are exact and comparisons at a legal
// threshold need no tolerance:
//
//	Length  nanometres            Area     square micrometres
//	Mass    nanograms             Share    parts per billion (100 % = 1e9)
//	Temp    1/900 degC (0.01 degC = 9, 0.01 degF = 5), TempDiff likewise
//	Span    seconds               Date     a calendar day, Life days or months
//
// Quantities are read from text with their unit ("360 g", "88 ± 3 °C"); a bare
// number is an error. Printing for a reader in a language is the work of
// labels/words; String here is neutral and exact.
package unit

import (
	"fmt"
	"math/bits"
	"strings"
	"unicode/utf8"
)

// MulDiv returns a×b÷c rounded to the nearest integer, halves away from zero,
// through 128 bits. It panics when c is zero or the result does not fit.
func MulDiv(a, b, c int64) int64 {
	neg := (a < 0) != (b < 0) != (c < 0)
	hi, lo := bits.Mul64(abs(a), abs(b))
	d := abs(c)
	q, r := bits.Div64(hi, lo, d)
	if r >= d-r {
		q++
	}
	if neg {
		return -int64(q)
	}
	return int64(q)
}

func abs(a int64) uint64 {
	if a < 0 {
		return uint64(-a)
	}
	return uint64(a)
}

// CmpProducts compares a×b with c×d exactly; all four must not be negative.
func CmpProducts(a, b, c, d int64) int {
	h1, l1 := bits.Mul64(uint64(a), uint64(b))
	h2, l2 := bits.Mul64(uint64(c), uint64(d))
	switch {
	case h1 != h2 && h1 < h2, h1 == h2 && l1 < l2:
		return -1
	case h1 == h2 && l1 == l2:
		return 0
	}
	return 1
}

// A measure says how one kind of quantity is written.
type measure struct {
	what    string // for messages: "a mass"
	example string // "360 g"
	names   []string
	worth   map[string]int64 // unit name → how many base units it is worth
}

// parse reads "360 g" into base units, exactly; a value that is not a whole
// number of base units is an error.
func (m measure) parse(s string) (int64, error) {
	num, name := splitNumber(clean(s))
	if num == "" {
		return 0, fmt.Errorf("%q is not %s: write it like %q", s, m.what, m.example)
	}
	worth, ok := m.worth[name]
	if !ok && name == "" {
		return 0, fmt.Errorf("%q has no unit: write it like %q", s, m.example)
	}
	if !ok {
		return 0, fmt.Errorf("%q: unit %q is not one of %s", s, name, strings.Join(m.names, ", "))
	}
	v, err := decimal(num, worth)
	if err != nil {
		return 0, fmt.Errorf("%q: %w", s, err)
	}
	return v, nil
}

// clean folds the spaces and signs that people type into one form.
func clean(s string) string {
	return strings.TrimSpace(strings.NewReplacer(
		"\u00a0", " ", "\u202f", " ", "\u2009", " ", "−", "-").Replace(s))
}

// splitNumber cuts "360 g" into "360" and "g".
func splitNumber(s string) (num, rest string) {
	i := 0
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		i++
	}
	for i < len(s) && (s[i] >= '0' && s[i] <= '9' || s[i] == '.' || s[i] == ',') {
		i++
	}
	if strings.Trim(s[:i], "+-.,") == "" {
		return "", s
	}
	return s[:i], strings.TrimSpace(s[i:])
}

// decimal multiplies a plain decimal number by worth, exactly.
func decimal(s string, worth int64) (int64, error) {
	if strings.Contains(s, ",") {
		return 0, fmt.Errorf("a comma in a number: write %s", strings.ReplaceAll(s, ",", "."))
	}
	whole, frac, _ := strings.Cut(strings.TrimLeft(s, "+-"), ".")
	digits := strings.TrimLeft(whole+strings.TrimRight(frac, "0"), "0")
	if len(digits) > 18 || strings.Contains(frac, ".") {
		return 0, fmt.Errorf("this number cannot be read")
	}
	var n, scale int64 = 0, 1
	for _, r := range digits {
		n = n*10 + int64(r-'0')
	}
	for range len(strings.TrimRight(frac, "0")) {
		scale *= 10
	}
	hi, lo := bits.Mul64(uint64(n), uint64(worth))
	if hi >= uint64(scale) {
		return 0, fmt.Errorf("this number is too large")
	}
	q, r := bits.Div64(hi, lo, uint64(scale))
	switch {
	case q > 1<<62:
		return 0, fmt.Errorf("this number is too large")
	case r != 0:
		return 0, fmt.Errorf("this number has too many decimals")
	}
	if strings.HasPrefix(s, "-") {
		return -int64(q), nil
	}
	return int64(q), nil
}

// format prints n base units as a plain decimal of a unit worth `worth`.
func format(n, worth int64) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	whole, rest := n/worth, n%worth
	out := fmt.Sprintf("%s%d", sign, whole)
	if rest == 0 {
		return out
	}
	var frac strings.Builder
	for rest != 0 && frac.Len() < 12 {
		rest *= 10
		frac.WriteByte(byte('0' + rest/worth))
		rest %= worth
	}
	return out + "." + frac.String()
}

// Printable reports whether s holds only characters that may stand on paper:
// valid UTF-8 without control characters.
func Printable(s string) bool {
	if !utf8.ValidString(s) {
		return false
	}
	return !strings.ContainsFunc(s, func(r rune) bool {
		return r < 0x20 || r >= 0x7f && r < 0xa0 || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069
	})
}
