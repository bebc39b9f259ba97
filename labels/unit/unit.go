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
	"math"
	"math/bits"
	"slices"
	"strings"
	"unicode/utf8"
)

// MulDiv returns a×b÷c rounded to the nearest integer, halves away from zero,
// through 128 bits. It panics when c is zero or the result does not fit.
func MulDiv(a, b, c int64) int64 {
	q, ok := TryMulDiv(a, b, c)
	if !ok {
		panic(fmt.Sprintf("unit: %d × %d ÷ %d does not fit", a, b, c))
	}
	return q
}

// TryMulDiv is MulDiv for numbers that somebody may have written too large: it
// reports false where MulDiv panics.
func TryMulDiv(a, b, c int64) (q int64, ok bool) {
	neg := (a < 0) != (b < 0) != (c < 0)
	hi, lo := bits.Mul64(abs(a), abs(b))
	d := abs(c)
	if hi >= d { // also when c is zero
		return 0, false
	}
	u, r := bits.Div64(hi, lo, d)
	if u >= math.MaxInt64 {
		return 0, false
	}
	if r >= d-r {
		u++
	}
	if neg {
		return -int64(u), true
	}
	return int64(u), true
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
	signed  bool   // may be less than nothing
	names   []string
	worth   map[string]int64 // unit name → how many base units it is worth
	asks    []string         // units of which nobody weighs a thousandth: three digits behind the point are asked about
}

// parse reads "360 g" into base units, exactly; a value that is not a whole
// number of base units is an error.
func (m measure) parse(s string) (int64, error) {
	num, name := splitNumber(clean(s))
	like := fmt.Sprintf("write it like %q", m.example)
	if num == "" {
		return 0, bad("unit", s, like, " is not %s", m.what)
	}
	worth, ok := m.worth[name]
	if !ok && name == "" {
		return 0, bad("unit", s, like, " has no unit")
	}
	if !ok {
		return 0, bad("unit", s, m.nearUnit(name, like), ": unit %s is not one of %s", quote(name), strings.Join(m.names, ", "))
	}
	if slices.Contains(m.asks, name) && thousands(num) {
		return 0, bad("number", s, pointHint(num), ": three digits behind the point may be thousands")
	}
	v, err := decimal(s, num, worth)
	if err != nil {
		return 0, err
	}
	if num[0] == '-' && !m.signed {
		return 0, bad("number", s, "take the minus sign out", " is less than nothing")
	}
	return v, nil
}

// nearUnit hints at a unit that differs only in capitals.
func (m measure) nearUnit(name, like string) string {
	for _, n := range m.names {
		if strings.EqualFold(n, name) || strings.EqualFold(strings.TrimPrefix(n, "°"), strings.TrimSuffix(name, ".")) {
			return fmt.Sprintf("write the unit as %q", n)
		}
	}
	if m.what != masses.what {
		return like
	}
	if more := elsewhere()[strings.ToLower(strings.TrimSuffix(name, "."))]; more != "" {
		return like + "; " + more
	}
	return like
}

// elsewhere says what to do about units of other kitchens. The pound is
// 453.59237 g exactly (International yard and pound agreement of 1959), the
// ounce a sixteenth of it.
func elsewhere() map[string]string {
	const cup = "a cup or spoon is filled differently by everybody: weigh it once and write the grams"
	const volume = "weigh it: by its density a litre of milk is 1.03 kg, of oil 0.92 kg"
	return map[string]string{
		"lb": "1 lb is 453.59 g", "lbs": "1 lb is 453.59 g", "pound": "1 lb is 453.59 g", "pounds": "1 lb is 453.59 g",
		"oz": "1 oz is 28.35 g", "ounce": "1 oz is 28.35 g", "ounces": "1 oz is 28.35 g",
		"cup": cup, "cups": cup, "tbsp": cup, "tsp": cup, "tablespoon": cup, "tablespoons": cup, "teaspoon": cup, "teaspoons": cup, "spoon": cup, "el": cup, "tl": cup, "càs": cup, "càc": cup,
		"ml": volume, "cl": volume, "dl": volume, "l": volume, "litre": volume, "litres": volume, "liter": volume,
		"pcs": "of pieces write what they weigh", "pieces": "of pieces write what they weigh", "piece": "of pieces write what they weigh",
	}
}

// folded maps the spaces and signs that people type to one form.
var folded = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "−", "-")

