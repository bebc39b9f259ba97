package register

import (
	"errors"
	"fmt"
)

// Rule says why a register refuses; the names are stable.
type Rule string

// The rules.
const (
	Input     Rule = "print-book-input"       // a value that cannot be
	NotPosted Rule = "print-book-not-posted"  // no such copy hangs
	NotBegun  Rule = "print-book-not-begun"   // a series without a first number
	UsedUp    Rule = "print-book-used-up"     // fewer numbers are left than asked for
	NotTaken  Rule = "print-book-not-taken"   // printed numbers that were never given
	Before    Rule = "print-book-before"      // printed numbers that are on paper already
	Twice     Rule = "print-book-twice"       // an asking that was printed already
	Passed    Rule = "print-book-passed"      // numbers below one that was given
	Ended     Rule = "print-book-ended"       // numbers that are void, or applied already
	Withdrawn Rule = "print-book-withdrawn"   // of what may no longer be sold
	Closed    Rule = "print-book-closed"      // used after Close
	Missing   Rule = "print-book-missing"     // no register is there
	There     Rule = "print-book-there"       // something is there already
	Foreign   Rule = "print-book-foreign"     // it is something else
	Newer     Rule = "print-book-newer"       // a newer program wrote it
	Damaged   Rule = "print-book-damaged"     // it cannot be read in full
	Failed    Rule = "print-book-failed"      // the machine says no, and nothing more is known
	Unwritten Rule = "print-book-not-written" // the disk takes nothing more
	Busy      Rule = "print-book-busy"        // another program does not let go of it
)

// Error is a refusal, in words for a cook. Err is the machine's own error
// where there is one.
type Error struct {
	Rule Rule
	Msg  string
	hint string
	Err  error
}

// Refuse makes a refusal; for implementations.
func Refuse(r Rule, hint, format string, args ...any) *Error {
	return &Error{Rule: r, hint: hint, Msg: fmt.Sprintf(format, args...)}
}

// Because gives e its cause.
func (e *Error) Because(err error) *Error {
	e.Err = err
	return e
}

// Error gives the message and, where known, the machine's own words.
func (e *Error) Error() string {
	if e.Err == nil {
		return e.Msg
	}
	return fmt.Sprintf("%s (%v)", e.Msg, e.Err)
}

// Hint says what to do.
func (e *Error) Hint() string { return e.hint }

// Unwrap gives the cause.
func (e *Error) Unwrap() error { return e.Err }

// RuleOf gives the rule of a refusal, or "" for any other error.
func RuleOf(err error) Rule {
	var e *Error
	if errors.As(err, &e) {
		return e.Rule
	}
	return ""
}

// ErrClosed is the refusal of a register that was closed.
func ErrClosed() *Error { return Refuse(Closed, "open it again", "the print book was closed") }
