package market

import (
	"strings"

	"chablon/labels/unit"
)

// Pair is a temperature as a rule states it. Where a rule gives both units,
// they are not converted into each other: 57 °C and 135 °F are one limit, and
// 57 °C is 134.6 °F. Stated tells which of the two the rule names; the other
// is then the exact conversion.
type Pair struct {
	C, F   unit.Temp
	Stated string // "both", "C", "F"
}

// bothUnits is a pair that the rule states in both units, in whole degrees.
func bothUnits(c, f int64) Pair { return Pair{unit.Celsius(c), unit.Fahrenheit(f), "both"} }

func onlyC(c int64) Pair { return Pair{unit.Celsius(c), unit.Celsius(c), "C"} }
func onlyF(f int64) Pair { return Pair{unit.Fahrenheit(f), unit.Fahrenheit(f), "F"} }

// LimitKind says what a limit is about.
type LimitKind string

// The kinds.
const (
	Cooling LimitKind = "cooling"   // from From down to To within Within
	Cold    LimitKind = "cold"      // kept at To or colder
	Hot     LimitKind = "hot"       // kept at To or hotter
	Cooking LimitKind = "cooking"   // core at To or hotter for Hold
	Heating LimitKind = "reheating" // as Cooking, reached within Within
	Frozen  LimitKind = "frozen"    // kept at To or colder
	Keeping LimitKind = "keeping"   // at To or colder for at most Days
	Clock   LimitKind = "clock"     // no control of temperature for at most Within
)

// Limit is one limit of temperature and time.
type Limit struct {
	Key    string
	Kind   LimitKind
	From   *Pair     // where cooling starts
	To     *Pair     // nil where only time counts
	Edge   Edge      // of To: UpTo or From
	Within unit.Span // at most; counted from the start of cooling
	Hold   unit.Span // at least
	Days   int       // day of making is day 1
	Law    bool      // a rule; otherwise advice
	Cite
}

// Met reports whether a reading keeps the limit: its temperature, read in °F
// or in °C, and the time since the start. A food that has not reached the
// limit may still be cooling: the question is asked of the reading that the
// cook writes down as the end of the stage.
func (l Limit) Met(t unit.Temp, inF bool, after unit.Span) bool {
	if l.Within > 0 && after > l.Within {
		return false
	}
	if l.To == nil {
		return true
	}
	bound := l.To.C
	if inF {
		bound = l.To.F
	}
	return l.Edge.holds(compare(int64(t), int64(bound)))
}

// LastDay is the last day on which food made on a day may be used, for a limit
// in days.
func (l Limit) LastDay(made unit.Date) unit.Date { return made.AddDays(l.Days - 1) }

// Limits gives the market's limits of one kind.
func (m *Market) Limits(kind LimitKind) []Limit {
	var some []Limit
	for _, l := range m.Kitchen {
		if l.Kind == kind {
			some = append(some, l)
		}
	}
	return some
}

func cooling(key string, from *Pair, to Pair, within unit.Span, c Cite) Limit {
	return Limit{Key: key, Kind: Cooling, From: from, To: &to, Edge: UpTo, Within: within, Law: true, Cite: c}
}

func keepAt(key string, kind LimitKind, to Pair, edge Edge, c Cite) Limit {
	return Limit{Key: key, Kind: kind, To: &to, Edge: edge, Law: true, Cite: c}
}

func cook(key string, to Pair, hold unit.Span, c Cite) Limit {
	return Limit{Key: key, Kind: Cooking, To: &to, Edge: From, Hold: hold, Law: true, Cite: c}
}

// CoolingIn gives the limits for cooling hot food: the first stage and the
// whole, which are the same where there is one only; false where the market
// names no figures, which does not mean that none are asked for. Of limits of
// member states only those of the kitchen's own country count.
func (m *Market) CoolingIn(country string) (first, whole Limit, ok bool) {
	for _, l := range m.Limits(Cooling) {
		if !l.InForce(country) || l.From == nil || l.To == nil {
			continue
		}
		if !ok || l.To.C > first.To.C {
			first = l
		}
		if !ok || l.To.C < whole.To.C {
			whole = l
		}
		ok = true
	}
	return first, whole, ok
}

// InForce reports whether a limit holds in the country: those of member states
// have its code in front of their key.
func (l Limit) InForce(country string) bool {
	of, _, national := strings.Cut(l.Key, "-")
	return !national || len(of) != 2 || of == strings.ToLower(country)
}
