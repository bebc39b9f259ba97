package print

import (
	"fmt"

	"chablon/cmd/internal/usage"
	"chablon/labels/gs1"
	"chablon/labels/unit"
)

// soundBatch refuses a batch code that a bar code could not carry (GS1 General
// Specifications, AI 10: X..20).
func soundBatch(code string) error {
	switch {
	case code == "" || gs1.Check(gs1.Element{AI: "10", Value: code}) == nil:
		return nil
	case len(code) > 20:
		return usage.Errorf("use at most 20", "the batch code %q has more than 20 characters", code)
	}
	return usage.Errorf("use letters A to Z and a to z, digits, hyphens and points, and no spaces", "the batch code %q cannot be carried by a bar code", code)
}

// madeBy refuses food that is made after today: its date would promise days
// that it does not have.
func (p *Press) madeBy(day unit.Date) error {
	if !p.Today.Before(day) {
		return nil
	}
	return usage.Errorf(fmt.Sprintf("print on the day itself, or take it as today: --today %s", day),
		"%s is still to come, and the date counts from the day made", day)
}
