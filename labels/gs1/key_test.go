package gs1

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// Bodies and check digits, each with the published place it was taken from.
// SD is the check-digit test of the GS1 Syntax Dictionary (lint_csum.c); GGS
// figures are those of the General Specifications.
var checked = []struct{ body, check, source string }{
	{"0234567", "3", "SD"},
	{"41600033610", "8", "SD"},
	{"123456789012", "8", "SD"},
	{"1234567890123", "1", "SD"},
	{"12345678901234567", "5", "SD"},
	{"950110153000", "3", "GGS fig. 5.1-3"},
	{"950110153100", "0", "GGS fig. 5.2.2.1-2"},
	{"451234567890", "6", "GGS fig. 5.1-1"},
	{"9501234", "6", "GGS fig. 5.2.2.2-1"},
	{"0950110153000", "3", "GGS fig. 5.1-2"},
	{"1540014128876", "3", "GGS fig. 5.3.2.4-1"},
	{"39512345123456789", "5", "GGS fig. 5.4.2-1"},
	{"00614141123456789", "0", "GGS fig. 6.6.5-1"},
	{"39501101530000001", "1", "GGS fig. 6.6.5-2"},
	{"09312345000000001", "2", "GGS fig. 6.6.5-7"},
	{"629104150021", "3", "GS1 web page on check digits, from memory; the sum was checked"},
	{"201234500250", "0", "variable measure by national rules; arithmetic of GGS 7.9.1"},
	{"2401234567890", "5", "GS1 Syntax Engine, parity test"},
	{"211223378965", "7", "GS1 Syntax Engine, parity test"},
	{"0234568", "0", "GS1 Syntax Engine, parity test"},
}

func TestCheckDigit(t *testing.T) {
	for _, c := range checked {
		got, err := CheckDigit(c.body)
		if err != nil || string(got) != c.check {
			t.Errorf("CheckDigit(%q) = %c, %v; want %s (%s)", c.body, got, err, c.check, c.source)
		}
		if err := Valid(c.body + c.check); err != nil {
			t.Errorf("Valid: %v (%s)", err, c.source)
		}
	}
	for _, bad := range []string{"", "12a4", "12 4", "-1", "١٢٣"} {
		if _, err := CheckDigit(bad); err == nil {
			t.Errorf("CheckDigit(%q) gave no error", bad)
		}
	}
}

// One wrong digit is always found: 3 and 1 share no factor with 10, so no
// change of a single digit leaves the sum as it was.
func TestCheckDigitFindsEachSingleMistake(t *testing.T) {
	for _, c := range checked {
		full := c.body + c.check
		for i := range full {
			for d := byte('0'); d <= '9'; d++ {
				wrong := full[:i] + string(d) + full[i+1:]
				if wrong != full && Valid(wrong) == nil {
					t.Errorf("%s: digit %d as %c was not noticed", full, i+1, d)
				}
			}
		}
	}
}

func TestValidMessages(t *testing.T) {
	tests := []struct{ in, want string }{
		// The wrong digits are those of lint_csum.c.
		{"12345673", "GTIN-8"},
		{"416000336109", "GTIN-12"},
		{"1234567890129", "GTIN-13 or GLN: after 123456789012 the last digit is 8, not 9"},
		{"12345678901232", "GTIN-14: after 1234567890123 the last digit is 1, not 2"},
		{"123456789012345670", "SSCC: after 12345678901234567 the last digit is 5, not 0"},
		{"952000100001", "GTIN-12"},
		{"95200010000", "has 11 characters"},
		{"9520 00100001", "only digits"},
		{"", "has 0 characters"},
	}
	for _, tt := range tests {
		if err := Valid(tt.in); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("Valid(%q) = %v, want %q in it", tt.in, err, tt.want)
		}
	}
}

func TestValidAs(t *testing.T) {
	tests := []struct {
		kind, in string
		ok       bool
	}{
		{GLN, "9520001999994", true}, {GTIN13, "9520001000010", true}, {GTIN14, "19520001000017", true},
		{KindSSCC, "095200010000000010", true}, {GTIN8, "95012346", true}, {GTIN12, "416000336108", true},
		{GTIN13, "19520001000017", false}, {GTIN14, "9520001000010", false}, {GLN, "9520001999995", false},
		{"EAN", "9520001000010", false},
	}
	for _, tt := range tests {
		if err := ValidAs(tt.kind, tt.in); (err == nil) != tt.ok {
			t.Errorf("ValidAs(%s, %s) = %v, want ok %v", tt.kind, tt.in, err, tt.ok)
		}
	}
}

