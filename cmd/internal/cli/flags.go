package cli

import (
	"encoding"
	"errors"
	"fmt"
	"strings"

	"chablon/labels/unit"
)

// value is a flag that is read as the shop's files are: with its unit.
type value[T any] struct {
	to   *T
	kind string
}

// textFlag makes a flag of anything that reads itself from text.
func textFlag[T any](to *T, kind string) *value[T] { return &value[T]{to, kind} }

// Set reads the flag.
func (v *value[T]) Set(s string) error {
	if err := any(v.to).(encoding.TextUnmarshaler).UnmarshalText([]byte(s)); err != nil {
		return err
	}
	if n, ok := any(*v.to).(unit.Count); ok && n == 0 {
		return errors.New("nothing can be counted from 0: write 1 or more, or leave it out")
	}
	return nil
}

// String is the value for the help text: nothing, as no such flag has a default.
func (v *value[T]) String() string {
	var zero T
	if v.to == nil || fmt.Sprint(*v.to) == fmt.Sprint(zero) {
		return ""
	}
	return fmt.Sprint(*v.to)
}

// Type is the word for the value in the help text.
func (v *value[T]) Type() string { return v.kind }

// list is a flag of numbers with commas between them.
type list struct{ to *[]unit.Count }

// Set reads the flag.
func (l list) Set(s string) error {
	*l.to = nil
	for part := range strings.SplitSeq(s, ",") {
		n, err := unit.ParseCount(strings.TrimSpace(part))
		if err != nil {
			return err
		}
		*l.to = append(*l.to, n)
	}
	return nil
}

// String is the value for the help text.
func (l list) String() string { return "" }

// Type is the word for the value in the help text.
func (l list) Type() string { return "numbers" }

// clock is a flag of a time of day, counted from midnight.
type clock struct{ to *unit.Span }

// Set reads the flag.
func (c clock) Set(s string) error {
	var h, m int
	hours, minutes, ok := strings.Cut(s, ":")
	_, err := fmt.Sscanf(hours+" "+minutes, "%d %d", &h, &m)
	if !ok || err != nil || len(hours) > 2 || len(minutes) != 2 || h < 0 || m < 0 || m > 59 || h*60+m < 1 || h*60+m > 24*60 {
		return fmt.Errorf("%q is not a time of day like 09:00", s)
	}
	*c.to = unit.Span(h)*unit.Hour + unit.Span(m)*unit.Minute
	return nil
}

// String is the value for the help text.
func (c clock) String() string { return "" }

// Type is the word for the value in the help text.
func (c clock) Type() string { return "time" }
