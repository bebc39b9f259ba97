package gs1

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func bracketed(t *testing.T, s string) []Element {
	t.Helper()
	els, err := ParseBracketed(s)
	if err != nil {
		t.Fatalf("%s: %v", s, err)
	}
	return els
}

// show writes FNC1 as ^, the way the reference tests do.
func show(s string) string { return strings.ReplaceAll(s, FNC1, "^") }

// The strings are those of the GS1 Syntax Engine's tests (src/c-lib/ai.c,
// scandata.c); the engine writes the leading FNC1, which here the symbol adds.
func TestEncode(t *testing.T) {
	tests := []struct{ in, also, want string }{
		{"(01)12345678901231", "", "0112345678901231"},
		{"(01)12345678901231(10)12345", "", "01123456789012311012345"},
		{"(01)12345678901231(3100)123456(10)12345", "", "011234567890123131001234561012345"},
		{"(3100)123456(10)12345", "(01)12345678901231", "31001234561012345"},
		{"(10)12345(11)991225", "(01)12345678901231", "1012345^11991225"},
		{"(01)12345678901231(235)XYZ(10)BATCH", "", "0112345678901231235XYZ^10BATCH"},
		{"(01)95012345678903(3103)000123", "", "01950123456789033103000123"},
		{"(01)12312312312333(10)ABC123(99)TESTING", "", "011231231231233310ABC123^99TESTING"},
		// GGS fig. 6.6.5-4: the SSCC stands in a symbol of its own.
		{"(02)00614141000418(15)210228(10)451214(37)20", "(00)006141411234567890", "0200614141000418152102281045121" + "4^3720"},
		{"(00)395123451234567895", "", "00395123451234567895"},                                        // GGS fig. 5.4.2-1
		{"(403)402621(401)950110153B01001", "(00)395011015300000011", "403402621^401950110153B01001"}, // GGS fig. 6.6.5-2
		{"(420)45458", "", "42045458"}, // GGS fig. 6.6.5-3
		{"(01)09501101530003(17)150119(10)AB-123", "", "01095011015300031715011910AB-123"},
	}
	for _, tt := range tests {
		var also []Element
		if tt.also != "" {
			also = bracketed(t, tt.also)
		}
		els := bracketed(t, tt.in)
		got, err := Encode(els, also...)
		if err != nil || show(got) != tt.want {
			t.Errorf("Encode(%s) = %s, %v; want %s", tt.in, show(got), err, tt.want)
		}
		if back, err := ParseElementString(got); err != nil || !slices.Equal(back, els) {
			t.Errorf("ParseElementString(%s) = %v, %v", show(got), back, err)
		}
		if HRI(els) != tt.in {
			t.Errorf("HRI = %s, want %s", HRI(els), tt.in)
		}
	}
}

func TestEncodeRefuses(t *testing.T) {
	tests := []struct {
		els  []Element
		want string
	}{
		{nil, "no data"},
		{[]Element{{"01", "12345678901231"}, {"01", "12345678901231"}}, "given twice"},
		{[]Element{{"10", "12345"}}, "(10) BATCH/LOT must stand with (01) GTIN or (02) CONTENT"},
		{[]Element{{"01", "12345678901231"}, {"37", "12"}}, "(01) GTIN may not stand with (37) COUNT"},
		{[]Element{{"89", "1"}}, "(89) is not an Application Identifier"},
		{[]Element{{"01", "12345678901231"}, {"10", "Bäcker"}}, `has 'ä'`},
		{[]Element{{"01", "12345678901231"}, {"10", "A" + FNC1 + "B"}}, `has '\x1d'`},
		{[]Element{{"01", "12345678901231"}, {"10", "A B"}}, `has ' '`},
		{[]Element{{"01", "9501101530003"}}, "is too short: it has 14 digits"},
		{[]Element{{"01", "95012345678902"}}, "wrong check digit: 2, where 3 is right"},
		{[]Element{{"01", "95012345678903"}, {"11", "131313"}}, "is not a day that exists: write YYMMDD, DD 00"},
	}
	for _, tt := range tests {
		if got, err := Encode(tt.els); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("Encode(%v) = %q, %v; want %q in the error", tt.els, got, err, tt.want)
		}
	}
}

