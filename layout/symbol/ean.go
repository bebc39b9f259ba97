package symbol

import (
	"fmt"

	"github.com/boombuler/barcode/ean"
	"github.com/boombuler/barcode/twooffive"

	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// EAN13 makes the bars of a GTIN-13 (ISO/IEC 15420), 95 modules.
func EAN13(digits string, m Module) (*page.Symbol, error) {
	return upc(gs1.EAN13, gs1.GTIN13, digits, m)
}

// Pack makes the bars of a pack at a till, of the kind that [OfGTIN] says.
func Pack(gtin string, m Module) (*page.Symbol, error) {
	switch OfGTIN(gtin) {
	case gs1.EAN8:
		return EAN8(gtin, m)
	case gs1.UPCA:
		return UPCA(gtin, m)
	}
	return EAN13(gtin, m)
}

// UPCA makes the bars of a GTIN-12 (ISO/IEC 15420), 95 modules: those of an
// EAN-13 with a zero in front.
func UPCA(digits string, m Module) (*page.Symbol, error) {
	if err := gs1.ValidAs(gs1.GTIN12, digits); err != nil {
		return nil, err
	}
	s, err := EAN13("0"+digits, m)
	if err != nil {
		return nil, err
	}
	s.Kind, s.Data, s.Quiet = gs1.UPCA, digits, quiet(gs1.UPCA)
	return s, nil
}

// OfGTIN says which bars a pack at a till bears for its number, by its length:
// EAN-8, UPC-A or EAN-13.
func OfGTIN(gtin string) string {
	switch len(gtin) {
	case 8:
		return gs1.EAN8
	case 12:
		return gs1.UPCA
	}
	return gs1.EAN13
}

// EAN8 makes the bars of a GTIN-8, 67 modules.
func EAN8(digits string, m Module) (*page.Symbol, error) {
	return upc(gs1.EAN8, gs1.GTIN8, digits, m)
}

func upc(kind, key, digits string, m Module) (*page.Symbol, error) {
	if err := gs1.ValidAs(key, digits); err != nil {
		return nil, err
	}
	b, err := ean.Encode(digits)
	if err != nil {
		return nil, fmt.Errorf("%s of %q: %w", kind, digits, err)
	}
	return linear(kind, digits, modules(b), m)
}

// ITF14 makes the bars of a GTIN-14 (ISO/IEC 16390), 135 modules, wide to
// narrow 3:1. Unless the quiet zones are framed on the material already, the
// bars want bearers above and below: see [Bearers].
func ITF14(digits string, m Module) (*page.Symbol, error) {
	if err := gs1.ValidAs(gs1.GTIN14, digits); err != nil {
		return nil, err
	}
	b, err := twooffive.Encode(digits, true)
	if err != nil {
		return nil, fmt.Errorf("%s of %q: %w", gs1.ITF14, digits, err)
	}
	return linear(gs1.ITF14, digits, modules(b), m)
}

// Bearers returns the two bearer bars of a placed ITF-14, twice as thick as a
// module (GGS 5.3.2.4, the least where no printing plates are used; from
// memory), touching the bars above and below and as long as bars and quiet
// zones. They keep a scan that runs out of the bars at an angle from being
// read as a shorter number. They lie outside the item's box.
func Bearers(it page.Item) []page.Item {
	if it.Symbol == nil || it.Symbol.Kind != gs1.ITF14 {
		return nil
	}
	h := 2 * it.Symbol.Module
	bar := func(y unit.Length) page.Item {
		return page.Item{
			Box:  page.Rect{X: it.Box.X, Y: y, W: it.Box.W, H: h},
			Role: role.Furniture, Src: it.Src, Shape: &page.Shape{Kind: page.Filled},
		}
	}
	return []page.Item{bar(it.Symbol.Bars.Y - h), bar(it.Symbol.Bars.Bottom())}
}

// A Group is a run of digits under the bars: its text, where it begins in
// modules from the left edge of the bars, and how many modules wide its place
// is. The group is centred in its place. Small digits are two thirds as high as
// the others.
type Group struct {
	Text      string
	At, Width int
	Small     bool
}

// Digits cuts the number of a symbol into the groups under its bars; nil for
// kinds that are not read that way.
func Digits(s *page.Symbol) []Group {
	switch s.Kind {
	case gs1.EAN13:
		return EAN13Digits(s.Data)
	case gs1.EAN8:
		return EAN8Digits(s.Data)
	case gs1.UPCA:
		return UPCADigits(s.Data)
	}
	return nil
}

// UPCADigits cuts the 12 digits into one before the bars, two groups of five
// under the halves of the bars, and one behind them; the outer two are smaller
// (GGS 5.2.5; from memory), and the bars of their own that stand over no digit
// are as long as the guard bars. It returns nil when there are not 12 digits.
func UPCADigits(digits string) []Group {
	if len(digits) != 12 {
		return nil
	}
	return []Group{{digits[:1], -9, 5, true}, {digits[1:6], 10, 35, false}, {digits[6:11], 50, 35, false}, {digits[11:], 99, 5, true}}
}

// EAN13Digits cuts the 13 digits into one before the bars, in the left quiet
// zone, and two groups of six under the halves of the bars (GGS 5.2.1.2 and
// 5.2.5). It returns nil when there are not 13 digits.
func EAN13Digits(digits string) []Group {
	if len(digits) != 13 {
		return nil
	}
	return []Group{{Text: digits[:1], At: -10, Width: 7}, {Text: digits[1:7], At: 3, Width: 42}, {Text: digits[7:], At: 50, Width: 42}}
}

// EAN8Digits cuts the 8 digits into two groups of four under the halves of the
// bars. It returns nil when there are not 8 digits.
func EAN8Digits(digits string) []Group {
	if len(digits) != 8 {
		return nil
	}
	return []Group{{Text: digits[:4], At: 3, Width: 28}, {Text: digits[4:], At: 36, Width: 28}}
}
