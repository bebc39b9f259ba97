package shop

import (
	"fmt"
	"strings"

	"chablon/labels/unit"
)

// tenths writes degrees with at most one decimal.
func tenths(deg float64) string {
	s := strings.TrimSuffix(fmt.Sprintf("%.1f", deg), ".0")
	if s == "-0" {
		return "0"
	}
	return s
}

func inC(t unit.Temp) string { return tenths(t.C()) + " °C" }
func inF(t unit.Temp) string { return tenths(t.F()) + " °F" }

// degrees gives both scales: "74 °C (165.2 °F)".
func degrees(t unit.Temp) string { return inC(t) + " (" + inF(t) + ")" }

// span gives a range on both scales, the one that leads first.
func span(lo, hi unit.Temp, leadsF bool) string {
	b := unit.Target{Kind: unit.Between, Lo: lo, Hi: hi, InF: leadsF}
	return bothScales(b)
}

// written gives a target on the scale it was written in.
func written(t unit.Target) string { return on(t, t.InF) }

// bothScales gives a target on the scale it was written in, the other behind.
func bothScales(t unit.Target) string { return on(t, t.InF) + " (" + on(t, !t.InF) + ")" }

func on(t unit.Target, fahrenheit bool) string {
	say, diff, sign := inC, float64(t.Tol)/float64(unit.DegC), " °C"
	if fahrenheit {
		say, diff, sign = inF, float64(t.Tol)/float64(unit.DegF), " °F"
	}
	lo, hi := say(t.Lo), say(t.Hi)
	switch t.Kind {
	case unit.Within:
		return strings.TrimSuffix(say(t.Mid()), sign) + " ± " + tenths(diff) + sign
	case unit.Between:
		return strings.TrimSuffix(lo, sign) + " to " + hi
	case unit.AtMost:
		return "≤ " + hi
	case unit.AtLeast:
		return "≥ " + lo
	}
	return lo
}
