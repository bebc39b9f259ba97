package unit_test

import (
	"regexp"
	"testing"

	"chablon/labels/unit"
)

func TestParseWait(t *testing.T) {
	pattern := regexp.MustCompile(unit.Wait{}.Pattern())
	for _, c := range []struct {
		in          string
		least, most unit.Span
	}{
		{"20 min", 20 * unit.Minute, 20 * unit.Minute}, {"45 to 60 min", 45 * unit.Minute, unit.Hour},
		{"12 to 16 h", 12 * unit.Hour, 16 * unit.Hour}, {"12–16 h", 12 * unit.Hour, 16 * unit.Hour},
		{"30 min to 2 h", 30 * unit.Minute, 2 * unit.Hour}, {"2 h to 2 h 30 min", 2 * unit.Hour, 150 * unit.Minute},
		{"1 h 30 min", 90 * unit.Minute, 90 * unit.Minute},
	} {
		got, err := unit.ParseWait(c.in)
		if err != nil || got != (unit.Wait{Least: c.least, Most: c.most}) || !pattern.MatchString(c.in) {
			t.Errorf("%s: %v, %v, for editors %v", c.in, got, err, pattern.MatchString(c.in))
		}
		if again, err := unit.ParseWait(got.String()); err != nil || again != got {
			t.Errorf("%s is written %s and read %v, %v", c.in, got, again, err)
		}
	}
	for _, bad := range []string{"", "45", "45 to 60", "60 to 45 min", "45 ± 5 min", "45 to 45 min", "45 min to 60", "-5 to 10 min", "soon"} {
		if got, err := unit.ParseWait(bad); err == nil {
			t.Errorf("%q is read as %s", bad, got)
		}
	}
}

func TestParseExtent(t *testing.T) {
	pattern := regexp.MustCompile(unit.Extent{}.Pattern())
	for in, want := range map[string]string{"300 × 400 × 10 mm": "300 × 400 × 10 mm", "30x110 mm": "30 × 110 mm", "2.5 mm × 4 cm": "2.5 × 40 mm"} {
		got, err := unit.ParseExtent(in)
		if err != nil || got.String() != want || !pattern.MatchString(in) {
			t.Errorf("%s: %s, %v, for editors %v", in, got, err, pattern.MatchString(in))
		}
	}
	for _, bad := range []string{"", "30 mm", "30 × 40", "1 × 2 × 3 × 4 mm", "0 × 4 mm", "30 × tall mm"} {
		if got, err := unit.ParseExtent(bad); err == nil {
			t.Errorf("%q is read as %s", bad, got)
		}
	}
}
