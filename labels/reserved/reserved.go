// Package reserved answers: which name of the law does this name hold?
//
// "Milk chocolate with nuts" is milk chocolate, "milk chocolate mousse" only
// speaks of it; "peanut butter" is no butter. The words of each language stand
// in words.txt, one key a line:
//
//	milk-chocolate = milk chocolate      the name of the law; several are parted by commas
//	praline = =chocolates                in exactly these letters
//	none = peanut butter, salad cream    holds such a word, and means something else
//	cut = with, in, filled               what stands behind them is not what the food is
//	form = bar, tablet                   words that say no more than its shape
//	flavour = flavour, flavoured         behind a word: the food tastes of it, and it need not be there
//	without = without, no, free          beside a word: it is said not to be there
//	head = last                          where the word stands that says what the food is
//	together = yes                       words are written together
//
// How words are inflected is told by rule of thumb. What the composition must
// be stands in labels/market, by the same keys.
package reserved

import (
	_ "embed"
	"slices"
	"strings"
	"sync"
	"unicode"
)

//go:embed words.txt
var file string

// Hit is one name of the law in the name of a food.
type Hit struct {
	Key  string // such as "milk-chocolate"
	Word string // as it is compared: "milk chocolate"
	Is   bool   // the food is said to be that; otherwise to hold it
}

// phrase is one name of the law, word by word.
type phrase struct {
	key   string
	words []string
	exact bool // no other ending
}

// lang is what is known of the words of a language.
type lang struct {
	phrases                     []phrase // the longest first
	cut, form, flavour, without []string
	first, together             bool
}

var langs = sync.OnceValue(func() map[string]*lang {
	out := map[string]*lang{}
	var l *lang
	for line := range strings.Lines(file) {
		line = strings.TrimSpace(line)
		switch {
		case line == "" || line[0] == '#':
		case line[0] == '[':
			l = &lang{}
			out[strings.Trim(line, "[]")] = l
		default:
			key, value, _ := strings.Cut(line, " = ")
			l.add(key, value)
		}
	}
	for _, l := range out {
		slices.SortStableFunc(l.phrases, func(a, b phrase) int { return letters(b.words) - letters(a.words) })
	}
	return out
})

func letters(words []string) int { return len(strings.Join(words, " ")) }

func (l *lang) add(key, value string) {
	lists := map[string]*[]string{"cut": &l.cut, "form": &l.form, "flavour": &l.flavour, "without": &l.without}
	switch {
	case key == "head":
		l.first = value == "first"
	case key == "together":
		l.together = value == "yes"
	case lists[key] != nil:
		*lists[key] = cut(value)
	default:
		for p := range strings.SplitSeq(value, ",") {
			l.phrases = append(l.phrases, phrase{key, cut(p), strings.HasPrefix(strings.TrimSpace(p), "=")})
		}
	}
}

// Languages lists the languages whose words are known, in alphabetical order.
func Languages() []string {
	var out []string
	for code := range langs() {
		out = append(out, code)
	}
	slices.Sort(out)
	return out
}

// cut cuts a text into its words, in small letters and without accents.
func cut(text string) []string {
	text = strings.NewReplacer("ä", "a", "ö", "o", "ü", "u", "ß", "ss", "œ", "oe", "é", "e", "è", "e", "ê", "e", "â", "a", "à", "a",
		"î", "i", "ô", "o", "û", "u", "ç", "c", "ñ", "n", "í", "i", "ó", "o", "á", "a", "ã", "a", "ù", "u", "ò", "o", "ì", "i").Replace(strings.ToLower(text))
	return strings.FieldsFunc(text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsDigit(r) })
}

// span is where a phrase stands in a name.
type span struct {
	phrase
	from, until int
	end         bool // of words written together: it is the last of them
}

// Find finds the names of the law in the name of a food, in the order of the
// name. Where they lie on each other the longest one counts. A language without
// words finds none.
func Find(code, name string) []Hit { return found().find(code, name) }

