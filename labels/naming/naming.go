// Package naming answers: which ingredients does the name of a food name?
//
// "Plum tartlet" names plums, "Birnen-Haselnuss-Törtchen" pears and hazelnuts,
// and "milk chocolate biscuit" milk chocolate and not milk. The name is held
// against the names of the ingredients word by word: an ingredient is named by
// the word that says what it is ("chocolate" of milk chocolate), or by all its
// words; those that only say its form ("flour", "juice", "chopped") do not
// count. Where several ingredients could be meant, the longest one is.
//
// The words of each language stand in words.txt. How words are inflected is
// told by rule of thumb: it may find too much, and whoever writes the label says
// so then.
package naming

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"unicode"
)

//go:embed words.txt
var file string

// lang is what is known of the words of a language.
type lang struct {
	code             string
	stop, part, form []string
	first            bool // the head is the first word, not the last
	together         bool // words are written together
}

var langs = sync.OnceValue(func() map[string]*lang {
	out := map[string]*lang{}
	var l *lang
	for line := range strings.Lines(file) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		if line[0] == '[' {
			l = &lang{code: strings.Trim(line, "[]")}
			out[l.code] = l
			continue
		}
		key, value, _ := strings.Cut(line, " = ")
		switch key {
		case "stop":
			l.stop = cut(value)
		case "part":
			l.part = cut(value)
		case "form":
			l.form = cut(value)
		case "head":
			l.first = value == "first"
		case "together":
			l.together = value == "yes"
		}
	}
	return out
})

func language(code string) *lang {
	if l, ok := langs()[code]; ok {
		return l
	}
	return &lang{code: code}
}

// plain takes off the accents that inflection changes.
var plain = sync.OnceValue(func() *strings.Replacer {
	return strings.NewReplacer("ä", "a", "ö", "o", "ü", "u", "ß", "ss", "œ", "oe", "é", "e", "è", "e", "ê", "e", "â", "a", "î", "i")
})

// cut cuts a text into its words, in small letters and without the accents
// that inflection changes.
func cut(text string) []string {
	text = plain().Replace(strings.ToLower(text))
	return strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) })
}

// Hit is one ingredient that a word of the name names.
type Hit struct {
	Word string // of the name, as it is compared: "plum"
	Of   int    // which of the ingredients
}

// Find finds which of the ingredients the name of a food names in a language, by
// the order of the ingredients. An ingredient without a name here is "".
func Find(code, food string, ingredients []string) []Hit {
	return slices.Clone(found().find(code, food, ingredients))
}

// memory keeps what was found: every name of a label is asked about again
// whenever one figure behind it is tried otherwise.
type memory struct {
	sync.Mutex
	of map[string][]Hit
}

var found = sync.OnceValue(func() *memory { return &memory{of: map[string][]Hit{}} })

// mostNames is how many names are kept, far more than a shop has.
const mostNames = 20_000

func (m *memory) find(code, food string, ingredients []string) []Hit {
	m.Lock()
	defer m.Unlock()
	key := code + "\x00" + food + "\x00" + strings.Join(ingredients, "\x00")
	hits, ok := m.of[key]
	if !ok {
		if len(m.of) >= mostNames {
			clear(m.of)
		}
		hits = find(code, food, ingredients)
		m.of[key] = hits
	}
	return hits
}

func find(code, food string, ingredients []string) []Hit {
	l := language(code)
	words := l.content(cut(food))
	var all []match
	for i, name := range ingredients {
		all = append(all, l.matches(words, i, name)...)
	}
	var out []Hit
	for _, m := range all {
		if !slices.ContainsFunc(all, m.beaten) && !slices.ContainsFunc(out, func(h Hit) bool { return h.Of == m.of }) {
			out = append(out, Hit{strings.Join(words[m.from:m.until], " "), m.of})
		}
	}
	return out
}

// match is an ingredient found at words of the name.
type match struct {
	of, from, until int
	letters         int // how many letters of it were found
}

// beaten reports whether another ingredient is found at the same words with
// more letters.
func (m match) beaten(o match) bool {
	return o.from < m.until && m.from < o.until && o.letters > m.letters
}

