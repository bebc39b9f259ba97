package words

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
)

// Allergen returns what the law calls an allergen here, and the stems that
// name it inside compound or inflected words. The id is a trade name of
// Annex II such as "wheat", "pecan nuts" or "sulphites".
func (l *Lang) Allergen(id string) (name string, stems []string, err error) {
	if name, err = l.Word("allergen." + slug(id)); err != nil {
		return "", nil, fmt.Errorf("no words for the allergen %q in %s", id, l.file())
	}
	f, ok := l.search[slug(id)]
	if !ok {
		return "", nil, fmt.Errorf("no stems for the allergen %q in %s", id, l.file())
	}
	for _, p := range f.own {
		stems = append(stems, string(p.text))
	}
	return name, stems, nil
}

// AllergenFromMemory reports whether the name of an allergen was written from
// memory.
func (l *Lang) AllergenFromMemory(id string) bool { return l.FromMemory("allergen." + slug(id)) }

func slug(id string) string { return strings.ReplaceAll(strings.ToLower(id), " ", "-") }

// Emphasis finds the stems of the given allergens in the name of an
// ingredient. It returns the byte ranges to be set in bold (the stem with its
// inflection, or in languages that inflect much the word from the stem on), in
// order and without overlap, and those allergens whose stem does not occur, so that the
// caller adds them in brackets. A stem is not found inside a longer word that
// means something else, be it a word of the language file ("buckwheat") or the
// name of another allergen ("noix" in "noix de cajou").
func (l *Lang) Emphasis(text string, allergens []string) (strong [][2]int, missing []string) {
	letters := lettersOf(text)
	for _, id := range allergens {
		f, ok := l.search[slug(id)]
		var found [][2]int
		if ok {
			found = f.find(letters)
		}
		if len(found) == 0 && !slices.Contains(missing, id) {
			missing = append(missing, id)
		}
		strong = append(strong, found...)
	}
	return merge(strong), missing
}

// merge orders ranges and joins those that overlap or touch.
func merge(in [][2]int) [][2]int {
	slices.SortFunc(in, func(a, b [2]int) int {
		if a[0] != b[0] {
			return a[0] - b[0]
		}
		return a[1] - b[1]
	})
	var out [][2]int
	for _, r := range in {
		if n := len(out); n > 0 && r[0] <= out[n-1][1] {
			out[n-1][1] = max(out[n-1][1], r[1])
			continue
		}
		out = append(out, r)
	}
	return out
}

// letter is a character of a text with its place in bytes.
type letter struct {
	r, low rune
	at     int
}

// lettersOf cuts a text into letters and closes it with one that matches nothing.
func lettersOf(text string) []letter {
	out := make([]letter, 0, len(text)+1)
	for i, r := range text {
		out = append(out, letter{r, lower(r), i})
	}
	return append(out, letter{at: len(text)})
}

// lower folds a letter; the dotless ı of Turkish counts as i, because its
// capital is the I of every other language, and a no-break space as a space.
func lower(r rune) rune {
	switch r {
	case 'ı', 'İ':
		return 'i'
	case 'ς':
		return 'σ'
	case '\u00a0', '\u202f':
		return ' '
	case '\u2019':
		return '\''
	}
	return unicode.ToLower(r)
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) }

// pattern is one stem.
type pattern struct {
	text  []rune
	first bool // only where a word begins
	last  bool // only where a word ends
	exact bool // capitals count
	other bool // means something else
}

// patternOf reads one stem of a language file.
func patternOf(s string) (pattern, error) {
	var p pattern
	s, p.other = strings.CutPrefix(s, "!")
	s, p.exact = strings.CutPrefix(s, "=")
	s, p.first = strings.CutPrefix(s, "<")
	s, p.last = strings.CutSuffix(s, ">")
	p.text = []rune(s)
	if !p.exact {
		p.text = lowered(s)
	}
	if s == "" || strings.ContainsAny(s, "!=<>") || strings.TrimSpace(s) != s {
		return p, fmt.Errorf("the stem %q cannot be read", s)
	}
	return p, nil
}

