package gs1

import (
	"fmt"
	"strconv"
	"strings"
)

// Kinds of key that end in a check digit.
const (
	GTIN8    = "GTIN-8"
	GTIN12   = "GTIN-12"
	GTIN13   = "GTIN-13"
	GTIN14   = "GTIN-14"
	GLN      = "GLN"
	KindSSCC = "SSCC"
	GSIN     = "GSIN"
)

// lengths gives how many digits a kind of key has, check digit included.
func lengths(kind string) int {
	switch kind {
	case GTIN8:
		return 8
	case GTIN12:
		return 12
	case GTIN13, GLN:
		return 13
	case GTIN14:
		return 14
	case GSIN:
		return 17
	case KindSSCC:
		return 18
	}
	return 0
}

// kindOf names the kind of key by its number of digits, for messages.
func kindOf(n int) string {
	switch n {
	case 8:
		return GTIN8
	case 12:
		return GTIN12
	case 13:
		return "GTIN-13 or GLN"
	case 14:
		return GTIN14
	case 17:
		return GSIN
	case 18:
		return KindSSCC
	}
	return ""
}

// CheckDigit returns the digit that follows body: the digits are weighted 3
// and 1 in turn from the right, and the check digit fills the sum up to a
// multiple of ten (GGS 7.9.1; the same for GTIN, GLN, SSCC and GSIN).
func CheckDigit(body string) (byte, error) {
	if body == "" || !digits(body) {
		return 0, fmt.Errorf("%q must be digits only", body)
	}
	sum := 0
	for i := range len(body) {
		d := int(body[len(body)-1-i] - '0')
		if i%2 == 0 {
			d *= 3
		}
		sum += d
	}
	return byte('0' + (10-sum%10)%10), nil
}

// WithCheck returns body with its check digit added.
func WithCheck(body string) (string, error) {
	c, err := CheckDigit(body)
	if err != nil {
		return "", err
	}
	return body + string(c), nil
}

// Valid reports what is wrong with a key, telling its kind by its number of
// digits: 8, 12, 13 or 14 for a GTIN (13 also for a GLN), 17 for a GSIN, 18
// for an SSCC.
func Valid(full string) error {
	kind := kindOf(len(full))
	if kind == "" {
		return fmt.Errorf("%q has %d characters: a GTIN has 8, 12, 13 or 14 digits, a GLN 13, an SSCC 18", full, len(full))
	}
	return valid(kind, full)
}

// ValidAs reports what is wrong with full as a key of the given kind.
func ValidAs(kind, full string) error {
	n := lengths(kind)
	if n == 0 {
		return fmt.Errorf("%q is no kind of key", kind)
	}
	if len(full) != n {
		return fmt.Errorf("%q is not a %s: it has %d characters, not %d digits", full, kind, len(full), n)
	}
	return valid(kind, full)
}

func valid(kind, full string) error {
	if !digits(full) {
		return fmt.Errorf("%q is not a %s: only digits, without spaces or dashes", full, kind)
	}
	c, err := CheckDigit(full[:len(full)-1])
	if err != nil {
		return err
	}
	if c != full[len(full)-1] {
		return fmt.Errorf("%q is not a %s: after %s the last digit is %c, not %c; a digit was mistyped or two were swapped",
			full, kind, full[:len(full)-1], c, full[len(full)-1])
	}
	return nil
}

// SSCC makes the number of one shipping carton or pallet: an extension digit
// of 0 to 9, the company prefix, the serial filled with zeros so that prefix
// and serial have 16 digits, and the check digit. A number may not be given
// again for at least twelve months (GGS 4.4.1.1).
func SSCC(ext int, prefix string, serial int64) (string, error) {
	if ext < 0 || ext > 9 {
		return "", fmt.Errorf("SSCC: the extension digit is 0 to 9, not %d", ext)
	}
	if err := ValidPrefix(prefix); err != nil {
		return "", err
	}
	room := 16 - len(prefix)
	s := strconv.FormatInt(serial, 10)
	if serial < 0 || len(s) > room {
		return "", fmt.Errorf("SSCC: serial %d does not fit: with prefix %s there is room for %d digits", serial, prefix, room)
	}
	return WithCheck(strconv.Itoa(ext) + prefix + strings.Repeat("0", room-len(s)) + s)
}

// ValidPrefix reports what is wrong with a company prefix: 4 to 12 digits
// (the Syntax Dictionary's test gcppos1 takes 4 as the shortest in use).
func ValidPrefix(prefix string) error {
	if !digits(prefix) || len(prefix) < 4 || len(prefix) > 12 {
		return fmt.Errorf("%q is not a GS1 company prefix: 4 to 12 digits, written in quotes", prefix)
	}
	return nil
}

// Pad fills a GTIN with zeros to the 14 digits that AI 01 takes.
func Pad(gtin string) (string, error) {
	switch len(gtin) {
	case 8, 12, 13, 14:
		if err := Valid(gtin); err != nil {
			return "", err
		}
		return strings.Repeat("0", 14-len(gtin)) + gtin, nil
	}
	return "", fmt.Errorf("%q is not a GTIN: it has %d characters, not 8, 12, 13 or 14 digits", gtin, len(gtin))
}

// Outer makes the GTIN-14 of a carton from the GTIN of the unit in it. The
// indicator is 1 to 8; 9 marks goods of variable measure.
func Outer(indicator int, unit string) (string, error) {
	if indicator < 1 || indicator > 9 {
		return "", fmt.Errorf("GTIN-14: the indicator digit is 1 to 9, not %d", indicator)
	}
	p, err := Pad(unit)
	if err != nil {
		return "", err
	}
	if p[0] != '0' {
		return "", fmt.Errorf("%q is a carton's GTIN-14 already: give the GTIN of one unit", unit)
	}
	return WithCheck(strconv.Itoa(indicator) + p[1:13])
}

// Inner returns the GTIN-13 of the unit in a carton, from the carton's
// GTIN-14. It holds only where the carton's number was made by [Outer]; a
// carton may also have a number of its own.
func Inner(gtin14 string) (string, error) {
	if err := ValidAs(GTIN14, gtin14); err != nil {
		return "", err
	}
	return WithCheck(gtin14[1:13])
}

// Restricted reports whether a 13-digit or 14-digit number lies in the ranges
// that each country or company uses by its own rules (prefixes 02, 04 and 20
// to 29, GGS 1.4): it must not be used on goods sold elsewhere. That 04 is
// among them is from memory.
func Restricted(gtin string) bool {
	if len(gtin) == 14 {
		gtin = gtin[1:]
	}
	if len(gtin) != 13 {
		return false
	}
	return gtin[0] == '2' || gtin[:2] == "02" || gtin[:2] == "04"
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}
