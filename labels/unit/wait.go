package unit

import (
	"fmt"
	"strings"
)

// Wait is how long something waits: at least Least, at most Most. A time that
// was written without a range has both the same.
type Wait struct{ Least, Most Span }

// Waits is a wait of exactly so long.
func Waits(s Span) Wait { return Wait{s, s} }

// Ranges reports whether the wait is a range.
func (w Wait) Ranges() bool { return w.Least != w.Most }

// Plus is one wait after the other.
func (w Wait) Plus(v Wait) Wait { return Wait{w.Least + v.Least, w.Most + v.Most} }

// ParseWait reads "20 min", "45 to 60 min", "12 to 16 h", "30 min to 2 h". A
// range that falls, or is none, is an error.
func ParseWait(s string) (Wait, error) {
	const hint = `write it like "20 min", "45 to 60 min" or "12 to 16 h"`
	a, b, op := cutRange(clean(s))
	if op == "" {
		t, err := ParseSpan(s)
		return Waits(t), err
	}
	to, err := ParseSpan(b)
	if err != nil || op != "to" {
		return Wait{}, bad("unit", s, hint, " is not a time to wait")
	}
	if _, u := splitNumber(a); strings.TrimSpace(u) == "" {
		_, unit := splitNumber(strings.TrimSpace(b))
		a += " " + strings.TrimSpace(unit)
	}
	from, err := ParseSpan(a)
	switch {
	case err != nil:
		return Wait{}, bad("unit", s, hint, " is not a time to wait")
	case from >= to:
		return Wait{}, bad("range", s, "write the shorter time first", " is a range that does not rise")
	}
	return Wait{from, to}, nil
}

// UnmarshalText reads a time or a range of times with its unit.
func (w *Wait) UnmarshalText(b []byte) (err error) {
	*w, err = ParseWait(string(b))
	return err
}

// String gives "20 min" or "45 min to 1 h".
func (w Wait) String() string {
	if !w.Ranges() {
		return w.Least.String()
	}
	return fmt.Sprintf("%s to %s", w.Least, w.Most)
}

// Pattern is the regular expression of a wait.
func (Wait) Pattern() string {
	one := strings.Trim(Span(0).Pattern(), "^$")
	return "^(" + one + "|" + spans.number() + "(" + space + spans.unit() + ")?" + "(" + space + "–" + space + "|" + blank + "to" + blank + ")" + one + ")$"
}

// Example is a wait as it is written.
func (Wait) Example() string { return "45 to 60 min" }

// Extent is a size in two or three directions, as of a frame: width, length
// and, where it was written, height.
type Extent struct{ W, L, H Length }

// ParseExtent reads "300 × 400 mm" or "300 × 400 × 10 mm"; x may stand for the
// cross.
func ParseExtent(s string) (Extent, error) {
	fault := bad("size", s, `write it like "300 × 400 × 10 mm"`, " is not a size in two or three directions")
	parts := strings.Split(strings.ReplaceAll(clean(s), "x", "×"), "×")
	if len(parts) < 2 || len(parts) > 3 {
		return Extent{}, fault
	}
	_, unit := splitNumber(strings.TrimSpace(parts[len(parts)-1]))
	var all [3]Length
	for i, p := range parts {
		p = strings.TrimSpace(p)
		if _, own := splitNumber(p); strings.TrimSpace(own) == "" {
			p += " " + strings.TrimSpace(unit)
		}
		l, err := ParseLength(p)
		if err != nil || l <= 0 {
			return Extent{}, fault
		}
		all[i] = l
	}
	return Extent{all[0], all[1], all[2]}, nil
}

// UnmarshalText reads a size with its unit.
func (e *Extent) UnmarshalText(b []byte) (err error) {
	*e, err = ParseExtent(string(b))
	return err
}

// String gives "300 × 400 × 10 mm".
func (e Extent) String() string {
	mm := func(l Length) string { return format(int64(l), int64(MM)) }
	s := mm(e.W) + " × " + mm(e.L)
	if e.H > 0 {
		s += " × " + mm(e.H)
	}
	return s + " mm"
}

// Pattern is the regular expression of a size.
func (Extent) Pattern() string {
	n, u := lengths.number(), lengths.unit()
	cross := space + "[×x]" + space
	return "^" + n + "(" + space + u + ")?" + cross + n + "(" + space + u + ")?" + "(" + cross + n + ")?" + space + u + "$"
}

// Example is a size as it is written.
func (Extent) Example() string { return "300 × 400 × 10 mm" }
