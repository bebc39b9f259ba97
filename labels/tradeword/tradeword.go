// Package tradeword answers: which allergen does this name speak of without
// saying it?
//
// Butter is milk, semolina is wheat, tahini is sesame, though none of them says
// so, and of praline one must ask which nut it is. The words of each language
// stand in lang/xx.txt, one kind and one set of allergens a line:
//
//	implies milk = <butter>, <ghee>          is, or holds
//	implies barley|wheat = <malt             at least one of them
//	asks milk,soybeans = <chocolate>         may hold; its specification says
//	exempt milk = <peanut butter>            holds a word that means something else
//	law wheat wheat-glucose-syrup = <...>    asks, but where the law has the exception
//
// Stems are written as in the files of labels/words (see labels/stem).
// Allergens have the ids of labels/market with a hyphen for the space; "nuts"
// stands for any of the nuts.
//
// The words were gathered from trade use and from memory; no native reader has
// read them, and what they find is a reason to look at the specification, not a
// statement about it.
package tradeword

import (
	"embed"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"chablon/labels/stem"
)

//go:embed lang/*.txt
var files embed.FS

// Lang is the trade words of one language. It never changes after it was read.
type Lang struct {
	words map[rune][]word // by their first letter in small
}

// word is one stem with what it speaks of.
type word struct {
	stem.Stem
	kind  kind
	needs [][]string // of each set at least one
	law   string
}

type kind int

const (
	implies kind = iota
	asks
	exempt
)

// Finding is what one word of a name speaks of.
type Finding struct {
	Word  string   // as it stands in the name
	Any   []string // allergens, of which at least one is meant; "nuts" is any nut
	Asks  bool     // it may hold them; otherwise it does
	Law   string   // key of the exception of the law that answers it, or ""
	from  int      // letters
	until int
	free  bool
}

var readers = sync.OnceValue(func() map[string]func() (*Lang, error) {
	out := map[string]func() (*Lang, error){}
	names, _ := files.ReadDir("lang") // the folder is part of the program
	for _, n := range names {
		code := strings.TrimSuffix(n.Name(), ".txt")
		out[code] = sync.OnceValues(func() (*Lang, error) { return read(code) })
	}
	return out
})

// Codes lists the languages of the program in alphabetical order.
func Codes() []string { return slices.Sorted(maps.Keys(readers())) }

// Get returns the trade words of a language by its code, such as "en". A file
// with a fault is not offered; a test reads all of them.
func Get(code string) (*Lang, bool) {
	r, ok := readers()[code]
	if !ok {
		return nil, false
	}
	l, err := r()
	return l, err == nil
}

func read(code string) (*Lang, error) {
	data, err := files.ReadFile("lang/" + code + ".txt")
	if err != nil {
		return nil, fmt.Errorf("read the trade words of a language: %w", err)
	}
	l := &Lang{words: map[rune][]word{}}
	n := 0
	for line := range strings.Lines(string(data)) {
		n++
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		if err := l.add(line); err != nil {
			return nil, fmt.Errorf("tradeword/lang/%s.txt:%d: %w", code, n, err)
		}
	}
	return l, nil
}

// add reads one line.
func (l *Lang) add(line string) error {
	head, stems, ok := strings.Cut(line, " = ")
	h := strings.Fields(head)
	kinds := map[string]kind{"implies": implies, "asks": asks, "exempt": exempt, "law": asks}
	if !ok || len(h) < 2 {
		return fmt.Errorf("%q is no line of trade words", line)
	}
	k, known := kinds[h[0]]
	law := h[0] == "law"
	if !known || law != (len(h) == 3) {
		return fmt.Errorf("%q is no line of trade words", line)
	}
	w := word{kind: k, needs: needs(h[1])}
	if law {
		w.law = h[2]
	}
	for s := range strings.SplitSeq(stems, ",") {
		p, err := stem.Parse(strings.TrimSpace(s))
		if err != nil {
			return err
		}
		w.Stem = p
		l.words[p.First()] = append(l.words[p.First()], w)
	}
	return nil
}

// needs reads "milk,eggs" (each) and "barley|wheat" (at least one).
func needs(s string) [][]string {
	var out [][]string
	for each := range strings.SplitSeq(strings.ReplaceAll(s, "-", " "), ",") {
		out = append(out, strings.Split(each, "|"))
	}
	return out
}

// Find finds what the words of a name speak of, in the order of the name. Where
// words lie on each other the longest one wins, of those of one length the one
// that means something else; but it speaks of its own allergens only: almond
// milk is not milk, and yet it is almond.
func (l *Lang) Find(name string) []Finding {
	all := l.hits(name)
	var out []Finding
	for _, f := range all {
		if !f.free && !slices.ContainsFunc(all, f.beaten) && !slices.ContainsFunc(out, f.same) {
			out = append(out, f)
		}
	}
	return out
}

// hits are all words of a name, those that mean something else among them.
func (l *Lang) hits(name string) []Finding {
	text := stem.Cut(name)
	var out []Finding
	for i := range text.Len() {
		for _, w := range l.words[text.Low(i)] {
			if !w.At(text, i) {
				continue
			}
			end := i + w.Stem.Len()
			for _, any := range w.needs {
				out = append(out, Finding{name[text.Byte(i):text.Byte(end)], any, w.kind == asks, w.law, i, end, w.kind == exempt})
			}
		}
	}
	return out
}

// beaten reports whether the word o lies on f, speaks of the same, and is
// longer, or as long and means something else. What only the law excepts is
// asked in any case; where the law has the exception it is the answer.
func (f Finding) beaten(o Finding) bool {
	if f.Law != "" || o.until <= f.from || f.until <= o.from || !slices.ContainsFunc(o.Any, func(a string) bool { return slices.Contains(f.Any, a) }) {
		return false
	}
	mine, theirs := f.until-f.from, o.until-o.from
	return theirs > mine || theirs == mine && o.free
}

// same reports whether o says what f says.
func (f Finding) same(o Finding) bool {
	return slices.Equal(f.Any, o.Any) && f.Asks == o.Asks && f.Law == o.Law
}
