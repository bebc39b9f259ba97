package shoptest_test

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/shop/shoptest"
	"chablon/samples"
)

// The demo shop in a language that nobody wrote for it.
func Example() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	shoptest.Translate(sh, "pl")
	name, ok := shop.In(sh.Products["bench-tin"].Name, "pl")
	fmt.Println(name.V, ok)
	// Output: Assortment of rye shortbread and lemon and thyme marshmallows true
}
