// Package stem answers: does this name hold this word?
//
// Names of ingredients are compound and inflected, so words are looked for by
// their stems, in the notation of the language files:
//
//	egg        anywhere, in small or capital letters
//	<egg       only where a word begins
//	rye>       only where a word ends
//	=Ei        in exactly these letters
//	!eggplant  a word that means something else
//
// A stem may have spaces in it. Letters are compared one by one, so that a find
// has its place in the text.
package stem

import (
	"fmt"
	"strings"
	"unicode"
)

// Letters is a text cut into letters, each with its place in bytes.
type Letters []letter

// letter is a character of a text with its place in bytes.
type letter struct {
	r, low rune
	at     int
}

// Cut cuts a text into letters and closes it with one that matches nothing.
func Cut(text string) Letters {
	out := make(Letters, 0, len(text)+1)
	for i, r := range text {
		out = append(out, letter{r, fold(r), i})
	}
	return append(out, letter{at: len(text)})
}

// Len is the number of letters.
func (t Letters) Len() int { return len(t) - 1 }

// Byte is the place of letter i in bytes; of the letter behind the last one
// the length of the text.
func (t Letters) Byte(i int) int { return t[i].at }

// Low is letter i in small.
func (t Letters) Low(i int) rune { return t[i].low }

// InWord reports whether letter i is part of a word: a letter, a mark or a
// figure.
func (t Letters) InWord(i int) bool { return inWord(t[i].r) }

// fold makes a letter small; the dotless ı of Turkish counts as i, because its
// capital is the I of every other language, a no-break space as a space, each
// of the three apostrophes as one, and a Greek vowel as one without accent.
func fold(r rune) rune {
	switch r {
	case 'ı', 'İ':
		return 'i'
	case 'ς':
		return 'σ'
	case '\u00a0', '\u202f':
		return ' '
	case '\u2019', '\u02bc':
		return '\''
	}
	r = unicode.ToLower(r)
	if bare, ok := greek[r]; ok {
		return bare
	}
	return r
}

// greek vowels without their accents: Greek capitals bear none, "ΓΑΛΑ" is γάλα.
var greek = map[rune]rune{
	'ά': 'α', 'έ': 'ε', 'ή': 'η', 'ί': 'ι', 'ό': 'ο', 'ύ': 'υ', 'ώ': 'ω',
	'ϊ': 'ι', 'ϋ': 'υ', 'ΐ': 'ι', 'ΰ': 'υ',
}

func inWord(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) }

// Stem is one stem.
type Stem struct {
	text  []rune
	first bool // only where a word begins
	last  bool // only where a word ends
	exact bool // capitals count
	other bool // means something else
}

// Parse reads one stem. What is empty, has a mark in the wrong place or begins
// or ends with a space is an error.
func Parse(s string) (Stem, error) {
	var p Stem
	s, p.other = strings.CutPrefix(s, "!")
	s, p.exact = strings.CutPrefix(s, "=")
	s, p.first = strings.CutPrefix(s, "<")
	s, p.last = strings.CutSuffix(s, ">")
	p.text = []rune(s)
	if !p.exact {
		p.text = folded(s)
	}
	if s == "" || strings.ContainsAny(s, "!=<>") || strings.TrimSpace(s) != s {
		return p, fmt.Errorf("the stem %q cannot be read", s)
	}
	return p, nil
}

// Whole is the stem of a word, or of several, that stands alone.
func Whole(word string) Stem { return Stem{text: folded(word), first: true, last: true} }

// Fold is a text as stems see it: in small letters, without what does not count.
func Fold(s string) string { return string(folded(s)) }

func folded(s string) []rune {
	out := []rune(s)
	for i, r := range out {
		out[i] = fold(r)
	}
	return out
}

// Other reports whether the stem is of a word that means something else.
func (p Stem) Other() bool { return p.other }

// String is the text that is looked for, without its marks.
func (p Stem) String() string { return string(p.text) }

// First is the first letter of the stem, in small.
func (p Stem) First() rune { return fold(p.text[0]) }

// Len is the number of letters of the stem.
func (p Stem) Len() int { return len(p.text) }

// At reports whether the stem stands at letter i.
func (p *Stem) At(text Letters, i int) bool {
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
func (p *Stem) fits(l letter, k int) bool {
	if p.exact {
		return l.r == p.text[k]
	}
	return l.low == p.text[k]
}

// Set is stems by their first letter in small, so that most letters of a text
// are passed with one look.
type Set map[rune][]Stem

// SetOf makes a set of stems.
func SetOf(stems []Stem) Set {
	out := Set{}
	for _, p := range stems {
		out[p.First()] = append(out[p.First()], p)
	}
	return out
}

// Longest is the number of letters of the longest stem of the set that stands
// at letter i, or 0.
func (s Set) Longest(text Letters, i int) (n int) {
	ps := s[text[i].low]
	for k := range ps {
		if p := &ps[k]; len(p.text) > n && p.At(text, i) {
			n = len(p.text)
		}
	}
	return n
}