// memory keeps what was found in names: every ingredient of a label is asked
// about again whenever one figure behind it is tried otherwise.
type memory struct {
	sync.Mutex
	of map[[2]string][]Hit
}

var found = sync.OnceValue(func() *memory { return &memory{of: map[[2]string][]Hit{}} })

// mostNames is how many names are kept, far more than a shop has.
const mostNames = 20_000

func (m *memory) find(code, name string) []Hit {
	m.Lock()
	defer m.Unlock()
	key := [2]string{code, name}
	hits, ok := m.of[key]
	if !ok {
		if len(m.of) >= mostNames {
			clear(m.of)
		}
		hits = find(code, name)
		m.of[key] = hits
	}
	return slices.Clone(hits)
}

func find(code, name string) []Hit {
	l := langs()[code]
	if l == nil {
		return nil
	}
	words := cut(name)
	var out []Hit
	for _, s := range l.spans(words) {
		if s.key == "none" || l.denied(words, s) {
			continue
		}
		out = append(out, Hit{s.key, strings.Join(words[s.from:s.until], " "), l.is(words, s)})
	}
	return out
}

// spans are the phrases that no longer one lies on.
func (l *lang) spans(words []string) []span {
	var out []span
	for _, p := range l.phrases {
		for i := 0; i+len(p.words) <= len(words); i++ {
			s := span{p, i, i + len(p.words), true}
			free := !slices.ContainsFunc(out, func(o span) bool { return o.from < s.until && s.from < o.until })
			if free && l.at(words[i:], &s) {
				out = append(out, s)
			}
		}
	}
	slices.SortFunc(out, func(a, b span) int { return a.from - b.from })
	return out
}

// at reports whether a phrase stands at the beginning of words.
func (l *lang) at(words []string, s *span) bool {
	last := len(s.words) - 1
	for i, w := range s.words[:last] {
		if !same(words[i], w) {
			return false
		}
	}
	switch w, own := words[last], s.words[last]; {
	case w == own || same(w, own) && !s.exact:
		return true
	case !l.together || len(own) < 4:
		return false
	case last == 0 && (strings.HasSuffix(w, own) || strings.HasSuffix(bare(w), own)):
		return true
	case strings.HasPrefix(w, own), last == 0 && len(own) > 4 && strings.Contains(w, own):
		s.end = false
		return true
	}
	return false
}

// same reports whether two words are one but for their endings.
func same(a, b string) bool { return a == b || bare(a) == bare(b) }

// bare is a word without the ending of its inflection.
func bare(w string) string {
	for _, end := range []string{"en", "es", "er", "em", "e", "n", "s", "x"} {
		if r, ok := strings.CutSuffix(w, end); ok && len(r) > 3 {
			return r
		}
	}
	return w
}

// denied reports whether a name says that something only tastes of it, or that
// it is not there.
func (l *lang) denied(words []string, s span) bool {
	if s.until < len(words) && (slices.Contains(l.flavour, words[s.until]) || words[s.until] == "free") {
		return true
	}
	if l.first && s.from > 0 && slices.ContainsFunc(words[max(0, s.from-2):s.from], func(w string) bool { return slices.Contains(l.flavour, w) }) {
		return true
	}
	return s.from > 0 && slices.Contains(l.without, words[s.from-1])
}

// is reports whether the phrase says what the food is: it stands at the end of
// what comes before "with", or at the beginning where the head comes first,
// whatever its shape.
func (l *lang) is(words []string, s span) bool {
	shape := func(w string) bool { return slices.ContainsFunc(l.form, func(f string) bool { return same(w, f) }) }
	if l.first {
		return !slices.ContainsFunc(words[:s.from], func(w string) bool { return !shape(w) })
	}
	end := len(words)
	for i := max(1, s.until); i < end; i++ {
		if slices.Contains(l.cut, words[i]) {
			end = i
		}
	}
	before := slices.ContainsFunc(words[1:max(1, s.from)], func(w string) bool { return slices.Contains(l.cut, w) })
	return s.end && !before && !slices.ContainsFunc(words[s.until:end], func(w string) bool { return !shape(w) })
}
