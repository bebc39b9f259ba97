package register

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// longest is how many bytes one text in a register may have.
const longest = 200

// fields checks the texts of one entry; the first fault stays.
type fields struct{ err *Error }

func (f *fields) refuse(hint, format string, args ...any) {
	if f.err == nil {
		f.err = Refuse(Input, hint, format, args...)
	}
}

// text is s with single spaces; it may be empty.
func (f *fields) text(what, s string) string {
	bad := func(r rune) bool { return unicode.IsControl(r) && !unicode.IsSpace(r) }
	switch {
	case !utf8.ValidString(s) || strings.ContainsFunc(s, bad):
		f.refuse("write it with letters and figures", "%s %q has signs that cannot be printed", what, s)
	case len(s) > longest:
		f.refuse("shorten it", "%s is longer than %d letters", what, longest)
	}
	return strings.Join(strings.Fields(s), " ")
}

// must is text that may not be empty.
func (f *fields) must(what, s string) string {
	s = f.text(what, s)
	if s == "" {
		f.refuse("say "+what, "%s is missing", what)
	}
	return s
}

// words is a list of words without commas.
func (f *fields) words(what string, list []string) []string {
	var out []string
	for _, s := range list {
		if s = f.must(what, s); strings.Contains(s, ",") {
			f.refuse("give them one by one", "%s %q has a comma", what, s)
		}
		out = append(out, s)
	}
	return out
}

// day is an ISO 8601 day, or "".
func (f *fields) day(what, s string) string {
	if _, err := time.Parse(time.DateOnly, s); s != "" && err != nil {
		f.refuse(`write year, month and day like "2026-03-17"`, "%s %q is not a day", what, s)
	}
	return s
}

// moment is t in UTC, in whole seconds.
func (f *fields) moment(t time.Time) time.Time {
	t = t.UTC().Truncate(time.Second)
	if t.Year() < 1970 || t.Year() > 9999 {
		f.refuse("set the clock of this machine", "the year %d cannot be", t.Year())
	}
	return t
}

// done is the first fault as an error.
func (f *fields) done() error {
	if f.err == nil {
		return nil
	}
	return f.err
}

// Text is s with single spaces, or the refusal of a text that no register keeps:
// one with signs that cannot be printed, or too long. The error is an [*Error].
func Text(what, s string) (string, error) {
	var f fields
	s = f.text(what, s)
	return s, f.done()
}

// Moment is a moment as registers keep it: UTC, in whole seconds. The error is
// an [*Error].
func Moment(t time.Time) (time.Time, error) {
	var f fields
	t = f.moment(t)
	return t, f.done()
}
