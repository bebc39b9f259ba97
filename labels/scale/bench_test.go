package scale_test

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
)

// The whole demo shop, read, linked and checked.
func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		shop.Load(demoFolder(), &diag.List{})
	}
}

// The largest product of the demo shop: its batch, its parts, its order.
func BenchmarkProduct(b *testing.B) {
	sh := demo(b)
	p := sh.Products["pistachio-choux"]
	for b.Loop() {
		batch, err := scale.Pieces(sh, p, 40)
		if err != nil {
			b.Fatal(err)
		}
		scale.Expand(sh, p)
		if _, err := scale.Order(sh, batch); err != nil {
			b.Fatal(err)
		}
	}
}