// Values of the GS1 Syntax Engine's tests of linters (src/c-lib/ai.c) and of
// the dictionary's own tests (lint_yymmd0.c and others).
func TestCheck(t *testing.T) {
	tests := []struct {
		in string
		ok bool
	}{
		{"(00)123456789012345675", true}, {"(00)123456789012345670", false}, {"(00)A23456789012345675", false},
		{"(8010)123456", true}, {"(8010)123456_", false}, {"(8030)ABC:123", false}, {"(8030)123=", true}, {"(8030)12=", false},
		{"(401)123", false}, {"(7023)12A4", false}, {"(7040)1AB=", false}, {"(7040)1ABC", true},
		{"(8001)12341234512311", true}, {"(8001)12340000012311", false}, {"(8001)12341234512321", false},
		{"(8003)112345678901281234567890123456", false}, {"(8003)02112345678900ABC", true}, {"(8003)02112345678901ABC", false},
		{"(8011)023456789012", false}, {"(8011)0", true}, {"(4321)1", true}, {"(4321)2", false},
		{"(426)987", false}, {"(426)250", true}, {"(7030)987ABC", false}, {"(7030)999ABC", true}, {"(4307)AA", false}, {"(4307)FR", true},
		{"(3910)9870", false}, {"(3910)9780", true}, {"(3932)9781234", true},
		{"(8008)20122515300", false}, {"(8008)2012251530", true}, {"(8008)201225230060", false}, {"(8008)201225230059", true},
		{"(4326)201300", false}, {"(4326)201200", false}, {"(4326)201231", true},
		{"(4324)2012252359", true}, {"(4324)2012252400", false}, {"(4324)2012252360", false},
		{"(7003)2602281200", true}, {"(7003)2602291200", false},
		{"(8026)123456789012310099", false}, {"(8026)123456789012310100", false}, {"(8026)123456789012310302", false}, {"(8026)123456789012310303", true},
		{"(4300)ABC%20", true}, {"(4300)ABC%0g", false},
		{"(4309)18000000000000000000", true}, {"(4309)18000000010000000000", false}, {"(4309)00000000003600000001", false},
		{"(4330)000000X", false}, {"(4330)001800-", true}, {"(4330)001800", true},
		{"(7258)1/3", true}, {"(7258)3/1", false}, {"(7258)0/1", false}, {"(7258)123", false},
		{"(7250)19990229", false}, {"(7250)20000229", true}, {"(7252)3", false}, {"(7252)9", true},
		{"(8007)FR7630006000011234567890189", false}, // an account number: refused, no label needs one
		{"(242)1", true}, {"(242)123456", true}, {"(242)1234567", false},
		{"(7007)211225211231", true}, {"(7007)211225", true}, {"(7007)2112252", false}, {"(7007)21122521122", false}, {"(7007)211225211231123", false},
		{"(7230)123", true}, {"(7230)12", false}, {"(7230)121234567890123456789012345678", true}, {"(7230)1212345678901234567890123456789", false},
		{"(8111)1234", true}, {"(8111)123", false}, {"(8111)12345", false},
		// Dates, from lint_yymmd0.c.
		{"(15)200229", true}, {"(15)240229", true}, {"(15)000229", true}, {"(15)200600", true},
		{"(15)210229", false}, {"(15)200230", false}, {"(15)201310", false}, {"(15)200010", false}, {"(15)200431", false}, {"(15)200000", false},
		{"(16)200600", true}, {"(7006)200600", false},
	}
	for _, tt := range tests {
		ai, val, _ := strings.Cut(tt.in[1:], ")")
		if err := Check(Element{ai, val}); (err == nil) != tt.ok {
			t.Errorf("%s: %v, want ok %v", tt.in, err, tt.ok)
		}
	}
}

