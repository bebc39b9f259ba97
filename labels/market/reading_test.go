package market_test

import (
	"math"
	"testing"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// NUREG-0700, 1.3.1-4: capital heights in hundredths of a millimetre; and the
// type size in tenths of a point for 20' at a capital height of 0.716 em.
func TestCapHeights(t *testing.T) {
	for _, c := range []struct {
		distance                                  string
		least, preferred, high, most, ratio, tens int64
	}{
		{"0.5 m", 233, 291, 320, 349, 250, 115},
		{"0.7 m", 326, 407, 448, 489, 350, 161},
		{"1 m", 465, 582, 640, 698, 500, 230},
		{"1.5 m", 698, 873, 960, 1047, 750, 345},
		{"2 m", 931, 1164, 1280, 1396, 1000, 461},
		{"3 m", 1396, 1745, 1920, 2094, 1500, 691},
	} {
		d := length(t, c.distance)
		for key, want := range map[string]int64{
			"least": c.least, "preferred": c.preferred, "preferred-high": c.high, "most-running-text": c.most, "aviation": c.ratio,
		} {
			r, ok := market.FindReading(key)
			if got := unit.MulDiv(int64(r.CapHeight(d)), 100, int64(unit.MM)); !ok || got != want {
				t.Errorf("%s at %s: %d/100 mm, want %d (%s)", key, c.distance, got, want, r.Cite)
			}
		}
		em := market.ArcHeight(d, 20).Mul(1000, 716)
		if got := unit.MulDiv(int64(em), 720, int64(unit.Inch)); got != c.tens {
			t.Errorf("20' at %s: %d/10 pt, want %d", c.distance, got, c.tens)
		}
	}
}

// The letter of five minutes on an eye chart read at 6 m is 8.73 mm high.
func TestEyeChart(t *testing.T) {
	if got := market.ArcHeight(6000*unit.MM, 5); unit.MulDiv(int64(got), 100, int64(unit.MM)) != 873 {
		t.Errorf("5' at 6 m = %s, want 8.73 mm", got)
	}
}

// 1/200 of the distance is an angle of 17.2 minutes.
func TestAviationAngle(t *testing.T) {
	r, _ := market.FindReading("aviation")
	h := r.CapHeight(10_000 * unit.MM)
	if h < market.ArcHeight(10_000*unit.MM, 17) || h > market.ArcHeight(10_000*unit.MM, 18) {
		t.Errorf("1/200 of 10 m = %s", h)
	}
}

// The exact formula is h = 2·d·tan(θ/2); the arc never falls short of it by
// more than one part in 50,000 up to 45 minutes.
func TestArcAgainstTangent(t *testing.T) {
	for _, minutes := range []int64{1, 5, 16, 20, 24, 45} {
		const d = 10_000 * unit.MM
		exact := 2 * float64(d) * math.Tan(float64(minutes)*math.Pi/10_800/2)
		if got := float64(market.ArcHeight(d, minutes)); math.Abs(got-exact) > exact/50_000+1 {
			t.Errorf("%d': %.0f nm, the tangent gives %.0f", minutes, got, exact)
		}
	}
}

func TestReadingSources(t *testing.T) {
	if tenths, _ := market.LowSight(); tenths != 35 {
		t.Errorf("20/70 sight: %d/10, want 35", tenths)
	}
	if _, ok := market.FindReading("nothing"); ok {
		t.Error("a rule without a name was found")
	}
	for _, d := range market.Distances() {
		if d.At < 300*unit.MM || d.At > 3000*unit.MM || !d.House {
			t.Errorf("%s: %s, house = %v", d.Key, d.At, d.House)
		}
	}
}
