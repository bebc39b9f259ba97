package symbol

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/boombuler/barcode/datamatrix"
	"github.com/boombuler/barcode/qr"

	"chablon/labels/gs1"
	"chablon/layout/page"
)

// GS1DataMatrix makes the modules of an element string with separators as
// \x1d and none in front (ISO/IEC 16022, square, ECC 200, FNC1 first).
func GS1DataMatrix(elementString string, m Module) (*page.Symbol, error) {
	if _, err := gs1.ParseElementString(elementString); err != nil {
		return nil, fmt.Errorf("%s: %w", gs1.GS1DataMatrix, err)
	}
	f := string([]byte{datamatrix.FNC1})
	b, err := datamatrix.Encode(f + strings.ReplaceAll(elementString, gs1.FNC1, f))
	if err != nil {
		return nil, fmt.Errorf("%s of %d characters: %w", gs1.GS1DataMatrix, len(elementString), err)
	}
	return matrix(gs1.GS1DataMatrix, elementString, b, m)
}

// Level is how much of a QR may be lost and it still reads (ISO/IEC 18004).
type Level int

// The levels; GS1 advises M for a Digital Link on paper (from memory).
const (
	L Level = iota // about 7 %
	M              // about 15 %
	Q              // about 25 %
	H              // about 30 %
)

// QR makes the modules of a text, such as a Digital Link. The text is UTF-8;
// keep it to ASCII where any reader at all must get it right, because the
// symbol does not say which encoding it is in.
func QR(text string, level Level, m Module) (*page.Symbol, error) {
	if text == "" || !utf8.ValidString(text) {
		return nil, fmt.Errorf("%s: %q is no text that a code can carry", gs1.QR, text)
	}
	if level < L || level > H {
		return nil, fmt.Errorf("%s: %d is no level of correction", gs1.QR, level)
	}
	levels := [...]qr.ErrorCorrectionLevel{qr.L, qr.M, qr.Q, qr.H}
	b, err := qr.Encode(text, levels[level], qr.Auto)
	if err != nil {
		return nil, fmt.Errorf("%s of %d characters: %w", gs1.QR, len(text), err)
	}
	return matrix(gs1.QR, text, b, m)
}