// content leaves out the words that only join; those that part one thing from
// another become "".
func (l *lang) content(words []string) []string {
	words = slices.DeleteFunc(words, func(w string) bool { return slices.Contains(l.stop, w) })
	for i, w := range words {
		if slices.Contains(l.part, w) {
			words[i] = ""
		}
	}
	return words
}

// matches finds the longest runs of words of a food that name an ingredient.
func (l *lang) matches(food []string, of int, name string) []match {
	own := l.distinctive(name)
	if len(own) == 0 {
		return nil
	}
	head := own[len(own)-1]
	if l.first {
		head = own[0]
	}
	var out []match
	for i := 0; i < len(food); i++ {
		m := match{of: of, from: i, until: i}
		headed, seen := false, map[string]bool{}
		for m.until < len(food) {
			w, n := l.best(food[m.until], own)
			if n == 0 {
				break
			}
			headed, seen[w] = headed || w == head, true
			m.letters += n
			m.until++
		}
		if headed || len(seen) == len(own) {
			out = append(out, m)
			i = m.until - 1
		}
	}
	return out
}

// best is the word of an ingredient that stands in a word of the food with the
// most letters.
func (l *lang) best(food string, own []string) (word string, letters int) {
	for _, w := range own {
		if n := l.holds(food, w); n > letters {
			word, letters = w, n
		}
	}
	return word, letters
}

// distinctive are the words of an ingredient's name that say what it is; all of
// them where none does.
func (l *lang) distinctive(name string) []string {
	all := l.content(cut(name))
	var out []string
	for _, w := range all {
		if w = l.unformed(w); w != "" {
			out = append(out, w)
		}
	}
	if len(out) == 0 {
		return slices.DeleteFunc(all, func(w string) bool { return w == "" })
	}
	return out
}

// unformed takes the form off a word: all of "flour", the end of "Roggenmehl".
func (l *lang) unformed(w string) string {
	for _, f := range l.form {
		if l.same(w, f) {
			return ""
		}
		if rest, ok := strings.CutSuffix(w, f); ok && l.together && len(rest) > 2 {
			return rest
		}
	}
	return w
}

// holds gives how many letters of a word of the food an ingredient's word
// stands in: all where they are the same but for inflection, and where words
// are written together also the part that is it ("Pflaumen" in
// "Pflaumentörtchen"), or all where it is what the other is a sort of
// ("Schokolade" of "Zartbitterschokolade").
func (l *lang) holds(food, own string) int {
	r := root(own)
	switch {
	case food == "":
	case l.same(food, own):
		return len(food)
	case !l.together:
	case len(r) > 3 && strings.HasPrefix(food, r), len(r) > 4 && strings.Contains(food, r):
		return len(r)
	case len(root(food)) > 4 && strings.HasSuffix(r, root(food)):
		return len(food)
	}
	return 0
}

// root is a word without an ending of its inflection.
func root(w string) string {
	for _, end := range []string{"en", "es", "er", "n", "e", "s"} {
		if r, ok := strings.CutSuffix(w, end); ok && len(r) > 3 {
			return r
		}
	}
	return w
}

// same reports whether two words are one but for inflection: in English but for
// the plural, elsewhere where their beginnings agree but for the last letters.
func (l *lang) same(a, b string) bool {
	if a == b {
		return true
	}
	if l.code == "en" {
		return singular(a) == singular(b)
	}
	x, y := []rune(a), []rune(b)
	n := 0
	for n < min(len(x), len(y)) && x[n] == y[n] {
		n++
	}
	short := min(len(x), len(y))
	if short == 4 && len(x) == len(y) && n == 3 {
		return vowel(x[3]) && vowel(y[3]) // pera, pere
	}
	return n >= 3 && n == short && max(len(x), len(y))-n == 1 || n >= max(4, short-1) && max(len(x), len(y))-n <= 3
}

func vowel(r rune) bool { return strings.ContainsRune("aeiouy", r) }

// singular is an English word without the ending of its plural.
func singular(w string) string {
	switch {
	case len(w) > 4 && strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case len(w) > 4 && (strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "xes") || strings.HasSuffix(w, "oes") || strings.HasSuffix(w, "sses")):
		return w[:len(w)-2]
	case len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss"):
		return w[:len(w)-1]
	}
	return w
}
