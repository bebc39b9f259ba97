package unit_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/unit"
)

// Faces at the edges of Regulation (EU) No 1169/2011, consolidated text of
// 1 April 2025: Art. 13(3) less than 80 cm², Art. 16(2) less than 10 cm²,
// Annex V point 18 less than 25 cm².
func TestAreaAtLegalEdges(t *testing.T) {
	for _, c := range []struct {
		w, h  unit.Length
		limit unit.Area
		less  bool
		out   string
	}{
		{100 * unit.MM, 80 * unit.MM, 80 * unit.CM2, false, "80 cm²"},
		{99 * unit.MM, 80 * unit.MM, 80 * unit.CM2, true, "79.2 cm²"},
		{50 * unit.MM, 20 * unit.MM, 10 * unit.CM2, false, "10 cm²"},
		{49 * unit.MM, 20 * unit.MM, 10 * unit.CM2, true, "9.8 cm²"},
		{50 * unit.MM, 50 * unit.MM, 25 * unit.CM2, false, "25 cm²"},
		{49 * unit.MM, 50 * unit.MM, 25 * unit.CM2, true, "24.5 cm²"},
		{unit.Inch, unit.Inch, unit.In2 + 1, true, "6.4516 cm²"},
	} {
		a := unit.AreaOf(c.w, c.h)
		if (a < c.limit) != c.less || a.String() != c.out {
			t.Errorf("%v × %v = %v, under %v: %v", c.w, c.h, a, c.limit, a < c.limit)
		}
	}
}

// Points are 1/72 in. The pairs are x-heights of Annex IV of the same
// regulation over the x-height of two faces, worked out by hand.
func TestPoints(t *testing.T) {
	for _, c := range []struct {
		x     unit.Length
		ratio int64 // x-height in 1/1000 em
		pt    float64
	}{
		{1200 * unit.UM, 519, 6.554},
		{900 * unit.UM, 519, 4.916},
		{1200 * unit.UM, 547, 6.219},
	} {
		if got := c.x.Mul(1000, c.ratio).Pt(); math.Abs(got-c.pt) > 0.0006 {
			t.Errorf("%v at %d/1000 em = %.4f pt, want %.3f", c.x, c.ratio, got, c.pt)
		}
	}
	if unit.Pts(72) != unit.Inch || unit.Pts(7.5) != 2_645_833 || unit.Inch.Pt() != 72 || unit.Inch.MM() != 25.4 {
		t.Error("72 pt is not an inch")
	}
}

// Printers of 203, 300 and 600 dots per inch in name have 8 dots per mm, 300
// and 600 per inch. Bar widths: GS1 General Specifications, symbol sizes as
// whole dots (0.375 and 0.500 mm at 8 per mm; 0.339 and 0.508 mm at 300).
func TestDots(t *testing.T) {
	eight, three, six := dots(t, "8 per mm"), dots(t, "300 dpi"), dots(t, "600 dpi")
	for _, c := range []struct {
		d    unit.Dots
		n    int64
		want unit.Length
	}{
		{eight, 1, 125_000}, {eight, 3, 375_000}, {eight, 4, 500_000},
		{three, 1, 84_667}, {three, 4, 338_667}, {three, 6, 508_000}, {three, 300, unit.Inch},
		{six, 1, 42_333}, {six, 2, 84_667}, {six, 600, unit.Inch}, {eight, 0, 0}, {eight, -8, -unit.MM},
	} {
		if got := c.d.At(c.n); got != c.want {
			t.Errorf("%d dots of %v = %d nm, want %d", c.n, c.d, got, c.want)
		}
	}
	for _, c := range []struct {
		d    unit.Dots
		in   unit.Length
		want unit.Length
	}{
		{eight, 330_000, 375_000}, {eight, 300_000, 250_000}, {eight, -330_000, -375_000},
		{three, 330_000, 338_667}, {six, 330_000, 338_667}, {unit.Dots{}, 330_001, 330_001},
	} {
		if got := c.d.Snap(c.in); got != c.want {
			t.Errorf("%v on %v = %v, want %v", c.in, c.d, got, c.want)
		}
	}
	if (unit.Dots{}).At(7) != 0 || (unit.Dots{}).Floor(unit.MM) != 0 {
		t.Error("no dots are not nothing")
	}
}

func TestFloorIsTheLastDotThatFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom([]unit.Dots{{N: 8, Per: unit.MM}, {N: 12, Per: unit.MM}, {N: 203, Per: unit.Inch},
			{N: 300, Per: unit.Inch}, {N: 600, Per: unit.Inch}}).Draw(t, "dots")
		l := unit.Length(rapid.Int64Range(0, int64(10_000*unit.MM)).Draw(t, "length"))
		n := d.Floor(l)
		if d.At(n) > l || d.At(n+1) <= l {
			t.Fatalf("%v on %v: %d dots", l, d, n)
		}
		if s := d.Snap(l); s-l > d.At(1) || l-s > d.At(1) || d.Snap(s) != s {
			t.Fatalf("%v on %v snaps to %v", l, d, s)
		}
		if again := dots(t, d.String()); again != d {
			t.Fatalf("%v reads back as %v", d, again)
		}
	})
}

func TestParseDotsRefuses(t *testing.T) {
	for _, in := range []string{"", "8", "8 mm", "per mm", "0 per mm", "-8 per mm", "8.5 per mm", "8 per cm", "8 permm", "20000 dpi", "8 dpmm", "300 per in", "dpi", "per 300 dpi"} {
		if d, err := unit.ParseDots(in); err == nil {
			t.Errorf("%q was read as %v", in, d)
		}
	}
}

func dots(t interface{ Fatal(...any) }, s string) unit.Dots {
	d, err := unit.ParseDots(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}
