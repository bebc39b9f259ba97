package words

import (
	"strconv"
	"strings"
)

const (
	noBreak = "\u00a0"
	thin    = "\u202f" // narrow no-break space
	minus   = "\u2212"
)

// Number returns n×10^-decimals, exactly, with the signs of the language as
// CLDR has them: Number(12345, 1) is "1,234.5" in English, "1.234,5" in German.
func (l *Lang) Number(n int64, decimals int) string {
	group := l.entries["number.group"].text
	switch group {
	case "spaced":
		group = noBreak
	case "narrow":
		group = thin
	}
	from, _ := strconv.Atoi(l.entries["number.group-from"].text)
	return l.number(n, decimals, l.entries["number.minus"].text, group, from)
}

// Decimal is the decimal sign of the language.
func (l *Lang) Decimal() string { return l.entries["number.decimal"].text }

// Plain returns n×10^-decimals, exactly, with the decimal sign of the language.
// Five digits and more stand in groups of three with a narrow no-break space,
// never with a comma or a point, and the minus sign is U+2212: the form of the
// SI Brochure, 9th edition, 5.4.4, in every language.
func (l *Lang) Plain(n int64, decimals int) string {
	return l.number(n, decimals, minus, thin, 5)
}

func (l *Lang) number(n int64, decimals int, sign, group string, from int) string {
	digits := strconv.FormatUint(magnitude(n), 10)
	if short := decimals + 1 - len(digits); short > 0 {
		digits = strings.Repeat("0", short) + digits
	}
	cut := len(digits) - max(decimals, 0)
	out := grouped(digits[:cut], group, from)
	if cut < len(digits) {
		out += l.Decimal() + digits[cut:]
	}
	if n < 0 {
		out = sign + out
	}
	return out
}

func magnitude(n int64) uint64 {
	if n < 0 {
		return uint64(-(n + 1)) + 1
	}
	return uint64(n)
}

// grouped sets a mark between groups of three digits if there are at least
// from digits.
func grouped(digits, mark string, from int) string {
	if len(digits) < max(from, 4) {
		return digits
	}
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && (len(digits)-i)%3 == 0 {
			b.WriteString(mark)
		}
		b.WriteRune(d)
	}
	return b.String()
}

// Percent returns n×10^-decimals percent. The sign stands behind a no-break
// space (SI Brochure 5.4.7, and the way EU law prints it), also where CLDR has
// none; Turkish writes it in front.
func (l *Lang) Percent(n int64, decimals int) string {
	return put(l.entries["percent"].text, "n", l.Plain(n, decimals))
}
