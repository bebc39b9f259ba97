package cli

import (
	"fmt"
	"io"
	"unicode"
	"unicode/utf8"
)

// A screen is a way out on which nothing can act on a terminal: whatever a
// shop's files, names of files or the register hold, control characters other
// than line end and tab, characters that turn the direction of writing, and
// bytes that are no text are written as their numbers. The numbers are those of
// JSON (RFC 8259, section 7), so that JSON stays what it was.
type screen struct {
	to   io.Writer
	rest []byte // beginning of a character whose end is still to come
}

// Write implements [io.Writer].
func (s *screen) Write(data []byte) (int, error) {
	var out []byte
	in := append(s.rest, data...)
	for len(in) > 0 && utf8.FullRune(in) {
		r, n := utf8.DecodeRune(in)
		switch {
		case r == utf8.RuneError && n == 1:
			out = fmt.Appendf(out, `\u%04x`, in[0])
		case acts(r):
			out = fmt.Appendf(out, `\u%04x`, r)
		default:
			out = append(out, in[:n]...)
		}
		in = in[n:]
	}
	s.rest = append([]byte(nil), in...)
	if _, err := s.to.Write(out); err != nil {
		return 0, err
	}
	return len(data), nil
}

// acts reports whether a character does something on a screen besides being
// seen. Directions: Unicode Standard Annex #9, section 2.
func acts(r rune) bool {
	switch {
	case r == '\n' || r == '\t':
		return false
	case r == 0x061c || r == 0x200e || r == 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069:
		return true
	}
	return unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp)
}
