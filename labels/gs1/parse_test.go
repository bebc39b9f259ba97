package gs1

import (
	"slices"
	"strings"
	"testing"
)

// The strings are those of the GS1 Syntax Engine (test_ai_processAIdata),
// without the FNC1 in front, which a scanner does not send.
func TestParseElementString(t *testing.T) {
	tests := []struct {
		in, want string // want is empty where it must fail
	}{
		{"", ""}, {"^", ""}, {"891234", ""}, {"99~ABC", ""}, {"99ABC~", ""},
		{"991234", "(99)1234"},
		{"^991234", "(99)1234"},
		{"0112345678901231", "(01)12345678901231"},
		{"01A2345678901231", ""}, {"011234567890123A", ""}, {"0112345678901234", ""}, {"011234567890123", ""},
		{"01123456789012312", ""},
		{"0112345678901231^", "(01)12345678901231"},
		{"011234567890123^", ""}, {"01123456789012345^", ""}, {"01123456789012345^991234", ""},
		{"0112345678901231991234", "(01)12345678901231(99)1234"},
		{"0112345678901231^991234", "(01)12345678901231(99)1234"},
		{"2421", "(242)1"}, {"242123456", "(242)123456"}, {"242123456^10ABC123", "(242)123456(10)ABC123"},
		{"242123456^", "(242)123456"}, {"2421234567", ""},
		{"81111234", "(8111)1234"}, {"8111123", ""}, {"811112345", ""}, {"81111234^10ABC123", "(8111)1234(10)ABC123"},
		{"800112341234512398", "(8001)12341234512398"}, {"800112341234512398^0112345678901231", "(8001)12341234512398(01)12345678901231"},
		{"80011234123451239", ""}, {"8001123412345123981", ""},
		{"7007211225211231", "(7007)211225211231"}, {"7007211225", "(7007)211225"}, {"70072112252", ""}, {"70072112252212311", ""},
		{"800302112345678900ABC", "(8003)02112345678900ABC"}, {"800302112345678901ABC", ""}, {"800302112345678900", "(8003)02112345678900"},
		{"800302112345678900^10ABC123", "(8003)02112345678900(10)ABC123"}, {"800302112345678900ABCDEFGHIJKLMNOPQ", ""},
		{"7230123", "(7230)123"}, {"723012", ""},
		{"10^^11991225", ""}, {"1012345^^11991225", ""}, {"1", ""}, {"0", ""}, {"310", ""}, {"10", ""},
	}
	for _, tt := range tests {
		els, err := ParseElementString(strings.ReplaceAll(tt.in, "^", FNC1))
		if (err == nil) != (tt.want != "") || HRI(els) != tt.want && err == nil {
			t.Errorf("%s = %s, %v; want %q", tt.in, HRI(els), err, tt.want)
		}
	}
}

func TestParseScan(t *testing.T) {
	tests := []struct{ in, want string }{
		{"]C1011231231231233310ABC123^99TESTING", "(01)12312312312333(10)ABC123(99)TESTING"}, // Syntax Engine, scandata.c
		{"]d201095011015300031715011910AB-123", "(01)09501101530003(17)150119(10)AB-123"},
		{"]Q30109501101530003", "(01)09501101530003"}, {"]e00109501101530003", "(01)09501101530003"},
		{"]E09501101530003", "(01)09501101530003"}, {"]E402345673", "(01)00000002345673"}, {"]I115400141288763", "(01)15400141288763"},
		{"]I015400141288763", "(01)15400141288763"}, {"]I195012346", ""}, {"]E495012347", ""}, // a part of an ITF-14 is not a GTIN
		{"]C00109501101530003", ""}, {"]Q1https://id.gs1.org/01/09501101530003", ""}, {"]E09501101530004", ""},
		{"0109501101530003", ""}, {"", ""}, {"]C", ""}, {"]C1", ""},
	}
	for _, tt := range tests {
		els, err := ParseScan(strings.ReplaceAll(tt.in, "^", FNC1))
		if (err == nil) != (tt.want != "") || err == nil && HRI(els) != tt.want {
			t.Errorf("%s = %s, %v; want %q", tt.in, HRI(els), err, tt.want)
		}
	}
}

func TestParseBracketed(t *testing.T) {
	// From the Syntax Engine's test of bracketed input.
	for _, bad := range []string{"", "12345", "(10)(11)98765", "(10)12345^", "(10", "10)12345", "()1", "(10)", "(1)1", "(01)12345678901231(99", "(89)1"} {
		if els, err := ParseBracketed(bad); err == nil {
			t.Errorf("%q was read as %v", bad, els)
		}
	}
	want := []Element{{"10", "A(B)"}, {"99", "("}}
	if els, err := ParseBracketed(`(10)A\(B)(99)\(`); err != nil || !slices.Equal(els, want) {
		t.Errorf("escaped parentheses gave %v, %v", els, err)
	}
}

func FuzzParseElementString(f *testing.F) {
	for _, s := range []string{"0112345678901231", "10A\x1d11260101", "7007211225211231", "800302112345678900ABC", "]C1", "(01)12345678901231(10)A", "https://a/01/09506000134352?15=261231"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if els, err := ParseElementString(s); err == nil {
			back, err := ParseElementString(join(els))
			if err != nil || !slices.Equal(back, els) {
				t.Fatalf("%q: %v came back as %v, %v", s, els, back, err)
			}
		}
		_, _ = ParseScan(s)
		if els, err := ParseBracketed(s); err == nil {
			if _, err := ParseElementString(join(els)); err != nil {
				t.Fatalf("%q: %v", s, err)
			}
		}
		if els, err := ParseLink(s); err == nil {
			if uri, err := Link("", els); err == nil {
				back, err := ParseLink(uri)
				if err != nil || len(back) != len(els) {
					t.Fatalf("%q: %s gave %v, %v", s, uri, back, err)
				}
			}
		}
	})
}

func FuzzEncode(f *testing.F) {
	f.Add("01", "12345678901231", "10", "A")
	f.Add("00", "123456789012345675", "400", "X(1)")
	f.Add("15", "260300", "3103", "000123")
	f.Fuzz(func(t *testing.T, ai1, val1, ai2, val2 string) {
		els := []Element{{ai1, val1}, {ai2, val2}}
		s, err := Encode(els)
		if err != nil {
			return
		}
		if back, err := ParseElementString(s); err != nil || !slices.Equal(back, els) {
			t.Fatalf("%v came back as %v, %v", els, back, err)
		}
		if Valid(val1) != nil && (ai1 == "00" || ai1 == "01") {
			t.Fatalf("%v has a wrong check digit", els[0])
		}
	})
}
