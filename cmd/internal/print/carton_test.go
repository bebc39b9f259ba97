package print

import (
	"strings"
	"testing"

	"chablon/labels/shop"
	"chablon/labels/trace"
)

const tartlet = "pear-hazelnut-tartlet"

// withBook is a new shop whose print book is begun.
func withBook(t *testing.T, edits ...string) *Press {
	t.Helper()
	p := newShop(t, edits...)
	if err := p.Begin(t.Context()); err != nil {
		t.Fatal(err)
	}
	return p
}

// eventsOf are all events of a shop's book.
func eventsOf(t *testing.T, p *Press) []trace.Event {
	t.Helper()
	all, err := book(t, p).(trace.Book).Events(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// A carton that is not full is claimed with what is in it, and is printed again
// as it was.
func TestPartFilledCartonIsNoted(t *testing.T) {
	p := withBook(t)
	if err := saved(t, p, asked(t, p, "carton", tartlet, Request{Own: &CartonOptions{Packs: 7}})); err != nil {
		t.Fatal(err)
	}
	all := eventsOf(t, p)
	pack := all[len(all)-1]
	if pack.Kind != trace.Pack || pack.In[0].Pieces != 14 || pack.Out[0].Pieces != 7 {
		t.Fatalf("%+v", pack)
	}
	b, err := p.PrintAgain(Again{SSCCs: []string{pack.Out[0].Code}, Why: "jam"})
	if err != nil || b.Found.Errors() > 0 || len(b.Papers) != 1 {
		t.Errorf("a part-filled carton is not printed again: %v, %v", err, b.Found.All())
	}
}

// The label for two sides of one carton is the same label twice, with one
// number; the number is claimed once.
func TestTwoSides(t *testing.T) {
	p := withBook(t, "products/"+tartlet+".yaml", "  tare: 240 g", "  tare: 240 g\n  sides: 2")
	b := asked(t, p, "carton", tartlet, Request{Count: 2})
	if len(b.Papers) != 1 || b.Papers[0].Pages != 4 || len(b.Claims) != 1 || b.Claims[0].Count != 2 || !strings.HasPrefix(b.Papers[0].About, "DEMO, 4 carton labels") {
		t.Fatalf("%+v, %+v, %v", b.Papers, b.Claims, b.Found.All())
	}
	j := sound(t, p, "carton", tartlet, Request{Count: 2})
	codes := map[string]int{}
	for n := 1; n <= j.pieces(); n++ {
		for _, it := range j.set.own(n) {
			if it.Symbol != nil {
				codes[it.Symbol.Data]++
			}
		}
	}
	if len(codes) != 4 || codes["00"+j.SSCCs[0]] != 2 || codes["00"+j.SSCCs[1]] != 2 {
		t.Errorf("numbers on the labels: %v", codes)
	}
	if err := saved(t, p, b); err != nil {
		t.Fatal(err)
	}
	again, err := p.PrintAgain(Again{SSCCs: []string{b.Claims[0].ssccs[1]}, Why: "jam"})
	if err != nil || len(again.Papers) != 1 || again.Papers[0].Pages != 2 {
		t.Errorf("%+v, %v", again.Papers, err)
	}
	if _, err := p.Print(p.KindOf("carton"), Request{IDs: []string{tartlet}, Own: &CartonOptions{Sides: shop.MaxSides + 1}}); err == nil {
		t.Error("a carton with five sides for its label")
	}
}