// clean folds s and cuts what is empty at its ends.
func clean(s string) string { return strings.TrimSpace(folded.Replace(s)) }

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
	return s[:i], strings.Trim(s[i:], " ")
}

// decimal multiplies the plain decimal number num, which stands in s, by
// worth, exactly. A naked point (.5 or 5.) is refused: it is easily overlooked.
func decimal(s, num string, worth int64) (int64, error) {
	if strings.Contains(num, ",") {
		return 0, bad("number", s, commaHint(num), ": a comma in a number")
	}
	whole, frac, point := strings.Cut(strings.TrimLeft(num, "+-"), ".")
	if point && (whole == "" || frac == "") {
		return 0, bad("number", s, "write a digit on both sides of the point", ": a point at the edge of a number")
	}
	if strings.Contains(frac, ".") {
		return 0, bad("number", s, "write one point, before the decimals", ": two points in a number")
	}
	frac = strings.TrimRight(frac, "0")
	digits := strings.TrimLeft(whole+frac, "0")
	if len(digits) > 18 || len(frac) > 18 {
		return 0, bad("number", s, "write fewer digits", ": this number has too many digits")
	}
	var n, scale int64 = 0, 1
	for _, r := range digits {
		n = n*10 + int64(r-'0')
	}
	for range len(frac) {
		scale *= 10
	}
	return exactly(s, strings.HasPrefix(num, "-"), n, worth, scale)
}

// exactly gives n×worth÷scale where that is whole and not absurdly large.
func exactly(s string, neg bool, n, worth, scale int64) (int64, error) {
	hi, lo := bits.Mul64(uint64(n), uint64(worth))
	if hi >= uint64(scale) {
		return 0, bad("number", s, "see whether the unit is right", ": this number is too large")
	}
	q, r := bits.Div64(hi, lo, uint64(scale))
	switch {
	case q > 1<<62:
		return 0, bad("number", s, "see whether the unit is right", ": this number is too large")
	case r != 0:
		return 0, bad("number", s, "write fewer decimals", ": this number has too many decimals")
	case neg:
		return -int64(q), nil
	}
	return int64(q), nil
}

// commaHint offers the decimal number, and where the comma may as well part
// the thousands, the whole one too.
func commaHint(num string) string {
	point := strings.ReplaceAll(num, ",", ".")
	if _, after, _ := strings.Cut(num, ","); len(after) == 3 && strings.Count(num, ",") == 1 && !strings.Contains(num, ".") {
		return pointHint(point)
	}
	if strings.Count(num, ",")+strings.Count(num, ".") > 1 {
		return "write the number without signs between the thousands, and decimals with a point"
	}
	return "write " + point
}

// thousands reports whether the point of a number may part its thousands, as
// in 1.000: half of Europe writes them so. After 0 it cannot.
func thousands(num string) bool {
	whole, frac, _ := strings.Cut(strings.TrimLeft(num, "+-"), ".")
	return len(frac) == 3 && !strings.Contains(frac, ".") && !strings.Contains(num, ",") &&
		len(whole) >= 1 && len(whole) <= 3 && whole[0] != '0'
}

// pointHint offers both meanings of a point before three digits: without it,
// and with the decimals written so that they are no thousands.
func pointHint(num string) string {
	short := strings.TrimRight(strings.TrimRight(num, "0"), ".")
	if !strings.Contains(short, ".") || len(short) < len(num) {
		return fmt.Sprintf("write %s or %s, whichever is meant", strings.ReplaceAll(num, ".", ""), short)
	}
	return fmt.Sprintf("write %s or %s0, whichever is meant", strings.ReplaceAll(num, ".", ""), num)
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
// valid UTF-8 without control characters, line and paragraph separators,
// marks that turn the direction of writing, byte order marks, the mark that
// stands for a broken character, and code points that are no characters.
func Printable(s string) bool {
	return utf8.ValidString(s) && !strings.ContainsFunc(s, unprintable)
}

func unprintable(r rune) bool {
	switch {
	case r < 0x20, r >= 0x7f && r < 0xa0: // C0, delete, C1
	case r >= 0x2028 && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
	case r == 0xfeff, r == 0xfffd, r&0xfffe == 0xfffe, r >= 0xfdd0 && r <= 0xfdef:
	default:
		return false
	}
	return true
}
