package unit_test

import (
	"encoding"
	"math/big"
	"regexp"
	"strings"
	"testing"

	"chablon/labels/unit"
)

// written is what every type that can be read offers.
type written interface {
	encoding.TextUnmarshaler
	Pattern() string
	Example() string
}

func all() []written {
	return []written{new(unit.Mass), new(unit.Volume), new(unit.Share), new(unit.Density), new(unit.Length), new(unit.Area),
		new(unit.Temp), new(unit.Target), new(unit.Span), new(unit.Date), new(unit.Life), new(unit.Count), new(unit.Dots)}
}

func TestExamplesAreReadAndMatch(t *testing.T) {
	for _, v := range all() {
		if err := v.UnmarshalText([]byte(v.Example())); err != nil {
			t.Errorf("%T: the example cannot be read: %v", v, err)
		}
		re, err := regexp.Compile(v.Pattern())
		if err != nil {
			t.Errorf("%T: %v", v, err)
		} else if !re.MatchString(v.Example()) {
			t.Errorf("%T: %q does not match %s", v, v.Example(), re)
		}
	}
}

// What an editor underlines must also be refused by the reader, or cooks stop
// believing the editor: nothing that matches the pattern fails for its form.
func TestPatternsAreNotWiderThanTheReader(t *testing.T) {
	for _, s := range []string{"360", "360 xy", "1,5 g", ".5 g", "5. g", "1.2.3 g", "g", "", "--5 g", "5 g g", "1 h 2 h", "1 h 30",
		"88 ± 3", "± 3 °C", "≤ ≥ 5 °C", "2 d", "24 boxes", "2.0", "8 mm", "2026-3-1", "17.03.2026", "1 200 g"} {
		for _, v := range all() {
			refused := v.UnmarshalText([]byte(s)) != nil
			if matches := regexp.MustCompile(v.Pattern()).MatchString(s); matches == refused {
				t.Errorf("%T: %q matches %v, refused %v", v, s, matches, refused)
			}
		}
	}
}

// FuzzRead holds every parser against its pattern and, for plain quantities,
// against math/big of the Go library.
func FuzzRead(f *testing.F) {
	for _, v := range all() {
		f.Add(v.Example())
	}
	for _, s := range []string{"329 °F ", "≤ 5 °C", "12–14 °C", "1 h 30 min", "1,200 g", "0." + strings.Repeat("0", 64) + "1 g",
		"−18 °C", "2.5 μg", "40 % vol", "8 per mm", "9999999999999 kg", "-0 g", "+", "±", "1e9 g", "٣ g"} {
		f.Add(s)
	}
	var patterns []*regexp.Regexp
	for _, v := range all() {
		patterns = append(patterns, regexp.MustCompile(v.Pattern()))
	}
	f.Fuzz(func(t *testing.T, s string) {
		if !unit.Printable(s) {
			return
		}
		for i, v := range all() {
			if v.UnmarshalText([]byte(s)) != nil {
				continue
			}
			if trimmed := strings.TrimSpace(s); !patterns[i].MatchString(trimmed) {
				t.Errorf("%T takes %q, which does not match %s", v, s, patterns[i])
			}
			if m, ok := v.(*unit.Mass); ok {
				exactMass(t, s, *m)
			}
		}
	})
}

func exactMass(t *testing.T, s string, got unit.Mass) {
	i := strings.IndexFunc(s, func(r rune) bool { return r == 'k' || r == 'g' || r == 'm' || r == 'µ' || r == 'μ' || r == 'u' })
	n, ok := new(big.Rat).SetString(strings.Trim(s[:i], " \u00a0\u202f\u2009"))
	worth := map[string]int64{"kg": 1e12, "g": 1e9, "mg": 1e6, "µg": 1e3, "μg": 1e3, "ug": 1e3}[strings.Trim(s[i:], " \u00a0\u202f\u2009")]
	if !ok || worth == 0 {
		t.Fatalf("%q was read as %v", s, got)
	}
	if want := n.Mul(n, big.NewRat(worth, 1)); want.Cmp(big.NewRat(int64(got), 1)) != 0 {
		t.Errorf("%q = %d ng, want %v", s, got, want)
	}
}