func TestSSCC(t *testing.T) {
	tests := []struct {
		ext    int
		prefix string
		serial int64
		want   string
	}{
		{3, "9501101", 530000001, "395011015300000011"}, // GGS fig. 6.6.5-2
		{0, "0614141", 123456789, "006141411234567890"}, // GGS fig. 6.6.5-1
		{0, "9312345", 1, "093123450000000012"},         // GGS fig. 6.6.5-7
		{0, "9520001", 1, "095200010000000010"},         // the invented demo shop
		{9, "952000100001", 9999, "995200010000199991"}, // arithmetic of GGS 7.9.1
	}
	for _, tt := range tests {
		got, err := SSCC(tt.ext, tt.prefix, tt.serial)
		if err != nil || got != tt.want {
			t.Errorf("SSCC(%d, %s, %d) = %s, %v; want %s", tt.ext, tt.prefix, tt.serial, got, err, tt.want)
		}
		if err := ValidAs(KindSSCC, got); err != nil {
			t.Error(err)
		}
	}
	for _, bad := range []struct {
		ext    int
		prefix string
		serial int64
	}{{-1, "9520001", 1}, {10, "9520001", 1}, {0, "952", 1}, {0, "9520001000012", 1}, {0, "95200o1", 1}, {0, "9520001", -1}, {0, "9520001", 1_000_000_000}, {0, "", 1}} {
		if got, err := SSCC(bad.ext, bad.prefix, bad.serial); err == nil {
			t.Errorf("SSCC(%v) = %s, want an error", bad, got)
		}
	}
}

func TestPadOuterInner(t *testing.T) {
	// The pairs of unit and carton are the demo shop's.
	for _, p := range [][2]string{
		{"9520001000010", "19520001000017"}, {"9520001000027", "19520001000024"}, {"9520001000034", "19520001000031"},
		{"9520001000041", "19520001000048"}, {"9520001000058", "19520001000055"}, {"9520001000065", "19520001000062"},
	} {
		outer, err := Outer(1, p[0])
		if err != nil || outer != p[1] {
			t.Errorf("Outer(1, %s) = %s, %v; want %s", p[0], outer, err, p[1])
		}
		if inner, err := Inner(p[1]); err != nil || inner != p[0] {
			t.Errorf("Inner(%s) = %s, %v; want %s", p[1], inner, err, p[0])
		}
	}
	pads := [][2]string{
		{"02345673", "00000002345673"},       // Digital Link tests of the GS1 Syntax Engine
		{"9501101530003", "09501101530003"},  // GGS fig. 5.1-2
		{"416000336108", "00416000336108"},   // AI 01 takes 14 digits, GGS 3.3.2
		{"15400141288763", "15400141288763"}, // GGS fig. 5.3.2.4-1
	}
	for _, p := range pads {
		if got, err := Pad(p[0]); err != nil || got != p[1] {
			t.Errorf("Pad(%s) = %s, %v; want %s", p[0], got, err, p[1])
		}
	}
	for _, bad := range []string{"", "123", "9501101530004", "395011015300000011"} {
		if got, err := Pad(bad); err == nil {
			t.Errorf("Pad(%q) = %s, want an error", bad, got)
		}
	}
	if _, err := Outer(0, "9520001000010"); err == nil {
		t.Error("indicator 0 was accepted")
	}
	if _, err := Outer(1, "19520001000017"); err == nil {
		t.Error("a carton in a carton was accepted")
	}
	if _, err := Inner("9520001000010"); err == nil {
		t.Error("Inner took a GTIN-13")
	}
}

func TestRestricted(t *testing.T) {
	for in, want := range map[string]bool{
		"2012345002500": true, "0212345002504": true, "22012345002504": true,
		"9520001000010": false, "0614141000418": false, "95012346": false,
	} {
		if got := Restricted(in); got != want {
			t.Errorf("Restricted(%s) = %v, want %v", in, got, want)
		}
	}
}

// Whatever body is given, the digit that is found makes the key valid.
func TestWithCheckIsValid(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		n := []int{7, 11, 12, 13, 16, 17}[r.IntN(6)]
		var b strings.Builder
		for range n {
			b.WriteByte(byte('0' + r.IntN(10)))
		}
		full, err := WithCheck(b.String())
		if err != nil || Valid(full) != nil {
			t.Fatalf("WithCheck(%s) = %s, %v; then %v", b.String(), full, err, Valid(full))
		}
	}
}
