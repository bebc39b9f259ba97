package text_test

import (
	"fmt"

	"chablon/labels/unit"
	"chablon/layout/text"
)

func Example() {
	faces, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	size := faces.Regular.SizeForX(1200 * unit.UM)
	lines, err := faces.Break(text.Para{Spans: []text.Span{
		{Text: "Ingredients: pear (41 %), butter ("}, {Text: "milk", Bold: true}, {Text: "), sugar, "},
		{Text: "wheat", Bold: true}, {Text: " flour."},
	}}, size, 30*unit.MM)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f pt\n", size.Pt())
	for _, l := range lines {
		fmt.Printf("%.1f mm: %s\n", l.W.MM(), l.Text())
	}
	// Output:
	// 6.44 pt
	// 27.5 mm: Ingredients: pear (41 %), butter
	// 23.0 mm: (milk), sugar, wheat flour.
}
