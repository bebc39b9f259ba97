package words

import (
	"embed"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
)

//go:embed market/*.txt
var marketFiles embed.FS

// variants has one reader for each language that a market has words of its
// own in, by "us en".
var variants = sync.OnceValue(func() map[string]func() (*Lang, error) {
	out := map[string]func() (*Lang, error){}
	names, _ := marketFiles.ReadDir("market") // the folder is part of the program
	for _, n := range names {
		data, _ := marketFiles.ReadFile("market/" + n.Name())
		market := strings.TrimSuffix(n.Name(), ".txt")
		for code, lines := range byLanguage(string(data)) {
			out[market+" "+code] = sync.OnceValues(func() (*Lang, error) { return variant(market, code, lines) })
		}
	}
	return out
})

// byLanguage cuts the file of a market at its heads, "[en]", and keeps the
// number of each line.
func byLanguage(text string) map[string][]numbered {
	out := map[string][]numbered{}
	code, n := "", 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		switch {
		case line == "", line[0] == '#':
		case line[0] == '[':
			code = strings.Trim(line, "[]")
		default:
			out[code] = append(out[code], numbered{line, n})
		}
	}
	return out
}

type numbered struct {
	line string
	n    int
}

// variant is a language with the words of a market in place of its own.
func variant(market, code string, lines []numbered) (*Lang, error) {
	base, ok := Get(code)
	if !ok {
		return nil, fmt.Errorf("market/%s.txt: there is no language %q", market, code)
	}
	own := &Lang{code: code, entries: map[string]entry{}}
	l := &Lang{code: code, market: market, entries: maps.Clone(base.entries), keys: slices.Clone(base.keys)}
	for _, x := range lines {
		if err := own.add(x.line, entry{section: "market", line: x.n}); err != nil {
			return nil, fmt.Errorf("market/%s.txt:%d: %w", market, x.n, err)
		}
	}
	for _, k := range own.keys {
		if _, ok := l.entries[k]; !ok {
			l.keys = append(l.keys, k)
		}
		l.entries[k] = own.entries[k]
	}
	if err := l.compile(); err != nil {
		return nil, fmt.Errorf("market/%s.txt: %w", market, err)
	}
	return l, nil
}

// For is the language as a market speaks it: with the words that its law sets
// in place of the language's own. A market without words of its own, and a
// language in which it has none, give the language itself.
func (l *Lang) For(market string) (*Lang, error) {
	if read, ok := variants()[market+" "+l.code]; ok {
		return read()
	}
	return l, nil
}

// Markets lists the markets that have words of their own, with the language,
// in alphabetical order: "ca en", "ca fr".
func Markets() []string { return slices.Sorted(maps.Keys(variants())) }
