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

// EAN13 makes the bars of a GTIN-13 (ISO/IEC 15420), 95 modules. A GTIN-12
// with a zero in front gives the bars of a UPC-A.
func EAN13(digits string, m Module) (*page.Symbol, error) {
	return upc(gs1.EAN13, gs1.GTIN13, digits, m)
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
// is. The group is centred in its place.
type Group struct {
	Text      string
	At, Width int
}

// EAN13Digits cuts the 13 digits into one before the bars, in the left quiet
// zone, and two groups of six under the halves of the bars (GGS 5.2.1.2 and
// 5.2.5). It returns nil when there are not 13 digits.
func EAN13Digits(digits string) []Group {
	if len(digits) != 13 {
		return nil
	}
	return []Group{{digits[:1], -10, 7}, {digits[1:7], 3, 42}, {digits[7:], 50, 42}}
}

// EAN8Digits cuts the 8 digits into two groups of four under the halves of the
// bars. It returns nil when there are not 8 digits.
func EAN8Digits(digits string) []Group {
	if len(digits) != 8 {
		return nil
	}
	return []Group{{digits[:4], 3, 28}, {digits[4:], 36, 28}}
}
