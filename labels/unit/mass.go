package unit

import "strings"

// Mass counts nanograms. The largest mass is about nine million kilograms.
type Mass int64

// Masses to multiply with.
const (
	Nanogram  Mass = 1
	Microgram Mass = 1000
	Milligram Mass = 1_000_000
	Gram      Mass = 1_000_000_000
	Kilogram  Mass = 1000 * Gram
)

var masses = measure{"a mass", "360 g", false, []string{"kg", "g", "mg", "µg"},
	map[string]int64{"kg": int64(Kilogram), "g": int64(Gram), "mg": int64(Milligram),
		"µg": int64(Microgram), "μg": int64(Microgram), "ug": int64(Microgram)}, []string{"g", "mg"}}

// ParseMass reads "360 g", "1.2 kg", "6 mg".
func ParseMass(s string) (Mass, error) {
	v, err := masses.parse(s)
	return Mass(v), err
}

// UnmarshalText reads a mass with its unit.
func (m *Mass) UnmarshalText(b []byte) (err error) {
	*m, err = ParseMass(string(b))
	return err
}

// Grams gives the mass in grams, for printing and messages only.
func (m Mass) Grams() float64 { return float64(m) / float64(Gram) }

// Mul returns m×n÷d through 128 bits, rounded; d must not be zero.
func (m Mass) Mul(n, d Mass) Mass { return Mass(MulDiv(int64(m), int64(n), int64(d))) }

// Of returns the given share of m.
func (m Mass) Of(s Share) Mass { return Mass(MulDiv(int64(m), int64(s), int64(Whole))) }

// In returns m as a share of whole; whole must not be zero.
func (m Mass) In(whole Mass) Share { return Share(MulDiv(int64(m), int64(Whole), int64(whole))) }

// Round rounds m to the nearest multiple of step, halves up.
func (m Mass) Round(step Mass) Mass { return Mass(MulDiv(int64(m), 1, int64(step))) * step }

// String gives grams: "360 g".
func (m Mass) String() string { return format(int64(m), int64(Gram)) + " g" }

// Share counts parts per billion: a percentage, mg/kg, or a yield.
type Share int64

// Shares to multiply with.
const (
	Whole   Share = 1_000_000_000
	Percent Share = Whole / 100
	MgPerKg Share = Whole / 1_000_000
)

var shares = measure{"a share", "12.5 %", true, []string{"%", "mg/kg", "g/kg"},
	map[string]int64{"%": int64(Percent), "mg/kg": int64(MgPerKg), "g/kg": int64(Whole) / 1000,
		"% vol": int64(Percent), "%vol": int64(Percent)}, nil}

// ParseShare reads "12.5 %", "150 mg/kg", "40 % vol".
func ParseShare(s string) (Share, error) {
	v, err := shares.parse(s)
	return Share(v), err
}

// UnmarshalText reads a share with its unit.
func (s *Share) UnmarshalText(b []byte) (err error) {
	*s, err = ParseShare(string(b))
	return err
}

// Percent gives the share in percent, for printing and messages only.
func (s Share) Percent() float64 { return float64(s) / float64(Percent) }

// String gives percent: "12.5 %".
func (s Share) String() string { return format(int64(s), int64(Percent)) + " %" }

// Density counts nanograms per millilitre.
type Density int64

var densities = measure{"a density", "1.03 kg/l", false, []string{"kg/l", "g/ml"},
	map[string]int64{"kg/l": int64(Gram), "g/ml": int64(Gram)}, nil}

// ParseDensity reads "1.03 kg/l"; the result counts nanograms per millilitre.
func ParseDensity(s string) (Density, error) {
	v, err := densities.parse(s)
	return Density(v), err
}

// UnmarshalText reads a density with its unit.
func (d *Density) UnmarshalText(b []byte) (err error) {
	*d, err = ParseDensity(string(b))
	return err
}

// String gives "1.03 kg/l".
func (d Density) String() string { return format(int64(d), int64(Gram)) + " kg/l" }

// Count is a number of pieces, packs or boxes.
type Count int64

// ParseCount reads a whole number up to a thousand million, alone or followed
// by "pieces".
func ParseCount(s string) (Count, error) {
	num, rest := splitNumber(clean(s))
	if thousands(strings.ReplaceAll(num, ",", ".")) {
		return 0, bad("number", s, "write "+strings.NewReplacer(".", "", ",", "").Replace(num)+", if that is meant", " is not a whole number")
	}
	v, err := decimal(s, num, 1)
	if err != nil || num == "" || strings.Trim(num, "0123456789") != "" || rest != "" && rest != "pieces" && rest != "piece" {
		return 0, bad("number", s, `write it like "24"`, " is not a whole number")
	}
	if v > 1_000_000_000 {
		return 0, bad("number", s, "write a smaller number", " is too many")
	}
	return Count(v), nil
}

// UnmarshalText reads a whole number.
func (c *Count) UnmarshalText(b []byte) (err error) {
	*c, err = ParseCount(string(b))
	return err
}
