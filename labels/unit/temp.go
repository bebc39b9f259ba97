package unit

import (
	"fmt"
	"strings"
)

// Temp is a temperature in 1/900 °C above 0 °C. Both 0.01 °C and 0.01 °F are
// whole counts, so no conversion loses anything.
type Temp int64

// TempDiff is a difference of temperatures, in 1/900 K. It is a type of its
// own because 80 °C is 176 °F, but a difference of 2 °C is one of 3.6 °F.
type TempDiff int64

// Steps to multiply with.
const (
	DegC     TempDiff = 900
	DegF     TempDiff = 500
	zeroF             = Temp(-32) * Temp(DegF) // 0 °F
	absolute          = Temp(-27315) * 9       // −273.15 °C
)

// Celsius makes a temperature from whole degrees.
func Celsius(deg int64) Temp { return Temp(deg) * Temp(DegC) }

// Fahrenheit makes a temperature from whole degrees.
func Fahrenheit(deg int64) Temp { return zeroF + Temp(deg)*Temp(DegF) }

// C gives degrees Celsius, for printing and messages only.
func (t Temp) C() float64 { return float64(t) / float64(DegC) }

// F gives degrees Fahrenheit, for printing and messages only.
func (t Temp) F() float64 { return float64(t-zeroF) / float64(DegF) }

// FloorF, CeilF and RoundF give whole degrees Fahrenheit: not above, not
// below, nearest (halves away from zero).
func (t Temp) FloorF() int64 { return floorDiv(int64(t-zeroF), int64(DegF)) }

// CeilF gives the least whole degree Fahrenheit that is not below t.
func (t Temp) CeilF() int64 { return -floorDiv(-int64(t-zeroF), int64(DegF)) }

// RoundF gives the nearest whole degree Fahrenheit.
func (t Temp) RoundF() int64 { return MulDiv(int64(t-zeroF), 1, int64(DegF)) }

// RoundF gives the nearest whole degree Fahrenheit of a difference.
func (d TempDiff) RoundF() int64 { return MulDiv(int64(d), 1, int64(DegF)) }

