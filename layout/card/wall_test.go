package card

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
)

// hung is the card of a product or formula of sh as it hangs on the wall, with
// its code and the times of a day that is ready at nine.
func hung(t testing.TB, sh *shop.Shop, id, paperID, langs string) Card {
	t.Helper()
	c := cardOf(t, sh, id, paperID, langs)
	c.Form, c.Ready = Wall, 9*unit.Hour
	c.Code = paperID != "card-a6"
	return c
}

// TestOneSheet: every product of the demo shop hangs on one sheet in two
// languages, A4 and A3.
func TestOneSheet(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		for _, on := range []string{"card-a4", "card-a3"} {
			for _, langs := range []string{"en+fr", "en", "fr"} {
				if pages := composed(t, hung(t, sh, id, on, langs)); len(pages) != 1 {
					t.Errorf("%s on %s in %s takes %d sheets", id, on, langs, len(pages))
				}
			}
		}
	}
}

// TestHungGolden compares cards of the wall with dumps that were read.
func TestHungGolden(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		for i, pg := range composed(t, hung(t, sh, id, "card-a4", "en+fr")) {
			layouttest.Golden(t, fmt.Sprintf("wall-%s-%d.txt", id, i+1), wordsOf(pg))
		}
	}
}

// wordsOf is what is read on a page and where: the left end and the baseline in
// millimetres, the height of capitals, and the words.
func wordsOf(pg *page.Page) string {
	var b strings.Builder
	runs([]*page.Page{pg}, func(it page.Item) {
		fmt.Fprintf(&b, "%5.1f %5.1f %4.2f %-9s %s\n", it.Box.X.MM(), it.Run.Baseline.MM(), it.Run.CapHeight.MM(), it.Role, it.Run.Text)
	})
	return b.String()
}

// TestShortRefused: words that are too many for a wall are refused, and it is
// said what to write.
func TestShortRefused(t *testing.T) {
	sh := layouttest.Shop(t)
	sh.Formulas["choux-paste"].Steps[0].Short = nil
	var found diag.List
	if pages := Compose(hung(t, sh, "pistachio-choux", "card-a4", "en+fr"), layouttest.Faces(t), &found); pages != nil {
		t.Error("it was set")
	}
	if found.Errors() != 2 || !layouttest.Only(&found, "short") {
		t.Errorf("found %v", found.All())
	}
}
