package gs1

import (
	"fmt"
	"strconv"
	"strings"
	"time"
)

// test runs one of the named tests of the Syntax Dictionary on a part of a
// value that has the right characters and length already; it returns what is
// wrong, or "". A test that is not done here refuses the value: nothing is
// printed that was not checked.
func test(name, s string) string {
	switch name {
	case "csum":
		return checkSum(s)
	case "gcppos1":
		return prefixAt(s, 0)
	case "gcppos2":
		return prefixAt(s, 1)
	case "yymmd0", "yymmdd", "yyyymmdd", "hh", "hhmi", "mi", "ss":
		return testTime(name, s)
	case "iso3166", "iso3166999", "iso3166alpha2", "iso4217":
		return testCode(name, s)
	case "zero", "nonzero", "nozeroprefix", "yesno", "winding", "iso5218", "hyphen", "hasnondigit":
		return testFlag(name, s)
	case "pcenc":
		return percent(s)
	case "latitude":
		return atMost(s, 1_800_000_000, "a latitude")
	case "longitude":
		return atMost(s, 3_600_000_000, "a longitude")
	case "pieceoftotal":
		return pieceOfTotal(s)
	case "importeridx":
		return outside(s, cset64)
	case "posinseqslash":
		return position(s)
	}
	return "is of a kind (" + name + ") that is not checked here, so it cannot be printed"
}

func checkSum(s string) string {
	c, err := CheckDigit(s[:len(s)-1])
	if err != nil {
		return err.Error()
	}
	if c != s[len(s)-1] {
		return fmt.Sprintf("ends in the wrong check digit: %c, where %c is right", s[len(s)-1], c)
	}
	return ""
}

// prefixAt asks for the four digits that the shortest company prefix has.
func prefixAt(s string, at int) string {
	if len(s) < at+4 || !digits(s[at:at+4]) {
		return "does not hold a GS1 company prefix, which begins with at least 4 digits"
	}
	return ""
}

func testTime(name, s string) string {
	bad := false
	switch name {
	case "yymmd0":
		return date(s, true)
	case "yymmdd":
		return date(s, false)
	case "yyyymmdd":
		_, err := time.Parse("20060102", s)
		bad = err != nil
	case "hhmi":
		bad = s[:2] > "23" || s[2:] > "59"
	case "hh":
		bad = s > "23"
	default: // mi, ss
		bad = s > "59"
	}
	if bad {
		return "is not a day and time that exist"
	}
	return ""
}

// date checks YYMMDD; both centuries that YY can mean have the same leap
// years but for 00, which is 2000 here.
func date(s string, dayMayBe00 bool) string {
	if dayMayBe00 && s[4:] == "00" {
		s = s[:4] + "01"
	}
	if _, err := time.Parse("20060102", "20"+s); err != nil {
		hint := ""
		if dayMayBe00 {
			hint = ", DD 00 where only the month is given"
		}
		return "is not a day that exists: write YYMMDD" + hint
	}
	return ""
}

func testFlag(name, s string) string {
	n := strings.Trim(s, "0")
	switch name {
	case "zero":
		return unless(n == "", "must be 0")
	case "nonzero":
		return unless(n != "", "must not be zero")
	case "nozeroprefix":
		return unless(s[0] != '0' || s == "0", "must not begin with 0")
	case "yesno":
		return unless(strings.Contains("01", s), "must be 0 for no or 1 for yes")
	case "winding":
		return unless(strings.Contains("019", s), "must be 0, 1 or 9")
	case "iso5218":
		return unless(strings.Contains("0129", s), "must be 0, 1, 2 or 9")
	case "hyphen":
		return unless(strings.Trim(s, "-") == "", "may end in a hyphen for below zero, and in nothing else")
	}
	return unless(!digits(s), "must have a character that is not a digit")
}

func unless(ok bool, msg string) string {
	if ok {
		return ""
	}
	return msg
}

func percent(s string) string {
	for i := range len(s) {
		if s[i] == '%' && (i+2 >= len(s) || !hex(s[i+1]) || !hex(s[i+2])) {
			return "has a % that is not followed by two hexadecimal digits"
		}
	}
	return ""
}

func hex(c byte) bool { return strings.IndexByte("0123456789ABCDEFabcdef", c) >= 0 }

func atMost(s string, limit int64, what string) string {
	n, err := strconv.ParseInt(s, 10, 64)
	return unless(err == nil && n <= limit, "is not "+what)
}

// pieceOfTotal checks PPTT: piece number, then how many pieces.
func pieceOfTotal(s string) string {
	half := len(s) / 2
	p, t := s[:half], s[half:]
	return unless(strings.Trim(p, "0") != "" && strings.Trim(t, "0") != "" && p <= t,
		"does not count a piece out of a total")
}

// position checks "1/3".
func position(s string) string {
	a, b, ok := strings.Cut(s, "/")
	good := ok && a != "" && b != "" && digits(a) && digits(b) && a[0] != '0' && b[0] != '0' &&
		(len(a) < len(b) || len(a) == len(b) && a <= b)
	return unless(good, "is not a place in a sequence such as 1/3")
}
