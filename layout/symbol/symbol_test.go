package symbol

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/page"
)

var module = Module{X: 500 * unit.UM, Height: 32 * unit.MM, Dots: unit.Dots{N: 8, Per: unit.MM}}

func bits(s *page.Symbol) string {
	var b strings.Builder
	for _, d := range s.Dark {
		b.WriteByte('0' + d)
	}
	return b.String()
}

// Whole bar patterns, 1 for a bar: those of the figures named, as the public
// test tables of the zint library give them (test_upcean.c, test_code128.c,
// test_2of5.c, July 2026).
func TestPatterns(t *testing.T) {
	tests := []struct {
		make   func(string, Module) (*page.Symbol, error)
		data   string
		want   string
		source string
	}{
		{EAN13, "9501101531000", "10101100010100111011001100110010100111001100101010100111010000101100110111001011100101110010101", "GGS fig. 5.2.2.1-2"},
		{EAN13, "4512345678906", "10101100010110011001001101111010011101011100101010101000010001001001000111010011100101010000101", "GGS fig. 5.1-1"},
		{EAN13, "0012345678905", "10100011010011001001001101111010100011011000101010101000010001001001000111010011100101001110101", "UPC-A 012345678905"},
		{UPCA, "012345678905", "10100011010011001001001101111010100011011000101010101000010001001001000111010011100101001110101", "UPC-A 012345678905"},
		{EAN8, "95012346", "1010001011011000100011010011001010101101100100001010111001010000101", "GGS fig. 5.2.2.2-1"},
		{ITF14, "09501101530003", "101010100011101110001011101011100010001011100010101011100010001011101110100011100010001110101010101110001110001010001000111011101011101", "GGS fig. 5.1-2"},
		{GS1128, "0109501101530003", "11010011100111101011101100110110011001001000110001011101100010010011001101100110111011101101100110010010011000100110100001100011101011", "GGS fig. 5.1-3"},
		{GS1128, "00006141411234567890", "110100111001111010111011011001100110110011001100100001011000100010110001000101011001110010001011000111000101101100001010011011110110110110110001100011101011", "GGS fig. 6.6.5-1"},
		{GS1128, "00395011015300000011", "110100111001111010111011011001100110100010001100010111011000100100110011011001101110111011011001100110110011001101100110011000100100100011101101100011101011", "GGS fig. 6.6.5-2"},
		{GS1128, "02006141410004181521022810451214" + "\x1d3720", "110100111001111010111011001100110110110011001100100001011000100010110001000101101100110010010001100110011100101011100110011011100100110011001101110011010011001000100101110110001011001110010011001110111101011101000110100011001001110100011110101100011101011", "GGS fig. 6.6.5-4"},
	}
	for _, tt := range tests {
		s, err := tt.make(tt.data, module)
		if err != nil {
			t.Errorf("%q: %v", tt.data, err)
			continue
		}
		if bits(s) != tt.want {
			t.Errorf("%s %q (%s):\n got %s\nwant %s", s.Kind, tt.data, tt.source, bits(s), tt.want)
		}
		if s.Cols != len(tt.want) || s.Rows != 1 || s.Data != tt.data || s.Bars.W != s.Module*unit.Length(s.Cols) || s.Bars.H != module.Height {
			t.Errorf("%s %q: %d×%d, bars %v", s.Kind, s.Data, s.Cols, s.Rows, s.Bars)
		}
	}
}

// Code words decoded from the figures' patterns; 105 Start C, 102 FNC1, the
// last but the stop is the check character modulo 103.
func TestCodewords(t *testing.T) {
	tests := []struct {
		in   string
		want []byte
	}{
		{"0109501101530003", []byte{105, 102, 1, 9, 50, 11, 1, 53, 0, 3, 71, 106}},
		{"00006141411234567890", []byte{105, 102, 0, 0, 61, 41, 41, 12, 34, 56, 78, 90, 30, 106}},
		{"00395011015300000011", []byte{105, 102, 0, 39, 50, 11, 1, 53, 0, 0, 0, 11, 47, 106}},
		{"02006141410004181521022810451214\x1d3720", []byte{105, 102, 2, 0, 61, 41, 41, 0, 4, 18, 15, 21, 2, 28, 10, 45, 12, 14, 102, 37, 20, 79, 106}},
	}
	for _, tt := range tests {
		if got := codewords(tt.in); !slices.Equal(got, tt.want) {
			t.Errorf("%q = %v, want %v", tt.in, got, tt.want)
		}
	}
}

// Widths in modules of published figures.
func TestModuleCounts(t *testing.T) {
	tests := []struct {
		hri    string
		want   int
		source string
	}{
		{"(00)395123451234567895", 156, "GGS fig. 5.4.2-1"},
		{"(00)006141411234567890", 156, "GGS fig. 6.6.5-1"},
		{"(01)09501101530003", 134, "GGS fig. 5.1-3"},
		{"(02)00614141000418(15)210228(10)451214(37)20", 255, "GGS fig. 6.6.5-4"},
		{"(01)10857674002017(10)1152KMB", 211, "GGS fig. 4.15.1-1"},
		{"(420)45458", 90, "GGS fig. 6.6.5-3"},
		{"(403)402621(401)950110153B01001", 255, "GGS fig. 6.6.5-2"},
	}
	for _, tt := range tests {
		s, err := GS1128(element(t, tt.hri), Module{X: 495 * unit.UM, Height: unit.CM})
		if err != nil || s.Cols != tt.want {
			t.Errorf("%s: %v modules, %v; want %d (%s)", tt.hri, s, err, tt.want, tt.source)
		}
	}
}

