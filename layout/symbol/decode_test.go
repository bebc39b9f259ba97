package symbol

import (
	"fmt"
	"image"
	"image/color"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/boombuler/barcode/code128"
	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/oned"
	"github.com/makiuchi-d/gozxing/qrcode"

	"chablon/labels/gs1"
	"chablon/layout/page"
)

// raster draws a symbol with its quiet zone, each module 4 dots square, a
// linear symbol 40 dots high.
func raster(s *page.Symbol) image.Image {
	const dots = 4
	tall := 1
	if s.Rows == 1 {
		tall = 10
	}
	w, h := (s.Quiet[0]+s.Cols+s.Quiet[2])*dots, (s.Quiet[1]+s.Rows*tall+s.Quiet[3])*dots
	img := image.NewGray(image.Rect(0, 0, w, h))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	for y := s.Quiet[1] * dots; y < (s.Quiet[1]+s.Rows*tall)*dots; y++ {
		row := (y/dots - s.Quiet[1]) / tall
		for x := range s.Cols * dots {
			if s.Dark[row*s.Cols+x/dots] == 1 {
				img.SetGray(s.Quiet[0]*dots+x, y, color.Gray{})
			}
		}
	}
	return img
}

// scan decodes with another library and returns the symbology identifier
// (ISO/IEC 15424) and the data, as a scanner would send them.
func scan(s *page.Symbol) (string, error) {
	bmp, err := gozxing.NewBinaryBitmapFromImage(raster(s))
	if err != nil {
		return "", err
	}
	hints := map[gozxing.DecodeHintType]any{}
	id := ""
	var reader gozxing.Reader
	switch s.Kind {
	case gs1.EAN13:
		reader, id = oned.NewEAN13Reader(), "]E0"
	case gs1.UPCA:
		reader, id = oned.NewUPCAReader(), "]E0"
	case gs1.EAN8:
		reader, id = oned.NewEAN8Reader(), "]E4"
	case gs1.ITF14:
		reader = oned.NewITFReader() // says ]I0: it does not test the check digit
	case gs1.GS1128:
		reader = oned.NewCode128Reader()
		hints[gozxing.DecodeHintType_ASSUME_GS1] = true
	case gs1.GS1DataMatrix:
		reader = datamatrix.NewDataMatrixReader()
		hints[gozxing.DecodeHintType_PURE_BARCODE] = true
	case gs1.QR:
		reader = qrcode.NewQRCodeReader()
		hints[gozxing.DecodeHintType_PURE_BARCODE] = true
	}
	res, err := reader.Decode(bmp, hints)
	if err != nil {
		return "", fmt.Errorf("%s %q: %w", s.Kind, s.Data, err)
	}
	if v, ok := res.GetResultMetadata()[gozxing.ResultMetadataType_SYMBOLOGY_IDENTIFIER]; ok {
		id = v.(string)
	}
	text := res.GetText()
	if w := codewords(s.Data); s.Kind == gs1.GS1128 && w[len(w)-2] == fnc1 {
		text = strings.TrimSuffix(text, gs1.FNC1) // the reader takes a check character of value 102 for a separator
	}
	if strings.HasPrefix(text, "]") { // the reader writes ]C1 into the text
		return text, nil
	}
	return id + strings.TrimPrefix(text, gs1.FNC1), nil // some readers send the first FNC1 too
}

func check(t *testing.T, s *page.Symbol, err error, want string) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	got, err := scan(s)
	if err != nil || got != want {
		t.Fatalf("%s %q was read as %q, %v; want %q", s.Kind, s.Data, got, err, want)
	}
}

func randomDigits(r *rand.Rand, n int) string {
	b := make([]byte, n)
	for i := range b {
		b[i] = byte('0' + r.IntN(10))
	}
	return string(b)
}

func randomKey(t *testing.T, r *rand.Rand, n int) string {
	t.Helper()
	full, err := gs1.WithCheck(randomDigits(r, n-1))
	if err != nil {
		t.Fatal(err)
	}
	return full
}

func TestKeysDecode(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 1))
	for range 200 {
		d := randomKey(t, r, 13)
		s, err := EAN13(d, module)
		check(t, s, err, "]E0"+d)
		d = randomKey(t, r, 8)
		s, err = EAN8(d, module)
		check(t, s, err, "]E4"+d)
		d = randomKey(t, r, 12)
		s, err = UPCA(d, module)
		check(t, s, err, "]E0"+d)
		d = randomKey(t, r, 14)
		s, err = ITF14(d, module)
		check(t, s, err, "]I0"+d)
	}
}

