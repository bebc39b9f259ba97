// Package diag answers: where is it wrong, and what now?
//
// Every value that comes from a file keeps its place ([At]); every finding
// ([Diag]) says what is wrong, where, by which rule, and what to do. Findings
// are gathered in a [List], so that nothing stops at the first mistake.
package diag

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// Pos is a place in a file. Line and Col count from 1, Col in characters.
// The zero Pos means "no place known".
type Pos struct {
	File      string
	Line, Col int
}

// Known reports whether p names a file.
func (p Pos) Known() bool { return p.File != "" }

// String gives file:line:col, or file alone, or "-" for the zero Pos.
func (p Pos) String() string {
	switch {
	case !p.Known():
		return "-"
	case p.Line == 0:
		return p.File
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Compare orders places by file, line and column.
func (p Pos) Compare(q Pos) int {
	return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
}

// At is a value with the place it was read from.
type At[T any] struct {
	V   T
	Pos Pos
}

// Set reports whether the value was written in a file.
func (a At[T]) Set() bool { return a.Pos.Known() }

// Diag is one finding. Msg starts in lower case and has no full stop; Rule is
// a stable name in lower case with hyphens; Hint says what to do.
type Diag struct {
	Pos     Pos
	Warning bool
	Rule    string
	Msg     string
	Hint    string
}

// String gives "file:line:col: error: message [rule]", or caution: in place of
// error:, and the hint on a second line. Whatever stands in a file or its name,
// it is two lines at most, of characters that can be seen.
func (d Diag) String() string {
	kind := "error"
	if d.Warning {
		kind = "caution"
	}
	s := Visible(fmt.Sprintf("%s: %s: %s [%s]", d.Pos, kind, d.Msg, d.Rule))
	if d.Hint != "" {
		s += "\n  hint: " + Visible(d.Hint)
	}
	return s
}

// List gathers findings. The zero List is ready for use; it is not safe for
// use by several goroutines.
type List struct {
	all  []Diag
	seen map[Diag]bool
}

// Add keeps d unless the same finding is there already.
func (l *List) Add(d Diag) {
	if l.seen[d] {
		return
	}
	if l.seen == nil {
		l.seen = map[Diag]bool{}
	}
	l.seen[d] = true
	l.all = append(l.all, d)
}

// Errorf adds an error: nothing may be printed until it is mended.
func (l *List) Errorf(pos Pos, rule, hint, format string, args ...any) {
	l.Add(Diag{Pos: pos, Rule: rule, Hint: hint, Msg: fmt.Sprintf(format, args...)})
}

// Warnf adds a caution: printing goes on, the run sheet shows it.
func (l *List) Warnf(pos Pos, rule, hint, format string, args ...any) {
	l.Add(Diag{Pos: pos, Rule: rule, Hint: hint, Warning: true, Msg: fmt.Sprintf(format, args...)})
}

// AddError adds the finding that err carries, if it knows its place and rule
// (it has a method Diag), at the place of otherwise where it has none; for any
// other error it adds otherwise itself.
func (l *List) AddError(err error, otherwise Diag) {
	var known interface{ Diag() Diag }
	if !errors.As(err, &known) {
		l.Add(otherwise)
		return
	}
	d := known.Diag()
	if !d.Pos.Known() {
		d.Pos = otherwise.Pos
	}
	l.Add(d)
}

// Rehint gives the finding of a rule at a place another hint: from a package
// that knows more of what was meant than the one that found it.
func (l *List) Rehint(pos Pos, rule, hint string) {
	for i, d := range l.all {
		if d.Pos == pos && d.Rule == rule {
			delete(l.seen, d)
			l.all[i].Hint = hint
			l.seen[l.all[i]] = true
		}
	}
}

// AddAll adds every finding of other.
func (l *List) AddAll(other *List) {
	for _, d := range other.all {
		l.Add(d)
	}
}

// All returns the findings ordered by place, then errors before cautions.
func (l *List) All() []Diag {
	out := slices.Clone(l.all)
	slices.SortStableFunc(out, func(a, b Diag) int {
		return cmp.Or(a.Pos.Compare(b.Pos), cmp.Compare(b2i(a.Warning), b2i(b.Warning)), cmp.Compare(a.Rule, b.Rule))
	})
	return out
}

// Errors counts the findings that are not cautions.
func (l *List) Errors() int {
	n := 0
	for _, d := range l.all {
		n += 1 - b2i(d.Warning)
	}
	return n
}

// Len counts all findings.
func (l *List) Len() int { return len(l.all) }

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}
