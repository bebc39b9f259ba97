package print

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"chablon/labels/shop"
)

// TestPlainBytes: labels of a shop without brand.yaml are, to the byte, those
// that --look plain prints of the same shop with one; those in the look differ.
func TestPlainBytes(t *testing.T) {
	with := newShop(t, "brand.yaml", "under: Pastry", "under: Sweets") // both are copies, and say so
	dir := filepath.Join(t.TempDir(), "shop")
	if _, err := New(dir, true); err != nil {
		t.Fatal(err)
	}
	signatures(t, dir)
	if err := os.Remove(filepath.Join(dir, shop.BrandFile)); err != nil {
		t.Fatal(err)
	}
	without := demoPressIn(t, dir)
	for _, id := range []string{"lemon-thyme-marshmallow", "pear-hazelnut-tartlet"} {
		printed := func(p *Press, look string) []byte {
			b := asked(t, p, "label", id, Request{Count: 2, Own: &LabelOptions{Look: look}})
			if b.Found.Errors() > 0 || len(b.Papers) == 0 {
				t.Fatal(b.Found.All())
			}
			return bytesOf(t, b.Papers[0])
		}
		bare := printed(without, "")
		if !bytes.Equal(bare, printed(with, "plain")) {
			t.Errorf("%s: plain labels differ with brand.yaml", id)
		}
		if bytes.Equal(bare, printed(with, "")) {
			t.Errorf("%s: the look is on no label", id)
		}
	}
}
