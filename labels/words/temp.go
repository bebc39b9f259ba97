package words

import (
	"chablon/labels/unit"
)

// Temp gives a temperature target in degrees: "165 °C", "88 ± 3 °C",
// "12 to 14 °C", "≤ 5 °C". With both set the other scale follows in brackets,
// "88 ± 3 °C (190 ± 5 °F)". The scale that was written leads and is exact; the
// other is rounded to whole degrees: a highest or lowest temperature to the
// safe side, ranges outwards, all others to the nearest; a tolerance is at
// least one degree. What must be met is written by [Lang.Limit].
func (l *Lang) Temp(t unit.Target, both bool) string { return l.scales(t, both, l.target) }

// Limit is Temp for a temperature that must be met, as a critical limit or a
// store's: whoever keeps to the rounded figures keeps to the written ones, so
// ranges and tolerances are rounded inwards. Where no whole degree lies
// inside, the figures keep their decimals.
func (l *Lang) Limit(t unit.Target, both bool) string { return l.scales(t, both, l.inside) }

func (l *Lang) scales(t unit.Target, both bool, say func(t unit.Target, inF, lead bool) string) string {
	out := say(t, t.InF, true)
	if both {
		out += noBreak + "(" + say(t, !t.InF, false) + ")"
	}
	return out
}

// inside is target with the bounds of ranges and tolerances rounded inwards.
func (l *Lang) inside(t unit.Target, inF, lead bool) string {
	if lead || t.Kind != unit.Within && t.Kind != unit.Between {
		return l.target(t, inF, lead)
	}
	lo, hi, mid := whole(t.Lo, inF, up), whole(t.Hi, inF, down), whole(t.Mid(), inF, nearest)
	tol := min(mid-lo, hi-mid)
	switch {
	case t.Kind == unit.Between && lo <= hi:
		return l.between(l.Plain(lo, 0), l.Plain(hi, 0)) + noBreak + scale(inF)
	case t.Kind == unit.Within && tol >= 1:
		return l.Plain(mid, 0) + noBreak + "±" + noBreak + l.Plain(tol, 0) + noBreak + scale(inF)
	}
	return l.target(t, inF, true) // nothing whole lies inside
}

func (l *Lang) between(lo, hi string) string {
	return put(l.entries["temp.between"].text, "lo", lo, "hi", hi)
}

// Difference gives a difference of temperatures in whole degrees, with both set
// in the other scale too: "10 °C (18 °F)".
func (l *Lang) Difference(d unit.TempDiff, both bool) string {
	out := l.Plain(unit.MulDiv(int64(d), 1, int64(unit.DegC)), 0) + noBreak + scale(false)
	if both {
		out += noBreak + "(" + l.Plain(unit.MulDiv(int64(d), 1, int64(unit.DegF)), 0) + noBreak + scale(true) + ")"
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
		text = l.between(l.degrees(t.Lo, inF, round(down)), l.degrees(t.Hi, inF, round(up)))
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
	if r == exactly {
		n, per := counts(t, inF)
		return l.hundredths(unit.MulDiv(n, 100, per))
	}
	return l.Plain(whole(t, inF, r), 0)
}

// whole is a temperature in whole degrees. Frozen food is kept at -18 °C and at
// 0 °F, and everybody takes these as one (common practice; 0 °F is -17.8 °C).
func whole(t unit.Temp, inF bool, r rounding) int64 {
	if inF && t == unit.Celsius(-18) {
		return 0
	}
	n, per := counts(t, inF)
	switch r {
	case down:
		return floor(n, per)
	case up:
		return -floor(-n, per)
	}
	return unit.MulDiv(n, 1, per)
}

// counts is a temperature above zero of its scale, and how much a degree is.
func counts(t unit.Temp, inF bool) (n, per int64) {
	if inF {
		return int64(t - unit.Fahrenheit(0)), int64(unit.DegF)
	}
	return int64(t), int64(unit.DegC)
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
