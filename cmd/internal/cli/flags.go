package cli

import (
	"encoding"
	"fmt"
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
	return any(v.to).(encoding.TextUnmarshaler).UnmarshalText([]byte(s))
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
