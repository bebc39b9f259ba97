package words

import (
	"chablon/labels/unit"
)

// Temp gives a temperature target in degrees: "165 °C", "88 ± 3 °C",
// "12 to 14 °C", "≤ 5 °C". With both set the other scale follows in brackets,
// "88 ± 3 °C (190 ± 5 °F)". The scale that was written leads and is exact; the
// other is rounded to whole degrees: limits inwards (to the safe side), ranges
// outwards, all others to the nearest; a tolerance is at least one degree.
func (l *Lang) Temp(t unit.Target, both bool) string {
	out := l.target(t, t.InF, true)
	if both {
		out += noBreak + "(" + l.target(t, !t.InF, false) + ")"
	}
	return out
}

// TempPair gives a pair of temperatures that a rule states in both scales, as
// stated: "≤ 5 °C (41 °F)". The sign is "≤", "≥" or empty.
func (l *Lang) TempPair(sign string, c, f unit.Temp) string {
	if sign != "" {
		sign += noBreak
	}
	return sign + l.degrees(c, false, exactly) + noBreak + "°C" +
		noBreak + "(" + l.degrees(f, true, exactly) + noBreak + "°F)"
}

// rounding says how a temperature becomes whole degrees.
type rounding int

const (
	exactly rounding = iota
	nearest
	down
	up
)

// target gives a target in one scale; the leading one carries the sign.
func (l *Lang) target(t unit.Target, inF, lead bool) string {
	round := func(r rounding) rounding {
		if lead {
			return exactly
		}
		return r
	}
	sign, text := "", ""
	switch t.Kind {
	case unit.AtMost:
		sign, text = "≤", l.degrees(t.Hi, inF, round(down))
	case unit.AtLeast:
		sign, text = "≥", l.degrees(t.Lo, inF, round(up))
	case unit.Within:
		text = l.degrees(t.Mid(), inF, round(nearest)) + noBreak + "±" + noBreak + l.tolerance(t.Tol, inF, lead)
	case unit.Between:
		text = put(l.entries["temp.between"].text,
			"lo", l.degrees(t.Lo, inF, round(down)), "hi", l.degrees(t.Hi, inF, round(up)))
	default:
		text = l.degrees(t.Lo, inF, round(nearest))
	}
	if sign != "" && lead {
		text = sign + noBreak + text
	}
	return text + noBreak + scale(inF)
}

func scale(inF bool) string {
	if inF {
		return "°F"
	}
	return "°C"
}

// degrees gives a temperature in degrees without the unit. Exactly keeps up to
// two decimals.
func (l *Lang) degrees(t unit.Temp, inF bool, r rounding) string {
	n, per := int64(t), int64(unit.DegC)
	if inF {
		n, per = int64(t-unit.Fahrenheit(0)), int64(unit.DegF)
	}
	switch r {
	case nearest:
		return l.Plain(unit.MulDiv(n, 1, per), 0)
	case down:
		return l.Plain(floor(n, per), 0)
	case up:
		return l.Plain(-floor(-n, per), 0)
	}
	return l.hundredths(unit.MulDiv(n, 100, per))
}

// tolerance gives a difference of temperatures without the unit.
func (l *Lang) tolerance(d unit.TempDiff, inF, lead bool) string {
	per := int64(unit.DegC)
	if inF {
		per = int64(unit.DegF)
	}
	if lead {
		return l.hundredths(unit.MulDiv(int64(d), 100, per))
	}
	return l.Plain(max(1, unit.MulDiv(int64(d), 1, per)), 0)
}

// hundredths prints n/100 without idle zeros.
func (l *Lang) hundredths(n int64) string {
	decimals := 2
	for decimals > 0 && n%10 == 0 {
		n /= 10
		decimals--
	}
	return l.Plain(n, decimals)
}

func floor(a, b int64) int64 {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
