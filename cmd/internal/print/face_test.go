package print

import (
	"testing"

	"chablon/labels/diag"
)

// TestLabelLargerThanFace holds the caution against the edges of the law: 80 cm²
// for smaller letters and 10 cm² for fewer particulars (Reg. (EU) No 1169/2011
// Art. 13(3) and 16(2)). A label of 100 × 60 mm has 60 cm², one of a4-4 more
// than 80 cm².
func TestLabelLargerThanFace(t *testing.T) {
	tests := []struct {
		name, face, stock string
		want              bool
	}{
		{"as in the demo shop", "108 cm²", "", false},
		{"larger, but no relief", "108 cm²", "a4-4", false},
		{"larger, the same relief", "50 cm²", "", false},
		{"smaller letters", "50 cm²", "a4-4", true},
		{"at the edge", "80 cm²", "a4-4", false},
		{"fewer particulars", "9 cm²", "", true},
		{"round several faces", "50 cm²\n    wraps-round: yes", "a4-4", false},
	}
	for _, c := range tests {
		p := newShop(t, "products/pear-hazelnut-tartlet.yaml", "largest-face: 108 cm²", "largest-face: "+c.face)
		if p.Found.Len() > 0 {
			t.Fatal(p.Found.All())
		}
		l := job(t, p, "label", "pear-hazelnut-tartlet", Request{Paper: c.stock, Draft: true})
		var got []diag.Diag
		for _, d := range l.Found.All() {
			if d.Rule == "face" {
				got = append(got, d)
			}
		}
		if (len(got) == 1) != c.want || c.want && (!got[0].Warning || got[0].Pos.Line == 0) {
			t.Errorf("%s: %v", c.name, got)
		}
	}
}

// TestShopWithoutPrinter: one fault is one finding, however many labels it is
// in the way of; cards bear no bar codes and can be printed.
func TestShopWithoutPrinter(t *testing.T) {
	p := newShop(t)
	p.Shop.Profile.Printers = nil
	_, b, err := p.Check()
	if err != nil {
		t.Fatal(err)
	}
	if found := b.Found.All(); len(found) != 1 || found[0].Rule != "dots" || found[0].Pos.File != "shop.yaml" {
		t.Errorf("check: %v", found)
	}
	if b := asked(t, p, "card", "craquelin", Request{}); len(b.Papers) != 1 {
		t.Errorf("card: %v", b.Found.All())
	}
}
