package unit

import "fmt"

// Error says what is wrong with a written quantity and how to write it. Rule
// is one of the stable names unit, number and date.
type Error struct{ Rule, Msg, Hint string }

// Error gives "message: hint".
func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Msg
	}
	return e.Msg + ": " + e.Hint
}

// Finding gives the parts apart.
func (e *Error) Finding() (rule, msg, hint string) { return e.Rule, e.Msg, e.Hint }

// bad makes an Error about the text s; its format has the verbs for args only.
func bad(rule, s, hint, format string, args ...any) *Error {
	return &Error{rule, quote(s) + fmt.Sprintf(format, args...), hint}
}

// quote puts s in quotes, shortened to what a message can bear.
func quote(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:39]) + "…"
	}
	return fmt.Sprintf("%q", s)
}
