package panel_test

import (
	"fmt"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/panel"
)

// A pack with little surface may bear its panel in shorter forms too, but those
// come last.
func ExampleForms() {
	us, _ := market.Get("us")
	pack := &shop.Pack{}
	pack.Surface.V = 250 * unit.CM2
	for _, f := range panel.Forms(&declare.Facts{Market: us, Pack: pack, Nutrition: &declare.Nutrition{}}) {
		fmt.Println(f.Key, f.Type("energy-is").Least)
	}
	// Output:
	// vertical 7.761111 mm
	// side-by-side 7.761111 mm
	// tabular 7.761111 mm
	// small-tabular 4.938889 mm
	// linear 4.938889 mm
}
