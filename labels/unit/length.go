package unit

import (
	"fmt"
	"strings"
)

// Length counts nanometres.
type Length int64

// Lengths to multiply with. Point is 1/72 inch, rounded to the nanometre.
const (
	NM    Length = 1
	UM    Length = 1000
	MM    Length = 1_000_000
	CM    Length = 10 * MM
	Inch  Length = 25_400_000
	Point Length = 352_778
)

var lengths = measure{"a length", "12.5 mm", true, []string{"mm", "cm", "m", "in"},
	map[string]int64{"mm": int64(MM), "cm": int64(CM), "m": 1000 * int64(MM), "in": int64(Inch)}, nil}

// ParseLength reads "12.5 mm", "1 in".
func ParseLength(s string) (Length, error) {
	v, err := lengths.parse(s)
	return Length(v), err
}

// UnmarshalText reads a length with its unit.
func (l *Length) UnmarshalText(b []byte) (err error) {
	*l, err = ParseLength(string(b))
	return err
}

// MM gives the length in millimetres, for drawing and messages only.
func (l Length) MM() float64 { return float64(l) / float64(MM) }

// Pt gives the length in points (1/72 in), for drawing only.
func (l Length) Pt() float64 { return float64(l) * 72 / float64(Inch) }

// Mul returns l×n÷d, rounded.
func (l Length) Mul(n, d int64) Length { return Length(MulDiv(int64(l), n, d)) }

// String gives millimetres: "12.5 mm".
func (l Length) String() string { return format(int64(l), int64(MM)) + " mm" }

// Pts makes a length from a font size in points; 7.5 becomes 2.645833 mm.
func Pts(pt float64) Length { return Length(pt*float64(Inch)/72 + 0.5) }

// Area counts square micrometres.
type Area int64

// Areas to multiply with.
const (
	MM2 Area = 1_000_000
	CM2 Area = 100 * MM2
	In2 Area = 645_160_000
)

var areas = measure{"an area", "96 cm²", false, []string{"cm²", "cm2", "mm²", "mm2"},
	map[string]int64{"cm²": int64(CM2), "cm2": int64(CM2), "mm²": int64(MM2), "mm2": int64(MM2)}, nil}

// ParseArea reads "96 cm²".
func ParseArea(s string) (Area, error) {
	v, err := areas.parse(s)
	return Area(v), err
}

// UnmarshalText reads an area with its unit.
func (a *Area) UnmarshalText(b []byte) (err error) {
	*a, err = ParseArea(string(b))
	return err
}

// AreaOf is the area of a rectangle.
func AreaOf(w, h Length) Area { return Area(MulDiv(int64(w), int64(h), 1_000_000)) }

// String gives square centimetres: "96 cm²".
func (a Area) String() string { return format(int64(a), int64(CM2)) + " cm²" }

// Dots is the fineness of a printer: N dots on each length Per. The zero Dots
// means "not known, or fine enough not to matter".
type Dots struct {
	N   int64
	Per Length
}

// ParseDots reads "8 per mm" or "300 dpi".
func ParseDots(s string) (Dots, error) {
	num, rest := splitNumber(clean(s))
	n, err := decimal(s, num, 1)
	per := map[string]Length{"per mm": MM, "dpi": Inch}[strings.Join(strings.Fields(rest), " ")]
	if num == "" || strings.Trim(num, "0123456789") != "" || err != nil || n < 1 || n > 10_000 || per == 0 {
		return Dots{}, bad("unit", s, `write it like "8 per mm" or "300 dpi"`, " is not a printer fineness")
	}
	return Dots{n, per}, nil
}

// UnmarshalText reads "8 per mm".
func (d *Dots) UnmarshalText(b []byte) (err error) {
	*d, err = ParseDots(string(b))
	return err
}

// At is the distance of n dots from the edge; 0 without dots.
func (d Dots) At(n int64) Length {
	if d.N == 0 {
		return 0
	}
	return d.Per.Mul(n, d.N)
}

// Floor is how many whole dots fit into l: the largest n for which At(n) is
// not above l. l must not be negative; without dots it is 0.
func (d Dots) Floor(l Length) int64 {
	if d.N == 0 {
		return 0
	}
	n := MulDiv(int64(l), d.N, int64(d.Per))
	if d.At(n) > l {
		n--
	}
	return n
}

// Snap moves l to the nearest whole dot; without dots it returns l.
func (d Dots) Snap(l Length) Length {
	if d.N == 0 {
		return l
	}
	return d.At(MulDiv(int64(l), d.N, int64(d.Per)))
}

// String gives "8 per mm" or "300 dpi".
func (d Dots) String() string {
	if d.Per == Inch {
		return fmt.Sprintf("%d dpi", d.N)
	}
	return fmt.Sprintf("%d per mm", d.N)
}