// at reports whether the stem stands at letter i.
func (p *pattern) at(text []letter, i int) bool {
	end := i + len(p.text)
	if end >= len(text) || !p.fits(text[i], 0) {
		return false
	}
	if p.first && i > 0 && inWord(text[i-1].r) || p.last && inWord(text[end].r) {
		return false
	}
	for k := range p.text {
		if !p.fits(text[i+k], k) {
			return false
		}
	}
	return true
}

// fits compares one letter with letter k of the stem.
func (p *pattern) fits(l letter, k int) bool {
	if p.exact {
		return l.r == p.text[k]
	}
	return l.low == p.text[k]
}

func lowered(s string) []rune {
	out := []rune(s)
	for i, r := range out {
		out[i] = lower(r)
	}
	return out
}

// finder finds one allergen.
type finder struct {
	own    []pattern // stems of the allergen
	others []pattern // words that hide a stem
	word   bool      // a find goes on to the end of the word

	mine, theirs starts // own and others, by their first letter
}

// starts are stems by their first letter in small, so that most letters of a
// text are passed with one look.
type starts map[rune][]pattern

func startsOf(ps []pattern) starts {
	out := starts{}
	for _, p := range ps {
		out[lower(p.text[0])] = append(out[lower(p.text[0])], p)
	}
	return out
}

// find returns the byte ranges of the stems: at each place the longest word
// wins, and the search goes on behind it.
func (f *finder) find(text []letter) (out [][2]int) {
	for i := 0; i < len(text)-1; {
		mine, theirs := longest(f.mine[text[i].low], text, i), longest(f.theirs[text[i].low], text, i)
		end := i + max(1, mine, theirs)
		if mine > 0 && mine >= theirs {
			end = f.ending(text, end)
			out = append(out, [2]int{text[i].at, text[end].at})
		}
		i = end
	}
	return out
}

// ending takes in the rest of the word where the language wants it, and
// otherwise an inflection of up to two letters ("hazelnut|s", "soy|a"); a
// longer rest is the other half of a compound ("Weizen|mehl").
func (f *finder) ending(text []letter, end int) int {
	last := end
	for inWord(text[last].r) {
		last++
	}
	if f.word || last-end <= 2 {
		return last
	}
	return end
}

func longest(ps []pattern, text []letter, i int) (n int) {
	for k := range ps {
		if p := &ps[k]; len(p.text) > n && p.at(text, i) {
			n = len(p.text)
		}
	}
	return n
}

// compile builds the finders of all allergens.
func (l *Lang) compile() error {
	l.search = map[string]*finder{}
	var ids []string
	for _, k := range l.keys {
		id, ok := strings.CutPrefix(k, "stems.")
		if !ok {
			continue
		}
		f, err := finderOf(l.entries[k].text)
		if err != nil {
			return fmt.Errorf("%s: %w", k, err)
		}
		if name := l.entries["allergen."+id].text; name != "" {
			f.own = append(f.own, pattern{text: lowered(name), first: true, last: true})
		}
		f.word = l.entries["emphasis"].text == "word"
		l.search[id] = f
		ids = append(ids, id)
	}
	l.hide(ids)
	return nil
}

// finderOf reads the stems of one allergen.
func finderOf(stems string) (*finder, error) {
	f := &finder{}
	for s := range strings.SplitSeq(stems, ",") {
		p, err := patternOf(strings.TrimSpace(s))
		if err != nil {
			return nil, err
		}
		if p.other {
			f.others = append(f.others, p)
		} else {
			f.own = append(f.own, p)
		}
	}
	return f, nil
}

// hide lets the stems of each allergen hide shorter stems of the others.
func (l *Lang) hide(ids []string) {
	for _, id := range ids {
		f := l.search[id]
		for _, other := range ids {
			if other != id {
				f.others = append(f.others, l.search[other].own...)
			}
		}
		f.mine, f.theirs = startsOf(f.own), startsOf(f.others)
	}
}
