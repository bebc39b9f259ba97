package words

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// The sections that a language file may have.
const sections = "format label card sheet audit counter due"

var (
	keyForm  = regexp.MustCompile(`^[a-z0-9]+([.-][a-z0-9]+)*$`)
	slotForm = regexp.MustCompile(`\{[a-z0-9-]*\}`)
)

// parse reads a language file: "key = words" lines under [section] heads.
//
//	# comment
//	[label]
//	date.use-by = use by {date} ~
//
// A "~" at the end says that the line (or, after a head, every line of the
// section) was written from memory; "_" stands for a no-break space.
func parse(code, text string) (*Lang, error) {
	l := &Lang{code: code, entries: map[string]entry{}}
	section, doubt, n := "", false, 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		var err error
		switch {
		case line == "", line[0] == '#':
		case line[0] == '[':
			section, doubt, err = head(line)
		default:
			err = l.add(line, entry{section: section, line: n, memory: doubt})
		}
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", l.file(), n, err)
		}
	}
	if err := l.compile(); err != nil {
		return nil, fmt.Errorf("%s: %w", l.file(), err)
	}
	return l, nil
}

// head reads "[card]" or "[card] ~".
func head(line string) (section string, doubt bool, err error) {
	rest, doubt := strings.CutSuffix(line, "~")
	name, ok := strings.CutSuffix(strings.TrimSpace(rest), "]")
	name = strings.TrimPrefix(name, "[")
	if !ok || !slices.Contains(strings.Fields(sections), name) {
		return "", false, fmt.Errorf("the sections are %s", sections)
	}
	return name, doubt, nil
}

// add keeps one "key = words" line.
func (l *Lang) add(line string, e entry) error {
	key, words, ok := strings.Cut(line, "=")
	key, words = strings.TrimSpace(key), strings.TrimSpace(words)
	if !ok || !keyForm.MatchString(key) {
		return fmt.Errorf("%q is not a line of the form key = words", line)
	}
	if w, cut := strings.CutSuffix(words, "~"); cut {
		words, e.memory = strings.TrimSpace(w), true
	}
	if old, double := l.entries[key]; double {
		return fmt.Errorf("%s stands on line %d already", key, old.line)
	}
	if words == "" {
		return fmt.Errorf("%s has no words", key)
	}
	if strings.ContainsAny(slotForm.ReplaceAllString(words, ""), "{}") {
		return fmt.Errorf("%s has a slot that cannot be read", key)
	}
	e.text = strings.ReplaceAll(words, "_", "\u00a0")
	l.entries[key] = e
	l.keys = append(l.keys, key)
	return nil
}
