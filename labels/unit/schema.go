package unit

import (
	"regexp"
	"slices"
	"strings"
)

// Pieces of the regular expressions that tell an editor what is accepted.
const (
	blank  = "[ \u00a0\u202f\u2009]"
	space  = blank + "*"
	digits = `[0-9]+(\.[0-9]+)?`
)

// number is the pattern of the number alone.
func (m measure) number() string {
	if m.signed {
		return `[-+−]?` + digits
	}
	return `\+?` + digits
}

// unit is the pattern of the unit alone: the usual names first.
func (m measure) unit() string {
	var more []string
	for name := range m.worth {
		if !slices.Contains(m.names, name) {
			more = append(more, name)
		}
	}
	slices.Sort(more)
	var out []string
	for _, name := range append(slices.Clone(m.names), more...) {
		out = append(out, strings.ReplaceAll(regexp.QuoteMeta(name), " ", space))
	}
	return "(" + strings.Join(out, "|") + ")"
}

func (m measure) pattern() string { return "^" + m.number() + space + m.unit() + "$" }

// Pattern is the regular expression of a mass; Example is one.
func (Mass) Pattern() string { return masses.pattern() }

// Example is a mass as it is written.
func (Mass) Example() string { return masses.example }

// Pattern is the regular expression of a share.
func (Share) Pattern() string { return shares.pattern() }

// Example is a share as it is written.
func (Share) Example() string { return shares.example }

// Pattern is the regular expression of a density.
func (Density) Pattern() string { return densities.pattern() }

// Example is a density as it is written.
func (Density) Example() string { return densities.example }

// Pattern is the regular expression of a length.
func (Length) Pattern() string { return lengths.pattern() }

// Example is a length as it is written.
func (Length) Example() string { return lengths.example }

// Pattern is the regular expression of an area.
func (Area) Pattern() string { return areas.pattern() }

// Example is an area as it is written.
func (Area) Example() string { return areas.example }

// Pattern is the regular expression of a temperature.
func (Temp) Pattern() string { return temps.pattern() }

// Example is a temperature as it is written.
func (Temp) Example() string { return temps.example }

// Pattern is the regular expression of a difference of temperatures.
func (TempDiff) Pattern() string { return temps.pattern() }

// Example is a difference of temperatures as it is written.
func (TempDiff) Example() string { return "6 °C" }

// Pattern is the regular expression of a temperature target.
func (Target) Pattern() string {
	n, u := temps.number(), temps.unit()
	gap := "(±|–|" + blank + "to" + blank + ")"
	return "^((≤|≥|<=|>=)?" + space + n + "|" + n + space + gap + space + n + ")" + space + u + "$"
}

// Example is a temperature target as it is written.
func (Target) Example() string { return "88 ± 3 °C" }

// Pattern is the regular expression of a time.
func (Span) Pattern() string {
	n := spans.number()
	return "^(" + n + space + "h" + blank + space + n + space + "min|" + n + space + spans.unit() + ")$"
}

// Example is a time as it is written.
func (Span) Example() string { return spans.example }

// Pattern is the regular expression of a time of day.
func (Clock) Pattern() string { return `^[0-9]{1,2}:[0-9]{2}$` }

// Example is a time of day as it is written.
func (Clock) Example() string { return "09:00" }

// Pattern is the regular expression of a date.
func (Date) Pattern() string { return `^[0-9]{4}-[0-9]{2}-[0-9]{2}$` }

// Example is a date as it is written.
func (Date) Example() string { return "2026-03-17" }

// Pattern is the regular expression of a shelf life.
func (Life) Pattern() string {
	return "^[0-9]{1,4}" + blank + "(days?|weeks?|months?|years?)$"
}

// Example is a shelf life as it is written.
func (Life) Example() string { return "6 months" }

// Pattern is the regular expression of a number of pieces.
func (Count) Pattern() string { return "^[0-9]+" + space + "(pieces?)?$" }

// Example is a number of pieces as it is written.
func (Count) Example() string { return "24" }

// Pattern is the regular expression of a printer's fineness.
func (Dots) Pattern() string {
	return "^[0-9]+" + space + "(per" + blank + space + "mm|dpi)$"
}

// Example is a printer's fineness as it is written.
func (Dots) Example() string { return "8 per mm" }

// Pattern is the regular expression of a volume.
func (Volume) Pattern() string { return volumes.pattern() }

// Example is a volume as it is written.
func (Volume) Example() string { return volumes.example }
