package symbol_test

import (
	"fmt"

	"chablon/labels/gs1"
	"chablon/labels/unit"
	"chablon/layout/symbol"
)

// A sale label printed with 8 dots per mm.
func ExampleChoose() {
	dots := unit.Dots{N: 8, Per: unit.MM}
	x, h, err := symbol.Choose(gs1.EAN13, gs1.Retail, dots)
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := symbol.EAN13("9520001000010", symbol.Module{X: x, Height: h, Dots: dots})
	if err != nil {
		fmt.Println(err)
		return
	}
	it := symbol.Place(s, 5*unit.MM, 5*unit.MM)
	fmt.Println(s.Kind, "module", x, "bars from", it.Symbol.Bars.X, "to", it.Symbol.Bars.Right())
	// Output: EAN-13 module 0.375 mm bars from 9.125 mm to 44.75 mm
}

func ExampleEAN13_mistyped() {
	_, err := symbol.EAN13("9520001000011", symbol.Module{X: 330 * unit.UM, Height: 23 * unit.MM})
	fmt.Println(err)
	// Output: "9520001000011" is not a GTIN-13: after 952000100001 the last digit is 0, not 1; a digit was mistyped or two were swapped
}
