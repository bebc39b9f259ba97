package symbol

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

func perMM(n int64) unit.Dots   { return unit.Dots{N: n, Per: unit.MM} }
func perInch(n int64) unit.Dots { return unit.Dots{N: n, Per: unit.Inch} }

// Whole dots nearest to the target of the GS1 size guide, computed by hand; at
// 8 per mm, 300 and 600 dpi they are those that read best in trials of our
// own with blurred rasters.
func TestChoose(t *testing.T) {
	tests := []struct {
		kind string
		use  gs1.Use
		dots unit.Dots
		want int64 // dots
		tall unit.Length
	}{
		{gs1.EAN13, gs1.Retail, perMM(8), 3, 26 * unit.MM}, // 0.375 mm; 25.966 mm rounded up to a dot
		{gs1.EAN13, gs1.Retail, perInch(203), 3, perInch(203).At(208)},
		{gs1.EAN13, gs1.Retail, perInch(300), 4, perInch(300).At(277)}, // 0.3387 mm; 23.450 mm
		{gs1.EAN13, gs1.Retail, perMM(12), 4, 277 * unit.MM / 12},      // 0.3333 mm; 23.081 mm
		{gs1.EAN13, gs1.Retail, perInch(600), 8, perInch(600).At(554)},
		{gs1.EAN13, gs1.Trade, perMM(8), 5, 43_375 * unit.UM}, // 0.625 mm; 43.278 mm
		{gs1.EAN8, gs1.Retail, perMM(8), 3, 20_750 * unit.UM}, // 20.716 mm
		{gs1.GS1128, gs1.Trade, perMM(8), 4, 31_750 * unit.UM},
		{gs1.GS1128, gs1.Trade, perInch(203), 4, perInch(203).At(254)},
		{gs1.GS1128, gs1.Trade, perInch(300), 6, 31_750 * unit.UM},
		{gs1.GS1128, gs1.Trade, perInch(600), 12, 31_750 * unit.UM},
		{gs1.ITF14, gs1.Trade, perMM(24), 12, 762 * unit.MM / 24},
		{gs1.GS1DataMatrix, gs1.Retail, perMM(8), 5, 0},
		{gs1.QR, gs1.Retail, perInch(300), 6, 0}, // 0.508 mm
		{gs1.QR, gs1.Retail, perMM(8), 4, 0},     // 3 dots are 0.375 mm, under the least of 0.396 mm
		{gs1.QR, gs1.Retail, perMM(12), 6, 0},    // 0.5 mm
	}
	for _, tt := range tests {
		x, h, err := Choose(tt.kind, tt.use, tt.dots)
		if err != nil || x != tt.dots.At(tt.want) || h != tt.tall {
			t.Errorf("%s %s at %s: X %s, height %s, %v; want %s, %s", tt.kind, tt.use, tt.dots, x, h, err, tt.dots.At(tt.want), tt.tall)
		}
	}
	x, h, err := Choose(gs1.EAN13, gs1.Retail, unit.Dots{})
	if err != nil || x != 330*unit.UM || h != 22_850*unit.UM {
		t.Errorf("without dots: %s, %s, %v; want the target", x, h, err)
	}
}

func TestChooseRefuses(t *testing.T) {
	tests := []struct {
		kind    string
		use     gs1.Use
		dots    unit.Dots
		modules int
		room    unit.Length
		want    string
	}{
		{gs1.EAN13, gs1.Retail, perMM(3), 1, unit.CM, "3 per mm has no whole number of dots"},
		{gs1.EAN13, gs1.Retail, perMM(8), 113, 40 * unit.MM, "8 per mm has no whole number of dots"},
		{gs1.EAN13, gs1.Retail, perMM(8), 113, 29 * unit.MM, "needs 29.832 mm at the least"}, // 80 % width, gs1ie.org
		{gs1.EAN13, gs1.Retail, perMM(8), 113, 0, "there is room for 0 mm"},
		{gs1.EAN8, gs1.Trade, perMM(8), 1, unit.CM, "no size is known"},
		{"PDF417", gs1.Trade, perMM(8), 1, unit.CM, "no size is known"},
	}
	for _, tt := range tests {
		if x, _, err := Fit(tt.kind, tt.use, tt.dots, tt.modules, tt.room); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s %s at %s in %s: %s, %v; want %q", tt.kind, tt.use, tt.dots, tt.room, x, err, tt.want)
		}
	}
}

func TestFit(t *testing.T) {
	tests := []struct {
		dots unit.Dots
		room unit.Length
		want int64
	}{
		{perMM(8), 45 * unit.MM, 3}, {perInch(300), 40 * unit.MM, 4}, {perInch(600), 35 * unit.MM, 7},
		{perMM(12), 38 * unit.MM, 4}, {perInch(600), 100 * unit.MM, 8},
	}
	for _, tt := range tests {
		x, _, err := Fit(gs1.EAN13, gs1.Retail, tt.dots, 113, tt.room)
		if err != nil || x != tt.dots.At(tt.want) {
			t.Errorf("%s in %s: %s, %v; want %d dots", tt.dots, tt.room, x, err, tt.want)
		}
	}
}

