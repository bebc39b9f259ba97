// Package words answers: how is it said here?
//
// One small text file per language (lang/xx.txt) holds the words that the law
// or the trade uses, templates with named slots, plural forms, allergen names
// with their stems, month names and number signs; a market whose law sets words
// of its own has one too (market/us.txt). Nothing falls back to another
// language: a missing word is an error that names the file.
//
// Quantities are printed by the rules of the SI (a no-break space before the
// unit and before %, digits in groups of three by thin spaces from five digits
// on), because a comma or a point as a thousands mark is a decimal mark next
// door. [Lang.Number] alone follows the CLDR of the language.
package words

import (
	"embed"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"chablon/labels/claim"
)

//go:embed lang/*.txt
var files embed.FS

// Lang is one language. It never changes after it was read, so several
// goroutines may share it.
type Lang struct {
	code    string
	market  string // whose words it has in place of its own, or ""
	entries map[string]entry
	keys    []string // in the order of the file
	search  map[string]*finder
	ids     []string    // of search, in the order of the file
	claims  *claim.Lang // words of a claim
}

// entry is one line of a language file.
type entry struct {
	text    string
	section string
	line    int
	memory  bool
}

// readers has one reader for each language; a file is read when its language
// is first asked for.
var readers = sync.OnceValue(func() map[string]func() (*Lang, error) {
	out := map[string]func() (*Lang, error){}
	names, _ := files.ReadDir("lang") // the folder is part of the program
	for _, n := range names {
		code := strings.TrimSuffix(n.Name(), ".txt")
		out[code] = sync.OnceValues(func() (*Lang, error) { return read(code) })
	}
	return out
})

func read(code string) (*Lang, error) {
	data, err := files.ReadFile("lang/" + code + ".txt")
	if err != nil {
		return nil, fmt.Errorf("read the words of a language: %w", err)
	}
	return parse(code, string(data))
}

// Get returns the language with the given code: "en", "pt", "nb". Codes are
// base languages; a region ("de-AT") is not looked for.
func Get(code string) (*Lang, bool) {
	r, ok := readers()[code]
	if !ok {
		return nil, false
	}
	l, err := r()
	return l, err == nil
}

// Codes lists the codes of all languages in alphabetical order.
func Codes() []string { return slices.Sorted(maps.Keys(readers())) }

// Check returns the first fault of the embedded language files, if any; a file
// with a fault is not offered by [Get].
func Check() error {
	if err := claim.Check(); err != nil {
		return err
	}
	for _, code := range Codes() {
		if _, err := readers()[code](); err != nil {
			return err
		}
	}
	return nil
}

// Code is the language's code, as in a PDF's language mark: "de".
func (l *Lang) Code() string { return l.code }

// Name is what the language calls itself: "Deutsch".
func (l *Lang) Name() string { return l.entries["language"].text }

// Keys lists the keys of a section ("label", "card", "sheet", "audit", "counter", "due" or "format") in
// the order of the file; it is empty where the language has no such section.
func (l *Lang) Keys(section string) []string {
	var out []string
	for _, k := range l.keys {
		if l.entries[k].section == section {
			out = append(out, k)
		}
	}
	return out
}

// Has reports whether the language has the given section. Every language has
// "format" and "label"; without "card" no card can be printed in it.
func (l *Lang) Has(section string) bool {
	return slices.ContainsFunc(l.keys, func(k string) bool { return l.entries[k].section == section })
}

// Word returns the words for a key. A missing key is an error that names the
// key and the file.
func (l *Lang) Word(key string) (string, error) {
	e, ok := l.entries[key]
	if !ok {
		return "", fmt.Errorf("no words for %q in %s", key, l.file())
	}
	return e.text, nil
}

// FromMemory reports whether the words for a key were written without a
// published text at hand, so that a native reader must check them before they
// are printed for sale. It is true for a key that is missing, too.
func (l *Lang) FromMemory(key string) bool {
	e, ok := l.entries[key]
	return !ok || e.memory
}

func (l *Lang) file() string {
	if l.market != "" {
		return "lang/" + l.code + ".txt and market/" + l.market + ".txt"
	}
	return "lang/" + l.code + ".txt"
}
