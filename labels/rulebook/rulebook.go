// Package rulebook answers: why is that asked for?
//
// Every finding bears the name of its rule. A page of the book says what the
// rule finds, why it is asked for, what mends it, and where that stands. The
// pages are in rules.txt, and a test holds them against the rules that the
// source names.
package rulebook

import (
	_ "embed"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
)

//go:embed rules.txt
var file string

// Page is what the book says of one rule. Law names act and article, or says
// that it is a rule of the house, of a trade or of a file format.
type Page struct{ Rule, What, Why, Do, Law string }

// book reads the pages once.
var book = sync.OnceValues(func() (map[string]Page, error) { return parse(file) })

// Get is the page of a rule.
func Get(name string) (Page, bool) {
	pages, err := book()
	p, ok := pages[name]
	return p, ok && err == nil
}

// Rules lists the rules that have a page, in alphabetical order.
func Rules() []string {
	pages, _ := book() // a book that cannot be read has no pages, and Check says so
	return slices.Sorted(maps.Keys(pages))
}

// Check reports a page that is not whole.
func Check() error {
	_, err := book()
	return err
}

// parse reads pages: a name in square brackets, a sentence, and three lines with
// why, do and law.
func parse(text string) (map[string]Page, error) {
	out := map[string]Page{}
	for _, block := range strings.Split(text, "\n\n") {
		lines := strings.Split(strings.TrimSpace(block), "\n")
		if strings.HasPrefix(lines[0], "#") {
			continue
		}
		p := Page{Rule: strings.Trim(lines[0], "[]")}
		for _, l := range lines[1:] {
			p.read(l)
		}
		switch _, twice := out[p.Rule]; {
		case twice:
			return nil, fmt.Errorf("rules.txt: two pages for %s", p.Rule)
		case len(lines) != 5 || p.What == "" || p.Why == "" || p.Do == "" || p.Law == "":
			return nil, fmt.Errorf("rules.txt: the page for %s is not whole", p.Rule)
		}
		out[p.Rule] = p
	}
	return out, nil
}

// read takes one line into the page.
func (p *Page) read(line string) {
	switch key, rest, _ := strings.Cut(line, ": "); key {
	case "why":
		p.Why = rest
	case "do":
		p.Do = rest
	case "law":
		p.Law = rest
	default:
		p.What = line
	}
}
