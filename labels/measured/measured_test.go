package measured

import (
	"fmt"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

var at = diag.Pos{File: "measured.yaml", Line: 1, Col: 1}

// boiled is a boil of the caramel: 1013 g as written, of which so much is left.
func boiled(day int, after unit.Mass) (m shop.Measurement) {
	m.Of, m.Stage = shop.Text{V: "passion-caramel", Pos: at}, shop.Text{V: "boil", Pos: at}
	m.On.V, m.Before.V, m.After.V = unit.Date{Year: 2026, Month: 3, Day: day}, 1013*unit.Gram, after
	return m
}

// timed is the work on a step of the tartlets, for so many of them.
func timed(step string, pieces unit.Count, hands unit.Span) (m shop.Measurement) {
	m.Of, m.Step = shop.Text{V: "pear-hazelnut-tartlet", Pos: at}, shop.Text{V: step, Pos: at}
	m.On.V, m.Pieces.V, m.HandsOn.V = unit.Date{Year: 2026, Month: 3, Day: 12}, pieces, hands
	return m
}

func demo(t testing.TB) *shop.Shop {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	if t != nil && found.Errors() > 0 {
		t.Fatal(found.All())
	}
	sh.Measured = shop.Measurements{}
	return sh
}

// The caramel of the demo loses 253 g of 1013 g, a quarter, by its file.
func Example() {
	sh := demo(nil)
	sh.Measured.All = []shop.Measurement{boiled(10, 740*unit.Gram), boiled(12, 736*unit.Gram)}
	for _, g := range All(sh) {
		fmt.Println(g, g.Parts)
	}
	// Output:
	// the stage boil of passion-caramel loses 27.1 %, measured 2 times, and 25 % is written true
}

// By hand: 760 g of 1013 g are to be left. A hundredth of the mass is 10.13 g: a
// loss that is 10 g off does not part, one that is 11 g off does.
func TestLoss(t *testing.T) {
	for after, parts := range map[unit.Mass]bool{760: false, 750: false, 770: false, 749: true, 771: true} {
		sh := demo(t)
		sh.Measured.All = []shop.Measurement{boiled(10, after*unit.Gram)}
		got := All(sh)
		if len(got) != 1 || got[0].Parts != parts {
			t.Errorf("%d g are left: %+v", after, got)
		}
		var found diag.List
		Check(sh, &found)
		if want := map[bool]int{true: 1}[parts]; found.Len() != want || found.Errors() > 0 {
			t.Errorf("%d g are left: %v", after, found.All())
		}
		if parts && (found.All()[0].Pos.File != "formulas/passion-caramel.yaml" || found.All()[0].Rule != "measured" || !strings.Contains(found.All()[0].Hint, "approved again")) {
			t.Errorf("%v", found.All())
		}
	}
}

// Several measurements are weighed together: one that is high and one that is low
// do not part, and the last day is told.
func TestTogether(t *testing.T) {
	sh := demo(t)
	sh.Measured.All = []shop.Measurement{boiled(12, 740*unit.Gram), boiled(10, 780*unit.Gram)}
	g := All(sh)[0]
	if g.Parts || g.N != 2 || g.Last.Day != 12 {
		t.Errorf("%+v", g)
	}
}

// The bake of the tartlets loses an eighth of 96 g.
func TestStageOfProduct(t *testing.T) {
	sh := demo(t)
	m := boiled(10, 4032*unit.Gram)
	m.Of.V, m.Stage.V, m.Before.V = "pear-hazelnut-tartlet", "bake", 4608*unit.Gram
	sh.Measured.All = []shop.Measurement{m}
	if g := All(sh)[0]; g.WrittenLoss != unit.Whole/8 || g.MeasuredLoss != unit.Whole/8 || g.Parts {
		t.Errorf("%+v", g)
	}
}

// A time is held against that of a batch of the same size, and parts by more than
// a fifth and no less than five minutes.
func TestTimes(t *testing.T) {
	for _, pieces := range []unit.Count{48, 480} {
		sh := demo(t)
		sh.Measured.All = []shop.Measurement{timed("A3", pieces, unit.Minute)}
		is := All(sh)[0].WrittenTime
		for _, c := range []struct {
			hands unit.Span
			parts bool
		}{{is, false}, {is + is/5, false}, {is + is/5 + 5*unit.Minute, true}, {is - is/5 - 5*unit.Minute, true}, {is + 4*unit.Minute, false}} {
			sh.Measured.All = []shop.Measurement{timed("A3", pieces, c.hands)}
			if g := All(sh)[0]; g.Kind != Hands || g.Parts != c.parts || g.Where != "A3" {
				t.Errorf("%d pieces in %s, %s is written: %+v", pieces, c.hands, is, g)
			}
		}
		if pieces == 480 && is < 90*unit.Minute {
			t.Errorf("480 pieces are held against the time of fewer: %s", is)
		}
	}
}
