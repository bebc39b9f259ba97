package pdf_test

import (
	"slices"
	"testing"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// The worked example of ISO/IEC 16022, "123456" (from memory, and read by the
// decoder below).
var dataMatrix = []string{
	"1010101010",
	"1100101101",
	"1100000100",
	"1100011101",
	"1100001000",
	"1000001111",
	"1110110000",
	"1111011001",
	"1001110100",
	"1111111111",
}

// "01234567" as a QR symbol, version 1, level M.
var qr = []string{
	"111111100101101111111",
	"100000100111101000001",
	"101110101000001011101",
	"101110101100001011101",
	"101110101011101011101",
	"100000101000101000001",
	"111111101010101111111",
	"000000001001100000000",
	"101111100100101111100",
	"000101011010100101100",
	"001000110101010011111",
	"000010000100000111100",
	"000111111001010010000",
	"000000001011111001100",
	"111111100110101100000",
	"100000101011111000101",
	"101110101000100101100",
	"101110101100100100000",
	"101110101011010010100",
	"100000100000000110110",
	"111111101111010010100",
}

// Everything that can be on one carton label, with the identifiers of ISO/IEC
// 15424: each symbol is read again from a picture of the page.
func TestDecode(t *testing.T) {
	want := []string{
		`EAN_13 ]E0 "9501101531000"`,
		`CODE_128 ]C1 "0109501101530003"`,
		`DATA_MATRIX ]d1 "123456"`,
		`QR_CODE ]Q1 "01234567"`,
		`ITF ]I0 "09501101530003"`,
	}
	for _, dpi := range []int{203, 300, 600} {
		d := unit.Dots{N: int64(dpi), Per: unit.Inch}
		n := int64(dpi) / 100
		img := pdftest.Raster(t, write(t, dotSheet(
			bars(ean13, d, n, 20*n, 20*n, 30*n),
			bars(gs1128, d, n, 20*n, 80*n, 30*n),
			matrix(dataMatrix, d, n, 180*n, 80*n),
			matrix(qr, d, n, 230*n, 75*n),
			bars(itf14, d, n, 20*n, 150*n, 30*n),
			run("regular", "9501101531000 under the bars", 6, 15, 8),
		)), 0, dpi)
		var got []string
		for _, c := range pdftest.Decode(t, img) {
			got = append(got, c.String())
		}
		slices.Sort(got)
		sorted := slices.Sorted(slices.Values(want))
		if !slices.Equal(got, sorted) {
			t.Errorf("%d dpi: read %q, want %q", dpi, got, sorted)
		}
	}
}

// Two symbols with the same text are two; a crop sees one of them.
func TestDecodeTwins(t *testing.T) {
	img := pdftest.Raster(t, write(t, dotSheet(
		bars(ean13, fine, 3, 60, 60, 120), bars(ean13, fine, 3, 600, 600, 120))), 0, 300)
	if got := pdftest.Decode(t, img); len(got) != 2 || got[0].At.Overlaps(got[1].At) {
		t.Errorf("read %v, want the same symbol in two places", got)
	}
	crop := pdftest.Crop(img, 300, page.Rect{W: 2 * unit.Inch, H: unit.Inch})
	if got := pdftest.Decode(t, crop); len(got) != 1 || got[0].Text != "9501101531000" {
		t.Errorf("the crop reads %v, want one symbol", got)
	}
	if got := pdftest.Decode(t, pdftest.Crop(img, 300, page.Rect{X: 3 * unit.Inch, W: unit.Inch, H: unit.Inch})); got != nil {
		t.Errorf("white paper reads %v", got)
	}
}
