package pdftest_test

import (
	"fmt"
	"image"

	"chablon/labels/unit"
	"chablon/layout/page"
	"chablon/layout/pdf/pdftest"
)

// At 254 dots per inch a millimetre has ten dots.
func ExampleCrop() {
	label := image.NewGray(image.Rect(0, 0, 1000, 600))
	part := pdftest.Crop(label, 254, page.Rect{X: 10 * unit.MM, Y: 5 * unit.MM, W: 20 * unit.MM, H: 8 * unit.MM})
	fmt.Println(part.Bounds().Size())
	// Output: (200,80)
}
