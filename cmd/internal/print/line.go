package print

import (
	"fmt"

	"chablon/labels/gs1"
	"chablon/labels/unit"
)

// A LineError is a value on the command line that cannot be.
type LineError struct{ Msg, Say string }

// Error says what is wrong.
func (e *LineError) Error() string { return e.Msg }

// soundBatch refuses a batch code that a bar code could not carry (GS1 General
// Specifications, AI 10: X..20).
func soundBatch(code string) error {
	switch {
	case code == "" || gs1.Check(gs1.Element{AI: "10", Value: code}) == nil:
		return nil
	case len(code) > 20:
		return &LineError{fmt.Sprintf("the batch code %q has more than 20 characters", code), "use at most 20"}
	}
	return &LineError{fmt.Sprintf("the batch code %q cannot be carried by a bar code", code), "use letters A to Z and a to z, digits, hyphens and points, and no spaces"}
}

// madeBy refuses food that is made after today: its date would promise days
// that it does not have.
func (p *Press) madeBy(day unit.Date) error {
	if !p.Today.Before(day) {
		return nil
	}
	return &LineError{fmt.Sprintf("%s is still to come, and the date counts from the day made", day),
		fmt.Sprintf("print on the day itself, or take it as today: --today %s", day)}
}
