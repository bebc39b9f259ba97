// Package claim answers: what does this text promise?
//
// Free from, gluten-free, without, vegan: whoever has an allergy buys by such
// words, wherever they stand. Those of each language are in lang/xx.txt, one
// kind a line:
//
//	x = {x} free, {x}free, free from {x}     {x}: an allergen, or a thing
//	gluten = suitable for coeliacs, very low gluten*
//	vegan = vegan*, plant based*
//	thing.sugar = <sugar>, <sugars>          words that {x} may stand for
//	and = and, or, nor                       what strings things together
//	skip = any, of, the                      what may stand before a thing
//
// A phrase is compared word by word, whatever stands between two words but a
// stop; * is the rest of a word, . the end of a text or of a sentence. Stems of
// things are written as in labels/stem; those of the allergens come from who
// asks. {x}free is an ending inside a word (glutenfrei), bez{x} a beginning.
//
// Most words are from memory, and no native reader has read them; what they find is a
// reason to look.
package claim

import (
	"cmp"
	"embed"
	"fmt"
	"slices"
	"strings"
	"sync"
	"unicode/utf8"

	"chablon/labels/stem"
)

// What a claim may be about, beside the allergens by their trade names.
const (
	Gluten     = "gluten"
	Lactose    = "lactose"
	Sugar      = "sugar"
	Alcohol    = "alcohol"
	Everything = "everything" // any allergen at all
	Flourless  = "flourless"  // a style of cake, often taken for gluten-free
	Vegan      = "vegan"
	Vegetarian = "vegetarian"
	Plant      = "plant"  // "pflanzlich": of plants, where no oil or fat is meant
	Lenten     = "lenten" // food for fasting: no milk, no eggs
	Lean       = "lean"   // food for fasting, or lean
)

// kinds are the lines of a file that hold phrases.
var kinds = []string{"x", Gluten, Flourless, Lactose, "milk", "eggs", "nuts", "walnuts", "peanuts", "soybeans",
	"sesame", Everything, Vegan, Vegetarian, Plant, Lenten, Lean, Sugar, Alcohol}

// Found is one claim in a text.
type Found struct {
	About    string // a kind of claim, or the id of an allergen, such as "eggs"
	From, To int    // its place in bytes
}

// Absent reports whether the claim says that something named in it is absent.
func (f Found) Absent() bool {
	switch f.About {
	case Vegan, Vegetarian, Plant, Lenten, Lean, Flourless:
		return false
	}
	return true
}

// Span is a place in a text where something is named.
type Span struct {
	ID       string
	From, To int
}

//go:embed lang/*.txt
var files embed.FS

// Lang is the words of a claim in one language. It never changes after it was
// read.
type Lang struct {
	phrases map[string][]phrase // by their first word; "" for those that a thing begins
	open    map[rune][]phrase   // whose first word goes on as it likes, by its first letter
	things  map[string]*thing
	and     []string
	skip    []string
	oil     []string
	animal  map[string]*thing // "bees" and "slaughter"
}

// thing is the stems of one thing.
type thing struct {
	own, others []stem.Stem
}

var readers = sync.OnceValue(func() map[string]func() (*Lang, error) {
	out := map[string]func() (*Lang, error){}
	names, _ := files.ReadDir("lang") // the folder is part of the program
	for _, n := range names {
		code := strings.TrimSuffix(n.Name(), ".txt")
		out[code] = sync.OnceValues(func() (*Lang, error) {
			data, _ := files.ReadFile("lang/" + n.Name())
			return parse(n.Name(), string(data))
		})
	}
	return out
})

// Get returns the words of a claim in a language, by its code such as "en". A
// file with a fault is not offered; [Check] says what it is.
func Get(code string) (*Lang, bool) {
	r, ok := readers()[code]
	if !ok {
		return nil, false
	}
	l, err := r()
	return l, err == nil
}

