package print

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

const (
	wide   = 88 // characters in a line of an answer
	column = 12 // characters before what stands behind a heading
)

// sheet is an answer in plain text.
type sheet struct{ b strings.Builder }

func (s *sheet) String() string { return s.b.String() }

func (s *sheet) line(format string, args ...any) {
	s.b.WriteString(strings.TrimRight(fmt.Sprintf(format, args...), " "))
	s.b.WriteByte('\n')
}

// entry writes a heading and what it is about, broken into lines that hang
// below its beginning.
func (s *sheet) entry(indent, what, text string) {
	head := indent + what + strings.Repeat(" ", max(1, column-utf8.RuneCountInString(what)))
	hang := strings.Repeat(" ", utf8.RuneCountInString(head))
	for _, l := range broken(text, wide-len(hang)) {
		s.line("%s%s", head, l)
		head = hang
	}
}

// item writes a text behind an indent, broken into lines that hang two
// characters deeper. A place in a file stands behind it, on a line of its own
// where it does not fit, and is never broken.
func (s *sheet) item(indent, text string, place ...string) {
	lines := broken(text, wide-len(indent)-2)
	for _, p := range place {
		last := len(lines) - 1
		switch {
		case p == "":
		case utf8.RuneCountInString(lines[last]+p)+4 > wide-len(indent):
			lines = append(lines, p)
		default:
			lines[last] += "  " + p
		}
	}
	for i, l := range lines {
		if i == 1 {
			indent += "  "
		}
		s.line("%s%s", indent, l)
	}
}

// broken breaks a text at its spaces into lines of at most n characters; a
// longer word has a line of its own. No-break spaces do not break, and a unit
// stays with its number.
func broken(text string, n int) []string {
	var out []string
	line, used := "", 0
	for _, w := range pieces(text) {
		size := utf8.RuneCountInString(w)
		switch {
		case line == "":
			line, used = w, size
		case used+1+size > n:
			out = append(out, line)
			line, used = w, size
		default:
			line, used = line+" "+w, used+1+size
		}
	}
	return append(out, line)
}

// pieces are the words of a text, numbers together with their units.
func pieces(text string) []string {
	var out []string
	for w := range strings.SplitSeq(text, " ") {
		last := len(out) - 1
		unit := slices.Contains([]string{"g", "kg", "%", "mg/kg", "days"}, strings.Trim(w, ".,:;()"))
		if unit && last >= 0 && endsInDigit(out[last]) {
			out[last] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInDigit(s string) bool { return s != "" && s[len(s)-1] >= '0' && s[len(s)-1] <= '9' }
