package market_test

import (
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

func TestXHeight(t *testing.T) {
	mm2 := func(w, h int64) unit.Area { return unit.AreaOf(unit.Length(w)*unit.MM, unit.Length(h)*unit.MM) }
	for _, c := range []struct {
		market  string
		role    role.Role
		face    unit.Area
		want    string
		measure market.Measure
		source  string
	}{
		{"eu", "", mm2(100, 80), "1.2 mm", market.XHeight, fic + " Art. 13(2); 80.0 cm² is not less than 80"},
		{"eu", "", mm2(99, 80), "0.9 mm", market.XHeight, fic + " Art. 13(3); 79.2 cm²"},
		{"eu", "", mm2(50, 20), "0.9 mm", market.XHeight, fic + " Art. 13(3); 10.0 cm²"},
		{"eu", "", mm2(49, 20), "0.9 mm", market.XHeight, fic + " Art. 13(3); 9.8 cm²"},
		{"eu", "", 80*unit.CM2 - 1, "0.9 mm", market.XHeight, "boundary"},
		{"eu", "", 0, "1.2 mm", market.XHeight, "face not known: no relief"},
		{"eu", "nutrition-front", mm2(40, 30), "1.2 mm", market.XHeight, fic + " Art. 34(3)"},
		{"eu", "name", mm2(40, 30), "0.9 mm", market.XHeight, fic + " Art. 13(3)"},
		{"gb", "", mm2(100, 80), "1.2 mm", market.XHeight, "FSA guidance on food packed for direct sale"},
		{"gb", "", mm2(99, 80), "0.9 mm", market.XHeight, "FSA guidance on food packed for direct sale"},
		{"ie", "", mm2(99, 80), "0.9 mm", market.XHeight, fic + " Art. 13(3)"},
		{"ch", "", mm2(99, 80), "0 mm", market.XHeight, "SR 817.022.16 sets no size (from memory)"},
		{"us", "", mm2(40, 30), "1.5875 mm", market.CapsOrO, cfr101 + ".2(c): 1/16 in"},
		{"us", "list", mm2(400, 300), "1.5875 mm", market.CapsOrO, cfr101 + ".2(c): 1/16 in"},
		{"ca", "", 10 * unit.CM2, "0.8 mm", market.CapsOrO, "SOR/2018-108 s. 210(3): 10 cm² or less"},
		{"ca", "", 10*unit.CM2 + 1, "1.6 mm", market.CapsOrO, "SOR/2018-108 s. 210(2)"},
		{"ca", "", 0, "1.6 mm", market.CapsOrO, "panel not known: no relief"},
		{"ca", "list", mm2(100, 80), "1.1 mm", market.XHeight, "C.R.C., c. 870, B.01.008.1(1)(e)"},
	} {
		got := get(t, c.market).XHeightOf(c.role, c.face)
		if got.Least.String() != c.want || got.Measure != c.measure {
			t.Errorf("%s %q on %s: %s %s, want %s %s (%s)", c.market, c.role, c.face, got.Least, got.Measure, c.want, c.measure, c.source)
		}
	}
	if lead := get(t, "ca").XHeightOf("list", 0).Lead; lead != length(t, "2.5 mm") {
		t.Errorf("Canadian list: line pitch %s, want 2.5 mm (B.01.008.1(1)(e))", lead)
	}
}

// Annex VI A 4 of the regulation: 75 % of the name, never below 1.2 or 0.9 mm.
func TestBesideTheName(t *testing.T) {
	for _, c := range []struct{ name, face, want string }{
		{"4 mm", "96 cm²", "3 mm"},
		{"1.6 mm", "96 cm²", "1.2 mm"},
		{"1.2 mm", "96 cm²", "1.2 mm"},
		{"1.2 mm", "79 cm²", "0.9 mm"},
		{"2 mm", "79 cm²", "1.5 mm"},
	} {
		face, err := unit.ParseArea(c.face)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := get(t, "eu").Beside("substitute", length(t, c.name), face)
		if !ok || got.Least != length(t, c.want) {
			t.Errorf("name %s, face %s: %s, want %s", c.name, c.face, got.Least, c.want)
		}
	}
	if _, ok := get(t, "us").Beside("substitute", unit.MM, 0); ok {
		t.Error("the United States have no such rule here")
	}
}

// A font whose x-height is 0.519 em needs 6.554 pt for 1.2 mm and 4.916 pt
// for 0.9 mm; 0.547 em needs 6.219 pt. Computed from the rule with
// 1 pt = 25.4/72 mm.
func TestPointsForXHeight(t *testing.T) {
	for _, c := range []struct {
		face   unit.Area
		ratio  int64 // thousandths of an em
		points int64 // thousandths of a point
	}{
		{100 * unit.CM2, 519, 6554},
		{40 * unit.CM2, 519, 4916},
		{100 * unit.CM2, 547, 6219},
	} {
		least := get(t, "eu").XHeight(c.face).Least
		em := least.Mul(1000, c.ratio)
		if got := unit.MulDiv(int64(em), 72_000, int64(unit.Inch)); got < c.points-1 || got > c.points+1 {
			t.Errorf("x-height %s at %d/1000 em: %d/1000 pt, want %d", least, c.ratio, got, c.points)
		}
	}
}