// Check returns the first fault of the embedded files, if any.
func Check() error {
	for _, r := range readers() {
		if _, err := r(); err != nil {
			return err
		}
	}
	return nil
}

// parse reads one file.
func parse(name, text string) (*Lang, error) {
	l := &Lang{phrases: map[string][]phrase{}, open: map[rune][]phrase{}, things: map[string]*thing{}, animal: map[string]*thing{}}
	n := 0
	for line := range strings.Lines(text) {
		n++
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		key, rest, ok := strings.Cut(line, " = ")
		if !ok {
			return nil, fmt.Errorf("%s:%d: %q is not a line of the form kind = words", name, n, line)
		}
		if err := l.add(key, strings.Split(rest, ", ")); err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, n, err)
		}
	}
	return l, nil
}

// add keeps one line.
func (l *Lang) add(key string, words []string) (err error) {
	id, isThing := strings.CutPrefix(key, "thing.")
	switch {
	case isThing:
		l.things[id], err = thingOf(words)
	case key == "bees" || key == "slaughter":
		l.animal[key], err = thingOf(words)
	case key == "and":
		l.and = folded(words)
	case key == "skip":
		l.skip = folded(words)
	case key == "oil":
		l.oil = folded(words)
	case slices.Contains(kinds, key):
		for _, w := range words {
			p, err := phraseOf(key, w)
			if err != nil {
				return err
			}
			l.keep(p)
		}
	default:
		err = fmt.Errorf("there is no kind %q", key)
	}
	return err
}

// keep files a phrase under what it begins with.
func (l *Lang) keep(p phrase) {
	word, isSlot := p.head()
	if first, _ := utf8.DecodeRuneInString(word); strings.HasSuffix(word, "*") || isSlot && word != "" {
		l.open[first] = append(l.open[first], p)
		return
	}
	l.phrases[word] = append(l.phrases[word], p)
}

func folded(words []string) (out []string) {
	for _, w := range words {
		out = append(out, stem.Fold(w))
	}
	return out
}

func thingOf(words []string) (*thing, error) {
	t := &thing{}
	for _, w := range words {
		s, err := stem.Parse(w)
		if err != nil {
			return nil, err
		}
		if s.Other() {
			t.others = append(t.others, s)
		} else {
			t.own = append(t.own, s)
		}
	}
	return t, nil
}

// spans finds the thing in a text.
func (t *thing) spans(id string, text stem.Letters) (out []Span) {
	mine, theirs := stem.SetOf(t.own), stem.SetOf(t.others)
	for i := 0; i < text.Len(); {
		a, b := mine.Longest(text, i), theirs.Longest(text, i)
		if a > 0 && a >= b {
			out = append(out, Span{id, text.Byte(i), text.Byte(i + a)})
		}
		i += max(1, a, b)
	}
	return out
}

// OfAnimals reports whether a name speaks of what comes from an animal and is no
// allergen: "slaughter" of meat, lard, gelatine, carmine, "bees" of honey and
// wax, "" of none.
func (l *Lang) OfAnimals(name string) string {
	text := stem.Cut(name)
	for _, kind := range []string{"slaughter", "bees"} {
		if t := l.animal[kind]; t != nil && len(t.spans(kind, text)) > 0 {
			return kind
		}
	}
	return ""
}

// Find lists the claims in a text, in order. Names finds where allergens are
// named in a text, by their ids.
func (l *Lang) Find(text string, names func(string) []Span) []Found {
	s := &scan{lang: l, text: text, words: wordsOf(text), names: names}
	for i := range s.words {
		for _, p := range l.phrases[s.words[i].low] {
			s.try(p, i)
		}
		for _, p := range l.phrases[""] {
			s.try(p, i)
		}
		first, _ := utf8.DecodeRuneInString(s.words[i].low)
		for _, p := range l.open[first] {
			s.try(p, i)
		}
	}
	slices.SortStableFunc(s.found, func(a, b Found) int { return cmp.Or(a.From-b.From, b.To-a.To) })
	return slices.Compact(s.found)
}
