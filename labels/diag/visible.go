package diag

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Visible is s with every character that cannot be seen, or that could act on a
// terminal, written as its number: control characters (Unicode category Cc),
// format characters (Cf: zero width, direction), line and paragraph separators,
// and bytes that are no UTF-8. Spaces stay. U+001B becomes \u001b.
func Visible(s string) string {
	if !strings.ContainsFunc(s, unseen) && utf8.ValidString(s) {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		switch {
		case r == utf8.RuneError && n == 1:
			fmt.Fprintf(&b, `\x%02x`, s[i])
		case r > 0xffff && unseen(r):
			fmt.Fprintf(&b, `\U%08x`, r)
		case unseen(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
		i += n
	}
	return b.String()
}

func unseen(r rune) bool { return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp) }