// Sizes of GS1 DataMatrix figures, as the zint library's tests give them.
func TestDataMatrixSizes(t *testing.T) {
	tests := []struct {
		hri  string
		want int
	}{
		{"(01)09501101530003(17)150119(10)AB-123", 20},
		{"(01)04012345678901(17)170101(10)ABC123", 20},
		{"(01)00012345678905(17)040115", 18},
		{"(01)09524000059109(21)12345678p901(10)1234567p(17)271120", 22},
	}
	for _, tt := range tests {
		s, err := GS1DataMatrix(element(t, tt.hri), module)
		if err != nil || s.Cols != tt.want || s.Rows != tt.want {
			t.Errorf("%s: %v, %v; want %d modules square", tt.hri, s, err, tt.want)
		}
	}
}

// element writes an element string without asking for companions, which the
// figures leave to other symbols.
func element(t *testing.T, hri string) string {
	t.Helper()
	els, err := gs1.ParseBracketed(hri)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for i, e := range els {
		b.WriteString(e.AI + e.Value)
		if i < len(els)-1 && !gs1.Fixed(e.AI) {
			b.WriteString(gs1.FNC1)
		}
	}
	return b.String()
}

func TestFields(t *testing.T) {
	s, err := EAN13("9520001000010", Module{X: 375 * unit.UM, Height: 23 * unit.MM, Dots: unit.Dots{N: 8, Per: unit.MM}})
	if err != nil {
		t.Fatal(err)
	}
	// 11X and 7X: GGS 5.2.3.4. A quarter dot is our own measurement of how far
	// ink and rounding may spread before a bar gains a dot.
	if s.Kind != "EAN-13" || s.Quiet != [4]int{11, 0, 7, 0} || s.Dot != 125*unit.UM || s.Inset != 31_250 || s.Module != 375*unit.UM {
		t.Errorf("%+v", s)
	}
	free, err := EAN13("9520001000010", Module{X: 330 * unit.UM, Height: 23 * unit.MM})
	if err != nil || free.Inset != 0 || free.Dot != 0 {
		t.Errorf("without dots: %+v, %v", free, err)
	}
	q, err := QR("https://id.gs1.org/01/09520001000010", M, module)
	if err != nil || q.Quiet != [4]int{4, 4, 4, 4} || q.Cols != q.Rows || len(q.Dark) != q.Cols*q.Rows || q.Bars.W != q.Bars.H {
		t.Errorf("QR: %+v, %v", q, err)
	}
}

func TestRefusals(t *testing.T) {
	dots := unit.Dots{N: 8, Per: unit.MM}
	long := "01095011015300031015" + strings.Repeat("A", 18)
	tests := []struct {
		name string
		make func() (*page.Symbol, error)
		want string
	}{
		{"check digit", func() (*page.Symbol, error) { return EAN13("9520001000011", module) }, "the last digit is 0, not 1"},
		{"12 digits", func() (*page.Symbol, error) { return EAN13("952000100001", module) }, "not 13 digits"},
		{"letters", func() (*page.Symbol, error) { return EAN8("9501234X", module) }, "only digits"},
		{"ITF check", func() (*page.Symbol, error) { return ITF14("19520001000018", module) }, "the last digit is 7, not 8"},
		{"no AI", func() (*page.Symbol, error) { return GS1128("89123", module) }, "not an Application Identifier"},
		{"empty", func() (*page.Symbol, error) { return GS1128("", module) }, "empty"},
		{"matrix empty", func() (*page.Symbol, error) { return GS1DataMatrix("", module) }, "empty"},
		{"49 characters", func() (*page.Symbol, error) { return GS1128(long+"\x1d"+"99ABCDEFGH", module) }, "49 characters, but one symbol holds 48"},
		{"too long", func() (*page.Symbol, error) {
			return GS1128("0109501101530003"+"10ABCDEFGHIJKLMNOPQRST", Module{X: unit.MM, Height: unit.CM})
		}, "165.1 mm is the most"},
		{"QR empty", func() (*page.Symbol, error) { return QR("", M, module) }, "no text"},
		{"QR bytes", func() (*page.Symbol, error) { return QR("\xff", M, module) }, "no text"},
		{"QR level", func() (*page.Symbol, error) { return QR("A", 4, module) }, "no level"},
		{"QR huge", func() (*page.Symbol, error) { return QR(strings.Repeat("a", 3000), L, module) }, "3000 characters"},
		{"part of a dot", func() (*page.Symbol, error) { return EAN13("9520001000010", Module{330 * unit.UM, unit.CM, dots}) }, "not a whole number of dots"},
		{"one dot", func() (*page.Symbol, error) { return EAN13("9520001000010", Module{125 * unit.UM, unit.CM, dots}) }, "under two dots"},
		{"no width", func() (*page.Symbol, error) { return EAN13("9520001000010", Module{Height: unit.CM}) }, "cannot be printed"},
		{"no height", func() (*page.Symbol, error) { return EAN13("9520001000010", Module{X: 330 * unit.UM}) }, "cannot be printed"},
		{"matrix no width", func() (*page.Symbol, error) { return QR("A", M, Module{}) }, "cannot be printed"},
	}
	for _, tt := range tests {
		if s, err := tt.make(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, %v; want %q in the error", tt.name, s, err, tt.want)
		}
	}
}

// The library makes a QR with several goroutines; the result must not depend
// on which is first.
func TestQRIsAlwaysTheSame(t *testing.T) {
	first, err := QR("https://id.gs1.org/01/09520001000010/10/L26076A", M, module)
	if err != nil {
		t.Fatal(err)
	}
	for range 50 {
		again, err := QR(first.Data, M, module)
		if err != nil || !slices.Equal(first.Dark, again.Dark) {
			t.Fatalf("a second QR of the same text differs, %v", err)
		}
	}
}
