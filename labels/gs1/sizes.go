package gs1

import "chablon/labels/unit"

// Kinds of symbol, named as in page.Symbol.Kind.
const (
	EAN13         = "EAN-13"
	EAN8          = "EAN-8"
	UPCA          = "UPC-A"
	GS1128        = "GS1-128"
	ITF14         = "ITF-14"
	GS1DataMatrix = "GS1 DataMatrix"
	QR            = "QR"
)

// Use says where a symbol will be scanned.
type Use string

// The uses: at the till, or in warehouses and deliveries.
const (
	Retail Use = "retail"
	Trade  Use = "general distribution"
)

// Limits of a GS1-128 (GGS 5.4.4.3, release 18): 48 data characters, AIs and
// separators counted, and 165.10 mm with its quiet zones.
const (
	MaxGS1128Chars             = 48
	MaxGS1128Width unit.Length = 165_100 * unit.UM
)

// Size is what GS1 asks of one kind of symbol in one use. X is the width of
// one module. Height is that of the bars alone; it is zero for symbols whose
// height follows from their modules.
type Size struct {
	Kind    string
	Use     Use
	X       [3]unit.Length // least, target, most
	Height  [3]unit.Length // least height at each of these
	Quiet   [4]int         // left, top, right, bottom, in modules
	Quality string         // least grade / aperture / wavelength, ISO/IEC 15416 or 15415
	Source  string
	Memory  bool // not seen in a published text: check before relying on it
}

const (
	guide  = "GS1 Sweden, size guide (summary of GGS 5.12.3), read November 2026"
	link   = "QR with a Digital Link: GGS 5.12.3.1 as two national GS1 organisations quote it, read November 2026; target likely 0.495"
	matrix = "GGS 5.12.3, two-dimensional symbols; X from memory"
)

// Sizes lists what GS1 asks, one line for each kind and use.
func Sizes() []Size {
	um := func(a, b, c unit.Length) [3]unit.Length {
		return [3]unit.Length{a * unit.UM, b * unit.UM, c * unit.UM}
	}
	return []Size{
		{EAN13, Retail, um(264, 330, 660), um(18280, 22850, 45700), [4]int{11, 0, 7, 0}, "1.5/06/660", guide, false},
		{EAN13, Trade, um(495, 660, 660), um(34280, 45700, 45700), [4]int{11, 0, 7, 0}, "1.5/10/660", guide, false},
		{EAN8, Retail, um(264, 330, 660), um(14580, 18230, 36460), [4]int{7, 0, 7, 0}, "1.5/06/660", guide, false},
		{UPCA, Retail, um(264, 330, 660), um(18280, 22850, 45700), [4]int{9, 0, 9, 0}, "1.5/06/660", guide, false},
		{GS1128, Trade, um(495, 495, 1016), um(31750, 31750, 31750), [4]int{10, 0, 10, 0}, "1.5/10/660", guide, false},
		{ITF14, Trade, um(495, 495, 1016), um(31750, 31750, 31750), [4]int{10, 0, 10, 0}, "1.5/10/660", guide, false},
		{GS1DataMatrix, Retail, um(375, 625, 990), um(0, 0, 0), [4]int{1, 1, 1, 1}, "1.5/08/660", matrix, true},
		{GS1DataMatrix, Trade, um(743, 743, 1500), um(0, 0, 0), [4]int{1, 1, 1, 1}, "1.5/20/660", matrix, true},
		{QR, Retail, um(396, 495, 990), um(0, 0, 0), [4]int{4, 4, 4, 4}, "1.5/08/660", link, false},
		{QR, Trade, um(743, 743, 1500), um(0, 0, 0), [4]int{4, 4, 4, 4}, "1.5/20/660", matrix, true},
	}
}

// SizeOf finds the line for a kind and use.
func SizeOf(kind string, use Use) (Size, bool) {
	for _, s := range Sizes() {
		if s.Kind == kind && s.Use == use {
			return s, true
		}
	}
	return Size{}, false
}

// InRange reports whether x lies within the limits.
func (s Size) InRange(x unit.Length) bool { return s.X[0] <= x && x <= s.X[2] }

// HeightAt is the least height of the bars at module width x, on the straight
// line between the figures that GS1 gives.
func (s Size) HeightAt(x unit.Length) unit.Length {
	i := 0
	if x > s.X[1] {
		i = 1
	}
	span := s.X[i+1] - s.X[i]
	if span == 0 || x <= s.X[i] {
		return s.Height[i]
	}
	return s.Height[i] + (s.Height[i+1]-s.Height[i]).Mul(int64(x-s.X[i]), int64(span))
}
