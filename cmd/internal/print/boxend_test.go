package print

import (
	"strings"
	"testing"

	"chablon/labels/shop"
)

const tartletFile = "products/pear-hazelnut-tartlet.yaml"

// Box ends are checked and compared where a carton asks for them, and nowhere
// else: a shop without the key hears nothing of a paper that is too small.
func TestBoxEndsWhereAsked(t *testing.T) {
	for edit, want := range map[string]int{"tare: 240 g": 0, "tare: 240 g\n  box-ends: 2": 1} {
		p := newShop(t, tartletFile, "tare: 240 g", edit)
		if got := len(p.all(p.KindOf("box-end"))); got != want {
			t.Errorf("%q: %d box ends are checked, want %d", edit, got, want)
		}
		if got := len(p.all(p.KindOf(partBoxEnd))); got != want {
			t.Errorf("%q: %d ends of part-filled cartons are checked, want %d", edit, got, want)
		}
	}
}

// Without day-prints the day prints them too: as many as cartons have ends, and
// none for a mixed carton.
func TestBoxEndsOfADay(t *testing.T) {
	const runs, last = "card-sizes: [24, 48, 96]\n    cartons: 2", "card-sizes: [24, 48, 96]\n    cartons: 1\n    last-carton: {packs: 7%s}"
	for with, part := range map[string]bool{"": true, ", with: [{product: pistachio-choux, packs: 3}]": false} {
		p := newShop(t, tartletFile, "tare: 240 g", "tare: 240 g\n  box-ends: 3", profileFile, demoPrints, "",
			"plans/2026-03-17.yaml", runs, strings.Replace(last, "%s", with, 1))
		p.Today = theDay()
		b, err := p.Day(DayOptions{})
		if err != nil || b.Found.Errors() > 0 {
			t.Fatal(err, b.Found.All())
		}
		var all []string
		for _, q := range b.Papers {
			if strings.Contains(q.Name, "box-ends") {
				all = append(all, q.Name+" "+q.About)
			}
		}
		said := strings.Join(all, "\n")
		if !strings.Contains(said, "3 box-end labels") || strings.Contains(said, "of-7") != part || strings.Contains(said, choux) {
			t.Errorf("%q: %s", with, said)
		}
	}
}

// Cartons that are sold by weight differ: their ends cannot say what is in them.
func TestBoxEndByWeight(t *testing.T) {
	p := newShop(t)
	q := p.Shop.Products[tartlet]
	for i := range q.Packs {
		q.Packs[i].SoldBy = shop.Text{V: "weight"}
	}
	if err := hasBoxEnd(p, tartlet); err == nil || !strings.Contains(err.Error(), "sold by weight") {
		t.Error(err)
	}
}