// randomElements gives a carton's data: runs of digits, letters and signs of
// all lengths that fit, so that the code sets change in every way.
func randomElements(t *testing.T, r *rand.Rand) string {
	const set = `0123456789012345678901234567890123456789ABCXYZabcxyz!"%&'()*+,-./_:;<=>?`
	text := func(most int) string {
		b := make([]byte, 1+r.IntN(most))
		for i := range b {
			b[i] = set[r.IntN(len(set))]
		}
		return string(b)
	}
	els := []gs1.Element{{AI: "01", Value: randomKey(t, r, 14)}}
	if r.IntN(2) == 0 {
		els = append(els, gs1.Element{AI: "15", Value: "260300"})
	}
	els = append(els, gs1.Element{AI: "10", Value: text(9)})
	if r.IntN(2) == 0 {
		els = append(els, gs1.Element{AI: "21", Value: text(8)})
	}
	s, err := gs1.Encode(els)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestElementStringsDecode(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 2))
	for range 400 {
		data := randomElements(t, r)
		s, err := GS1128(data, Module{X: module.X / 2, Height: module.Height})
		check(t, s, err, "]C1"+data)
		s, err = GS1DataMatrix(data, module)
		check(t, s, err, "]d2"+data)
		els, err := gs1.ParseScan("]d2" + data)
		if err != nil {
			t.Fatal(err)
		}
		uri, err := gs1.Link("https://example.com", els[:2])
		if err != nil {
			t.Fatal(err)
		}
		s, err = QR(uri, Level(r.IntN(4)), module)
		check(t, s, err, "]Q1"+uri)
	}
}

// The least number of code words, found by trying every way to change sets.
func fewest(s string, set int) int {
	if s == "" {
		return 0
	}
	best := 1 << 20
	for next := range 2 {
		if n := step(s, next); n > 0 {
			cost := 1 + fewest(s[n:], next)
			if next != set {
				cost++
			}
			best = min(best, cost)
		}
	}
	return best
}

func TestCode128IsShortest(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 3))
	for range 300 {
		n := 1 + r.IntN(14)
		b := make([]byte, n)
		for i := range b {
			b[i] = "0123456789012345A\x1d"[r.IntN(18)]
		}
		want := 4 + min(fewest(string(b), setB), fewest(string(b), setC)) // start, FNC1, check, stop
		if got := len(codewords(string(b))); got != want {
			t.Fatalf("%q takes %d code words, %d would do", b, got, want)
		}
	}
}

// Against the other encoder of Code 128 at hand: the same table of widths, and
// never a longer symbol.
func TestCode128AgainstAnotherEncoder(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 4))
	same, shorter := 0, 0
	for range 1000 {
		data := randomElements(t, r)
		f := string(code128.FNC1)
		b, err := code128.Encode(f + strings.ReplaceAll(data, gs1.FNC1, f))
		if err != nil {
			t.Fatal(err)
		}
		other, ours := modules(b), bars128(codewords(data))
		switch {
		case string(other) == string(ours):
			same++
		case len(ours) < len(other):
			shorter++
		case len(ours) > len(other):
			t.Fatalf("%q: %d modules, the other has %d", data, len(ours), len(other))
		}
	}
	if same == 0 || shorter == 0 {
		t.Errorf("%d the same, %d shorter: the comparison shows nothing", same, shorter)
	}
}

// ISO/IEC 15417 4.2: each character has 11 modules, its bars an even number of
// them; the stop pattern has 13; no two are alike.
func TestCode128Table(t *testing.T) {
	table := strings.Fields(widths128)
	seen := map[string]bool{}
	for i, w := range table {
		sum, dark := 0, 0
		for j, c := range w {
			sum += int(c - '0')
			if j%2 == 0 {
				dark += int(c - '0')
			}
		}
		want := 11
		if i == stop {
			want = 13
		}
		if sum != want || i != stop && dark%2 != 0 || seen[w] {
			t.Errorf("code word %d: %s has %d modules, %d dark, seen before %v", i, w, sum, dark, seen[w])
		}
		seen[w] = true
	}
	if len(table) != 107 {
		t.Errorf("%d code words, want 107", len(table))
	}
}
