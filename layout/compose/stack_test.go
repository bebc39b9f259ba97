package compose

import (
	"testing"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/role"
)

// The bars of a pallet of 24: the number of the unit stands lowest, in the
// widest place (GGS release 18, 6.6.2), is left out of what all units share,
// and comes from each. The decoders of layout/carton read the same bars back.
func TestStack(t *testing.T) {
	p := paper(t, "roll-100x150")
	first, second := "095200010000000010", "095200010000000027"
	els := gs1.Order([]gs1.Element{{AI: "02", Value: "09520001000010"}, {AI: "37", Value: "24"}, {AI: "10", Value: "L26076A"}, {AI: "00", Value: first}})
	at := diag.Pos{File: "a.yaml", Line: 2, Col: 1}
	k, err := p.Stack(els, at)
	if err != nil {
		t.Fatal(err)
	}
	shared, own := p.Setter(), p.Setter()
	k.Shared(shared)
	k.Own(own, second, at)
	if shared.Err() != nil || own.Err() != nil {
		t.Fatal(shared.Err(), own.Err())
	}
	low, said := k.Top(), ""
	for _, it := range shared.Items {
		if it.Symbol != nil && it.Box.Y < k.Top() {
			t.Errorf("bars at %s begin above %s", it.Box.Y, k.Top())
		}
		low = max(low, it.Box.Bottom())
		if it.Role == role.Digits {
			said += it.Run.Text
		}
	}
	if said != "(02)09520001000010(37)24(10)L26076A" {
		t.Errorf("all units share %s", said)
	}
	n := 0
	for _, it := range own.Items {
		if it.Symbol != nil {
			if n++; it.Box.Y <= low || !p.Page(nil).Area().Contains(it.Box) || it.Symbol.Data != "00"+second {
				t.Errorf("%q lies at %v", it.Symbol.Data, it.Box)
			}
		} else if it.Run != nil && it.Run.Text != "(00)"+second {
			t.Errorf("%q under the bars", it.Run.Text)
		}
	}
	if n != 1 {
		t.Errorf("%d symbols of its own", n)
	}
	if _, err := paper(t, "roll-40x30").Stack(els, at); err == nil {
		t.Error("bars are set on paper that is too small for them")
	}
	// A count asks for an SSCC beside it (GS1 Syntax Dictionary, AI 37: req=00): no
	// paper is large enough to do without.
	_, err = p.Stack(gs1.Order([]gs1.Element{{AI: "02", Value: "09520001000010"}, {AI: "37", Value: "24"}}), at)
	var found diag.List
	Refusal{At: at, What: "the label", Stock: p.Stock, Hint: "take a larger paper"}.Refuse(err, &found)
	if err == nil || found.Errors() != 1 || found.All()[0].Rule != "bars" || found.All()[0].Pos != at {
		t.Errorf("a count without an SSCC: %v, %v", err, found.All())
	}
}
