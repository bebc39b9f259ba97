package scale_test

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

// TestBatchBounds: a batch has one piece at least and shop.MaxPieces at most,
// and is made of some mass up to shop.MaxMass (bounds of this project; no
// source).
func TestBatchBounds(t *testing.T) {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	p := sh.Products["pear-hazelnut-tartlet"]
	for n, ok := range map[unit.Count]bool{-1: false, 0: false, 1: true, shop.MaxPieces: true, shop.MaxPieces + 1: false} {
		if b, err := scale.Pieces(sh, p, n); (err == nil) != ok || ok && b.Pieces != n {
			t.Errorf("%d pieces: %v", n, err)
		}
	}
	for m, ok := range map[unit.Mass]bool{0: false, unit.Kilogram: true, shop.MaxMass: true, shop.MaxMass + 1: false} {
		if _, err := scale.Have(sh, "poached-pear", "pear", m); (err == nil) != ok {
			t.Errorf("%s of pears, of which a quarter is peeled away: %v", m, err)
		}
	}
}
