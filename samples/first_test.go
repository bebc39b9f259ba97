package samples_test

import (
	"io/fs"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/samples"
)

// The first shop has nothing wrong in it, and every text in it that must become
// the user's own says so.
func TestFirstShop(t *testing.T) {
	var found diag.List
	sh := shop.Load(samples.First(), &found)
	if found.Len() > 0 || len(sh.ProductIDs) != 1 || len(sh.Plans) != 1 {
		t.Fatal(found.All())
	}
	for _, text := range []shop.Text{sh.Profile.Name, sh.Profile.Address} {
		if !strings.Contains(text.V, "EXAMPLE") {
			t.Errorf("%s: %q may be taken for the user's own", text.Pos, text.V)
		}
	}
	for _, i := range sh.Ingredients {
		if !strings.Contains(i.Supplier.V, "EXAMPLE") || !i.Specified() {
			t.Errorf("%s: its specification may be taken for the user's own", i.ID)
		}
	}
	files := 0
	if err := fs.WalkDir(samples.First(), ".", func(_ string, d fs.DirEntry, err error) error {
		if !d.IsDir() {
			files++
		}
		return err
	}); err != nil || files > 8 {
		t.Errorf("%d files (%v): somebody new begins with few", files, err)
	}
}