func floorDiv(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

var temps = measure{"a temperature", "165 °C", true, []string{"°C", "°F"},
	map[string]int64{"°C": int64(DegC), "°F": int64(DegF)}, nil}

// ParseTemp reads "165 °C" or "329 °F".
func ParseTemp(s string) (Temp, error) {
	v, err := temps.parse(s)
	if err != nil {
		return 0, err
	}
	t := Temp(v)
	if strings.HasSuffix(clean(s), "F") {
		t += zeroF
	}
	if !thinkable(t) {
		return 0, bad("number", s, "see whether the unit is right", " is not a temperature that a kitchen has")
	}
	return t, nil
}

func thinkable(t Temp) bool { return t >= absolute && t <= Celsius(2000) }

// UnmarshalText reads a temperature with its unit.
func (t *Temp) UnmarshalText(b []byte) (err error) {
	*t, err = ParseTemp(string(b))
	return err
}

// String gives degrees Celsius: "165 °C".
func (t Temp) String() string { return format(int64(t), int64(DegC)) + " °C" }

// String gives kelvins as degrees Celsius: "3 °C".
func (d TempDiff) String() string { return format(int64(d), int64(DegC)) + " °C" }

// UnmarshalText reads a difference with its unit: "6 °C" or "10.8 °F", which
// are the same.
func (d *TempDiff) UnmarshalText(b []byte) error {
	v, err := temps.parse(string(b))
	if err != nil {
		return err
	}
	if t := Temp(v); !thinkable(t) {
		return bad("number", string(b), "see whether the unit is right", " is not a difference that a kitchen has")
	}
	*d = TempDiff(v)
	return nil
}

// TargetKind says how a temperature is meant.
type TargetKind int

// The kinds of target.
const (
	Exactly TargetKind = iota // 165 °C
	Within                    // 88 ± 3 °C
	Between                   // 12 to 14 °C
	AtMost                    // ≤ 5 °C
	AtLeast                   // ≥ 92 °C
)

// Target is a temperature to reach. Lo and Hi bound it; for Exactly both are
// the same; for AtMost Lo, and for AtLeast Hi, has no meaning. Tol is set for
// Within. InF tells that it was written in °F, so that °F is the exact one.
type Target struct {
	Kind   TargetKind
	Lo, Hi Temp
	Tol    TempDiff
	InF    bool
}

// ParseTarget reads "165 °C", "88 ± 3 °C", "12 to 14 °C", "≤ 5 °C", "≥ 92 °C".
func ParseTarget(s string) (Target, error) {
	c := clean(s)
	t := Target{InF: strings.HasSuffix(c, "F")}
	sign, rest := cutSign(c)
	unit := " °C"
	if t.InF {
		unit = " °F"
	}
	var err error
	switch a, b, op := cutRange(rest); {
	case sign != "" && op == "":
		t.Kind = map[string]TargetKind{"≤": AtMost, "≥": AtLeast}[sign]
		t.Lo, err = ParseTemp(rest)
		t.Hi = t.Lo
	case sign == "" && op == "":
		t.Lo, err = ParseTemp(rest)
		t.Hi = t.Lo
	case sign == "" && op == "±":
		err = t.within(a+unit, b)
	case sign == "" && op == "to":
		t.Kind = Between
		if t.Lo, err = ParseTemp(a + unit); err == nil {
			t.Hi, err = ParseTemp(b)
		}
	default:
		err = fmt.Errorf("too many signs")
	}
	if err == nil && t.Lo > t.Hi {
		err = fmt.Errorf("the range runs backwards")
	}
	if err != nil {
		return Target{}, bad("unit", s, `write it like "165 °C", "88 ± 3 °C", "12 to 14 °C" or "≤ 5 °C"`, " is not a temperature target")
	}
	return t, nil
}

func (t *Target) within(mid, tol string) error {
	m, err := ParseTemp(mid)
	if err != nil {
		return err
	}
	d, err := temps.parse(tol)
	if err != nil || d < 0 {
		return fmt.Errorf("bad tolerance")
	}
	t.Kind, t.Tol = Within, TempDiff(d)
	t.Lo, t.Hi = m-Temp(d), m+Temp(d)
	if !thinkable(t.Lo) || !thinkable(t.Hi) {
		return fmt.Errorf("bad tolerance")
	}
	return nil
}

func cutSign(s string) (sign, rest string) {
	for _, sign := range [][2]string{{"≤", "≤"}, {"≥", "≥"}, {"<=", "≤"}, {">=", "≥"}} {
		if r, ok := strings.CutPrefix(s, sign[0]); ok {
			return sign[1], strings.Trim(r, " ")
		}
	}
	return "", s
}

func cutRange(s string) (a, b, op string) {
	for _, sep := range []string{"±", " to ", "–"} {
		if l, r, ok := strings.Cut(s, sep); ok {
			op = "to"
			if sep == "±" {
				op = sep
			}
			return strings.Trim(l, " "), strings.Trim(r, " "), op
		}
	}
	return s, "", ""
}

// Mid is the middle of the target.
func (t Target) Mid() Temp { return t.Lo + (t.Hi-t.Lo)/2 }

// UnmarshalText reads a target.
func (t *Target) UnmarshalText(b []byte) (err error) {
	*t, err = ParseTarget(string(b))
	return err
}

// String gives the target in °C.
func (t Target) String() string {
	switch t.Kind {
	case Within:
		return fmt.Sprintf("%s ± %s", strings.TrimSuffix(t.Mid().String(), " °C"), t.Tol)
	case Between:
		return fmt.Sprintf("%s to %s", strings.TrimSuffix(t.Lo.String(), " °C"), t.Hi)
	case AtMost:
		return "≤ " + t.Hi.String()
	case AtLeast:
		return "≥ " + t.Lo.String()
	}
	return t.Lo.String()
}
