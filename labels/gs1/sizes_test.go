package gs1

import (
	"testing"

	"chablon/labels/unit"
)

// Widths of a module and least heights of bars in micrometres: GS1 Sweden,
// size guide; the matrix widths are from memory and marked so in the table.
func TestSizes(t *testing.T) {
	tests := []struct {
		kind   string
		use    Use
		x      [3]unit.Length
		h      [3]unit.Length
		left   int
		right  int
		memory bool
	}{
		{"EAN-13", "retail", [3]unit.Length{264, 330, 660}, [3]unit.Length{18280, 22850, 45700}, 11, 7, false},
		{"EAN-13", "general distribution", [3]unit.Length{495, 660, 660}, [3]unit.Length{34280, 45700, 45700}, 11, 7, false},
		{"EAN-8", "retail", [3]unit.Length{264, 330, 660}, [3]unit.Length{14580, 18230, 36460}, 7, 7, false},
		{"UPC-A", "retail", [3]unit.Length{264, 330, 660}, [3]unit.Length{18280, 22850, 45700}, 9, 9, false},
		{"GS1-128", "general distribution", [3]unit.Length{495, 495, 1016}, [3]unit.Length{31750, 31750, 31750}, 10, 10, false},
		{"ITF-14", "general distribution", [3]unit.Length{495, 495, 1016}, [3]unit.Length{31750, 31750, 31750}, 10, 10, false},
		{"GS1 DataMatrix", "retail", [3]unit.Length{375, 625, 990}, [3]unit.Length{}, 1, 1, true},
		{"GS1 DataMatrix", "general distribution", [3]unit.Length{743, 743, 1500}, [3]unit.Length{}, 1, 1, true},
		{"QR", "retail", [3]unit.Length{396, 495, 990}, [3]unit.Length{}, 4, 4, false},
		{"QR", "general distribution", [3]unit.Length{743, 743, 1500}, [3]unit.Length{}, 4, 4, true},
	}
	if len(tests) != len(Sizes()) {
		t.Errorf("%d sizes, %d are checked", len(Sizes()), len(tests))
	}
	for _, tt := range tests {
		s, ok := SizeOf(tt.kind, tt.use)
		if !ok || s.Quiet[0] != tt.left || s.Quiet[2] != tt.right || s.Memory != tt.memory || s.Source == "" || s.Quality == "" {
			t.Errorf("%s %s: %+v, %v", tt.kind, tt.use, s, ok)
			continue
		}
		for i := range 3 {
			x, h := tt.x[i]*unit.UM, tt.h[i]*unit.UM
			if s.X[i] != x || s.Height[i] != h || s.HeightAt(x) != h || !s.InRange(x) {
				t.Errorf("%s %s: X %s has height %s; want %s and %s", tt.kind, tt.use, s.X[i], s.HeightAt(x), x, h)
			}
		}
		if s.InRange(s.X[0]-1) || s.InRange(s.X[2]+1) {
			t.Errorf("%s %s: the range has no ends", tt.kind, tt.use)
		}
	}
	if _, ok := SizeOf(EAN8, Trade); ok {
		t.Error("a size for EAN-8 in general distribution has no source here")
	}
}

// Between two figures the height follows the straight line: an EAN-13 is 18.28
// mm of bars at 80 %, 45.70 at 200 %, so 22.85 × 0.375 ÷ 0.330 at 0.375 mm.
func TestHeightBetween(t *testing.T) {
	s, _ := SizeOf(EAN13, Retail)
	want := (22_850 * unit.UM).Mul(375, 330)
	if got := s.HeightAt(375 * unit.UM); got < want-unit.UM || got > want+unit.UM {
		t.Errorf("height at 0.375 mm is %s, want %s", got, want)
	}
	last := unit.Length(0)
	for x := s.X[0]; x <= s.X[2]; x += 3 * unit.UM {
		if h := s.HeightAt(x); h < last {
			t.Fatalf("the height falls at %s", x)
		} else {
			last = h
		}
	}
}