// The pairings of the GS1 Syntax Engine's tests (test_ai_validateAIassociations).
func TestTogether(t *testing.T) {
	const gtin, content, sscc = "(01)12345678901231", "(02)12345678901231", "(00)123456789012345675"
	tests := []struct {
		in string
		ok bool
	}{
		{"(400)ABC", true}, {"(400)ABC(400)ABC", true}, {"(400)ABC(99)DEF(400)ABC", true},
		{"(400)ABC(400)AB", false}, {"(400)ABC(99)DEF(400)XYZ", false},
		{gtin + content, false}, {"(99)ABC123" + gtin + content, false},
		{gtin + "(255)5412345000150", false}, {gtin + "(37)123", false}, {"(21)ABC123(235)XYZ", false},
		{"(3940)1234(8111)9999", false}, {"(3940)1234(3941)9999", false}, {"(3955)123456(3929)123", false},
		{content, false}, {content + "(37)123", false}, {content + "(37)123" + sscc, true},
		{"(91)XXX" + content + "(92)YYY(37)123(93)ZZZ" + sscc, true},
		{"(21)ABC123", false}, {"(21)ABC123" + gtin, true}, {"(21)ABC123(8006)123456789012310510", true},
		{gtin + "(250)ABC123", false}, {gtin + "(21)XYZ999(250)ABC123", true},
		{gtin + "(3925)12599", false}, {gtin + "(3925)12599(30)123", true}, {gtin + "(3925)12599(3105)654321", true},
		{gtin + "(3925)12599(3295)654321", true}, {gtin + "(3925)12599(3575)654321", true}, {gtin + "(3925)12599(3695)654321", true},
		{gtin + "(3103)000123(3102)000012", false}, // ex=310n
		{gtin + "(12)260101", false},               // 12 needs 8020
		{gtin + "(422)250(426)250", false},         // ex=426
		{"(8040)123456789012345" + gtin + "(21)A", true},
		{"(8040)123456789012345" + gtin, false}, // req=01+21
	}
	for _, tt := range tests {
		els := bracketed(t, tt.in)
		if err := Together(els); (err == nil) != tt.ok {
			t.Errorf("%s: %v, want ok %v", tt.in, err, tt.ok)
		}
		slices.Reverse(els)
		if err := Together(els); (err == nil) != tt.ok {
			t.Errorf("%s backwards: %v, want ok %v", tt.in, err, tt.ok)
		}
	}
	if Together([]Element{{"89", "A"}}) == nil {
		t.Error("an unknown AI was accepted")
	}
}

// GGS 7.8.5: predefined lengths first, the item's number before all.
func TestOrder(t *testing.T) {
	tests := [][2]string{
		{"(10)AB-123(17)150119(01)09501101530003", "(01)09501101530003(17)150119(10)AB-123"},
		{"(37)20(10)451214(15)210228(02)00614141000418", "(02)00614141000418(15)210228(37)20(10)451214"},
		{"(420)45458(00)006141411234567890", "(00)006141411234567890(420)45458"},
		{"(21)1(10)2(3103)000123(01)95012345678903", "(01)95012345678903(3103)000123(21)1(10)2"},
	}
	for _, tt := range tests {
		if got := HRI(Order(bracketed(t, tt[0]))); got != tt[1] {
			t.Errorf("Order(%s) = %s, want %s", tt[0], got, tt[1])
		}
	}
}

// Any elements that Encode takes come back the same from ParseElementString,
// and from ParseBracketed of their human readable form.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		body := rapid.StringMatching(`[0-9]{13}`).Draw(t, "gtin")
		gtin, err := WithCheck(body)
		if err != nil {
			t.Fatal(err)
		}
		els := []Element{{"01", gtin}}
		text := rapid.StringMatching(`[A-Za-z0-9!"%&'*+,./_:;<=>?-]{1,20}`)
		for _, ai := range rapid.SliceOfDistinct(rapid.SampledFrom([]string{"10", "21", "22", "240", "241"}), rapid.ID[string]).Draw(t, "ais") {
			els = append(els, Element{ai, text.Draw(t, ai)})
		}
		if rapid.Bool().Draw(t, "dated") {
			els = append(els, Element{"15", "260300"}, Element{"3103", rapid.StringMatching(`[0-9]{6}`).Draw(t, "kg")})
		}
		els = Order(els)
		s, err := Encode(els)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := ParseElementString(s); err != nil || !slices.Equal(back, els) {
			t.Fatalf("%s came back as %v, %v", show(s), back, err)
		}
		if back, err := ParseBracketed(HRI(els)); err != nil || !slices.Equal(back, els) {
			t.Fatalf("%s came back as %v, %v", HRI(els), back, err)
		}
	})
}
