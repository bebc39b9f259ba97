// Package practice answers: how warm is that usually?
//
// It knows the usual ranges of temperature in the work of a pastry kitchen,
// each with its source, and tells how far a figure lies outside of them. They
// catch slips of the pen, a wrong unit above all; they are no promise that food
// is safe. What the law asks stands in labels/market.
package practice

import (
	"math"
	"slices"

	"chablon/labels/unit"
)

// Part is which temperature of a step is meant.
type Part string

// The parts of a step that have a temperature.
const (
	AtSet   Part = "set"
	AtReach Part = "reach"
	AtCore  Part = "core"
	AtLimit Part = "limit"
)

// Band is a usual range of temperature in one kind of work.
type Band struct {
	Of     string // what is worked on; "" for whatever it is
	Kinds  []string
	Part   Part
	Lo, Hi unit.Temp
	Hold   unit.Span // least time, where the band is worth nothing without it
	Must   bool      // outside of it nothing is printed without a written reason
	What   string
	Source string
}

// Holds reports whether the whole target lies in the band.
func (b Band) Holds(t unit.Target) bool {
	lo, hi := ends(t)
	return lo >= b.Lo && hi <= b.Hi
}

// ends are the temperatures that a target names.
func ends(t unit.Target) (lo, hi unit.Temp) {
	if t.Kind == unit.AtMost {
		return t.Hi, t.Hi
	}
	if t.Kind == unit.AtLeast {
		return t.Lo, t.Lo
	}
	return t.Lo, t.Hi
}

// far is how far the target is outside of the band.
func (b Band) far(t unit.Target) unit.Temp {
	lo, hi := ends(t)
	return max(b.Lo-lo, hi-b.Hi, 0)
}

// For gives the bands that a temperature of a step is held against: those
// of any such work, and those of what is worked on.
func For(kind, of string, part Part) (any, own []Band) {
	for _, b := range Bands() {
		switch {
		case b.Part != part || !slices.Contains(b.Kinds, kind):
		case b.Of == "":
			any = append(any, b)
		case b.Of == of:
			own = append(own, b)
		}
	}
	return any, own
}

// Sanity holds a temperature of a step against the usual ranges. It gives the
// nearest band where the target is in none of them; ok where it is in one, or
// where no range is known.
func Sanity(kind, of string, part Part, t unit.Target) (nearest Band, ok bool) {
	any, own := For(kind, of, part)
	for _, bands := range [][]Band{any, own} {
		if len(bands) == 0 || slices.ContainsFunc(bands, func(b Band) bool { return b.Holds(t) }) {
			continue
		}
		return slices.MinFunc(bands, func(a, b Band) int { return int(a.far(t) - b.far(t)) }), false
	}
	return Band{}, true
}

// OtherScale is the target with its figures read on the other scale: 165 °F as
// 165 °C. False where that is no temperature.
func OtherScale(t unit.Target) (unit.Target, bool) {
	u := t
	u.InF = !t.InF
	for _, v := range []*unit.Temp{&u.Lo, &u.Hi} {
		figures := v.C()
		if t.InF {
			figures = v.F()
		}
		tenths := int64(math.Round(figures * 10))
		if *v = unit.Temp(tenths) * unit.Temp(unit.DegC) / 10; u.InF {
			*v = unit.Fahrenheit(0) + unit.Temp(tenths)*unit.Temp(unit.DegF)/10
		}
	}
	return u, u.Lo > unit.Celsius(-60) && u.Hi < unit.Celsius(400)
}