// Wherever a symbol is put, its bars begin on a dot, within one dot of the
// place asked for, and box and room agree.
func TestPlaceIsOnTheGrid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		dots := rapid.SampledFrom([]unit.Dots{perMM(8), perMM(12), perMM(24), perInch(203), perInch(300), perInch(600)}).Draw(t, "dots")
		kind := rapid.SampledFrom([]string{gs1.EAN13, gs1.GS1DataMatrix}).Draw(t, "kind")
		m, h, err := Choose(kind, gs1.Retail, dots)
		if err != nil {
			t.Fatal(err)
		}
		var s *page.Symbol
		if kind == gs1.EAN13 {
			s, err = EAN13("9520001000010", Module{m, h, dots})
		} else {
			s, err = GS1DataMatrix("0109520001000010", Module{X: m, Dots: dots})
		}
		if err != nil {
			t.Fatal(err)
		}
		x := unit.Length(rapid.Int64Range(0, 300_000_000).Draw(t, "x"))
		y := unit.Length(rapid.Int64Range(0, 300_000_000).Draw(t, "y"))
		it := Place(s, x, y)
		b := it.Symbol.Bars
		if dots.Snap(b.X) != b.X || dots.Snap(b.Y) != b.Y {
			t.Fatalf("bars at %s, %s are off the grid of %s", b.X, b.Y, dots)
		}
		w, tall := Room(s)
		slack := s.Dot / 50 // a hundredth of a dot counts as none, and edges round to nanometres
		room := page.Rect{X: x - slack, Y: y - slack, W: w + 2*slack, H: tall + 2*slack}
		if it.Box.W+s.Dot != w || it.Box.H+s.Dot != tall || !room.Contains(it.Box) {
			t.Fatalf("box %v leaves the room %v", it.Box, room)
		}
		q := s.Quiet
		if b.X-it.Box.X != m*unit.Length(q[0]) || it.Box.Right()-b.Right() != m*unit.Length(q[2]) || it.Box.Bottom()-b.Bottom() != m*unit.Length(q[3]) {
			t.Fatalf("quiet zone: box %v, bars %v", it.Box, b)
		}
		if s.Bars.X != 0 || it.Role != role.Bars {
			t.Fatal("the symbol itself was moved, or the role is wrong")
		}
	})
}

// 87.12 mm and 116.16 mm are 156 and 20 modules of 0.495 and 0.660 mm (GGS
// 5.4 geometry); 37.29 mm is the nominal EAN-13 (GS1 Ireland).
func TestOverallWidths(t *testing.T) {
	sscc := func(m Module) (*page.Symbol, error) { return GS1128("00395123451234567895", m) }
	tin := func(m Module) (*page.Symbol, error) { return EAN13("9501101531000", m) }
	tests := []struct {
		make func(Module) (*page.Symbol, error)
		x    unit.Length
		want unit.Length
	}{
		{sscc, 495, 87_120}, {sscc, 660, 116_160}, {tin, 330, 37_290}, {tin, 660, 74_580}, {tin, 264, 29_832},
	}
	for _, tt := range tests {
		s, err := tt.make(Module{X: tt.x * unit.UM, Height: unit.CM})
		if err != nil {
			t.Error(err)
			continue
		}
		if got := Place(s, 0, 0).Box.W; got != tt.want*unit.UM || s.Module*unit.Length(Modules(s)) != got {
			t.Errorf("%s at X %s: %s wide, want %s", s.Kind, s.Module, got, tt.want*unit.UM)
		}
	}
}

func TestDigits(t *testing.T) {
	// Guards of 3, 5 and 3 modules, digits of 7 (ISO/IEC 15420): 3+42+5+42+3.
	g := EAN13Digits("9520001000010")
	if len(g) != 3 || g[0] != (Group{"9", -10, 7, false}) || g[1] != (Group{"520001", 3, 42, false}) || g[2] != (Group{"000010", 50, 42, false}) {
		t.Errorf("EAN13Digits = %v", g)
	}
	if g[0].At+g[0].Width >= 0 || g[0].At < -11 || g[2].At+g[2].Width != 95-3 {
		t.Errorf("the groups %v leave their places", g)
	}
	h := EAN8Digits("95012346")
	if len(h) != 2 || h[0] != (Group{"9501", 3, 28, false}) || h[1] != (Group{"2346", 36, 28, false}) || h[1].At+h[1].Width != 67-3 {
		t.Errorf("EAN8Digits = %v", h)
	}
	// One digit of 7 modules beside each guard has its number outside the bars.
	u := UPCADigits("012345678905")
	if len(u) != 4 || u[1] != (Group{"12345", 3 + 7, 35, false}) || u[2] != (Group{"67890", 50, 35, false}) || u[2].At+u[2].Width != 95-3-7 ||
		u[0].Text != "0" || u[3].Text != "5" || u[0].At < -9 || u[0].At+u[0].Width >= 0 || u[3].At <= 95 || u[3].At+u[3].Width > 95+9 || !u[0].Small {
		t.Errorf("UPCADigits = %v", u)
	}
	if UPCADigits("0") != nil || EAN13Digits("123") != nil || EAN8Digits("") != nil {
		t.Error("digits of a wrong number were cut")
	}
}

func TestBearers(t *testing.T) {
	s, err := ITF14("19520001000017", module)
	if err != nil {
		t.Fatal(err)
	}
	it := Place(s, 10*unit.MM, 10*unit.MM)
	b := Bearers(it)
	if len(b) != 2 {
		t.Fatalf("%d bearers", len(b))
	}
	for _, x := range b {
		if x.Box.H != 2*s.Module || x.Box.X != it.Box.X || x.Box.W != it.Box.W || x.Shape == nil || it.Box.Overlaps(x.Box) {
			t.Errorf("bearer %v by bars %v", x.Box, it.Symbol.Bars)
		}
	}
	if b[0].Box.Bottom() != it.Symbol.Bars.Y || b[1].Box.Y != it.Symbol.Bars.Bottom() {
		t.Error("the bearers do not touch the bars")
	}
	e, err := EAN13("9520001000010", module)
	if err != nil || Bearers(Place(e, 0, 0)) != nil || Bearers(page.Item{}) != nil {
		t.Errorf("bearers for something else than ITF-14, %v", err)
	}
}
