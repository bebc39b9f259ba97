// Package usage answers: what is wrong with what was asked for?
//
// It is the one type for mistakes on the command line: a whole sentence, and
// what to do. What is wrong in the shop's files is a finding of package diag,
// what is wrong with the machine any other error.
package usage

import (
	"fmt"
	"strings"

	"chablon/labels/diag"
)

// Error is a request that cannot be met. Msg is a sentence that starts in
// lower case and has no full stop; Hint says what to do, or is empty.
type Error struct{ Msg, Hint string }

// Error gives the sentence.
func (e *Error) Error() string { return e.Msg }

// Errorf makes an error from its hint and its sentence.
func Errorf(hint, format string, args ...any) *Error {
	return &Error{Msg: fmt.Sprintf(format, args...), Hint: hint}
}

// Unknown is a name that nothing bears, such as a product's. The hint proposes
// the one of known that may have been meant, or lists them.
func Unknown(what, name string, known []string) *Error {
	e := Errorf("", "there is no %s %q", what, name)
	if near := diag.Nearest(name, known); near != "" {
		e.Hint = "did you mean " + near + "?"
	} else if len(known) > 0 {
		e.Hint = "one of " + strings.Join(known, ", ")
	}
	return e
}
