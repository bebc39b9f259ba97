package print

import (
	"strings"
	"testing"

	"chablon/labels/role"
	"chablon/layout/page"
)

// demoMarks counts the marks of an invented shop on what a job has set.
func demoMarks(j *Job) (n int) {
	count := func(all []page.Item) {
		for _, it := range all {
			if it.Role == role.Draft && it.Run != nil && strings.HasPrefix(it.Run.Text, "DEMO") {
				n++
			}
		}
	}
	for _, a := range j.set.Arts {
		count(a.Items)
	}
	for _, pg := range j.set.Pages {
		count(pg.Items)
	}
	return n
}

// TestDemoMark: everything for sale of a shop that was copied from the demo shop
// says so, by its prefix or by a number of the product, whatever kind it is; the
// demo shop as it came does not, nor does a shop with numbers of its own.
func TestDemoMark(t *testing.T) {
	const id = "pear-hazelnut-tartlet"
	copied := newShop(t, "formulas/craquelin.yaml", "approved-by: Mara B.", "approved-by: Ilo")
	numbers := newShop(t, "formulas/craquelin.yaml", "approved-by: Mara B.", "approved-by: Ilo")
	numbers.Shop.Profile.GS1Prefix.V = "4012345"
	own := newShop(t, "formulas/craquelin.yaml", "approved-by: Mara B.", "approved-by: Ilo")
	own.Shop.Profile.GS1Prefix.V = "4012345"
	for i := range own.Shop.Products[id].Packs {
		own.Shop.Products[id].Packs[i].GTIN.V = ""
	}
	own.Shop.Products[id].Carton.GTIN.V = "14012345000016"
	for _, c := range []struct {
		what string
		p    *Press
		mark bool
	}{{"a copy", copied, true}, {"numbers of the copy", numbers, true}, {"numbers of its own", own, false}, {"the demo shop", demoPress(t), false}, {"its folder", demoPressIn(t, demoFolder), false}} {
		sold := 0
		for _, k := range c.p.kinds {
			if !k.sold() || !k.ofProduct() || c.what == "numbers of its own" && k.Name != "label" {
				continue
			}
			sold++
			j := job(t, c.p, k.Name, id, Request{Draft: c.what == "numbers of its own"})
			if c.what == "numbers of its own" {
				if j.Demo {
					t.Errorf("%s: %s bears the mark", c.what, k.Name)
				}
				continue
			}
			if j.Found.Errors() > 0 || (demoMarks(j) > 0) != c.mark || j.Demo != c.mark {
				t.Errorf("%s: %s: %d marks, %v", c.what, k.Name, demoMarks(j), j.Found.All())
			}
		}
		if sold < 1 || c.mark && sold < 3 {
			t.Errorf("%s: only %d kinds are sold", c.what, sold)
		}
	}
}
