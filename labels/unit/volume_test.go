package unit_test

import (
	"testing"

	"chablon/labels/unit"
)

func TestVolume(t *testing.T) {
	for _, c := range []struct {
		in   string
		want unit.Volume
		out  string
	}{
		{"250 ml", 250 * unit.Millilitre, "250 ml"},
		{"75 cl", 750 * unit.Millilitre, "750 ml"},
		{"1.5 l", 1500 * unit.Millilitre, "1500 ml"},
		{"0.5 mL", unit.Millilitre / 2, "0.5 ml"},
	} {
		var v unit.Volume
		if err := v.UnmarshalText([]byte(c.in)); err != nil || v != c.want || v.String() != c.out {
			t.Errorf("%q = %v (%v), want %v", c.in, v, err, c.out)
		}
	}
	for _, bad := range []string{"250", "250 g", "1,5 l", "", "ml"} {
		if v, err := unit.ParseVolume(bad); err == nil {
			t.Errorf("%q was read as %v", bad, v)
		}
	}
}

// 40 % vol rum at 0.948 kg/l: the mass of a litre is the density.
func TestVolumeMass(t *testing.T) {
	d, err := unit.ParseDensity("0.948 kg/l")
	if err != nil {
		t.Fatal(err)
	}
	if got := (20 * unit.Millilitre).Mass(d); got.String() != "18.96 g" {
		t.Errorf("20 ml at 0.948 kg/l = %v, want 18.96 g", got)
	}
}
