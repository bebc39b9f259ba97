package print

import (
	"strings"
	"testing"

	"chablon/labels/shop"
	"chablon/labels/shop/shoptest"
	"chablon/labels/words"
)

// The languages of kitchens: each has the words of cards and sheets.
const kitchenLanguages = "de en es fr it nl pl pt ro tr uk"

// TestKitchenLanguages: card, tub, prep list, ticket and the run sheet of the
// day are printed in each of them once the shop's own texts are there, and
// without these only the missing texts are what refuses.
func TestKitchenLanguages(t *testing.T) {
	for _, code := range strings.Fields(kitchenLanguages) {
		t.Run(code, func(t *testing.T) {
			t.Parallel()
			p := demoPress(t)
			if found := asked(t, p, "card", benchProduct, Request{Languages: []string{code}}).Found; !shopSpeaks(p.Shop, code) {
				if found.Errors() == 0 {
					t.Error("a card is printed without the texts of the shop")
				}
				for _, d := range found.All() {
					if !d.Warning && d.Rule != "translation" {
						t.Error(d)
					}
				}
			}
			shoptest.Translate(p.Shop, code)
			p.Shop.Profile.Country = shop.Text{} // which asks for its own language on tickets
			p.Shop.Profile.CardLanguages = []shop.Text{{V: code}}
			p.Shop.Plans[0].Runs = p.Shop.Plans[0].Runs[:1]
			for kind, id := range map[string]string{"card": benchProduct, "tub": "sweet-pastry", "prep": "", "ticket": benchProduct} {
				b := asked(t, p, kind, id, Request{Languages: []string{code}, Draft: true})
				if b.Found.Errors() > 0 || len(b.Papers) == 0 {
					t.Errorf("%s: %d papers, %v", kind, len(b.Papers), b.Found.All())
				}
			}
			b, err := p.Day(DayOptions{})
			if err != nil || len(b.Papers) == 0 || !strings.Contains(b.Papers[len(b.Papers)-1].Name, "run-sheet") {
				t.Fatalf("day: %d papers, %v, %v", len(b.Papers), err, b.Found.All())
			}
			for _, d := range b.Found.All() {
				if !d.Warning && d.Rule != "not-approved" { // nobody has signed the added texts
					t.Error(d)
				}
			}
		})
	}
	if l, _ := words.Get("et"); l.Has("card") {
		t.Error("Estonian has cards: add it to the list")
	}
}

// shopSpeaks reports whether the shop has texts in a language of its own.
func shopSpeaks(s *shop.Shop, code string) bool {
	_, ok := shop.In(s.Products[benchProduct].Name, code)
	return ok
}
