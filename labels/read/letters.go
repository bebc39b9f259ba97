package read

import (
	"strings"
	"unicode"

	"gopkg.in/yaml.v3"
)

// invisible reports whether a letter is one that nobody sees on paper: it
// parts a word for the search, not for the eye, so that an allergen in a name
// would not be found. Format characters (Unicode general category Cf: soft
// hyphen, zero width joiners and the like), fillers, variation selectors.
func invisible(r rune) bool {
	return unicode.In(r, unicode.Cf, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point) || r == 0x2800
}

// visible refuses a text with letters that nobody sees, and cautions against
// words whose letters are of two scripts: bуtter with a Cyrillic у reads as
// butter and is another word. Every text and every key comes by here.
func (d *decoder) visible(n *yaml.Node, text string) bool {
	for _, r := range text {
		if invisible(r) {
			d.wrong(n, "invisible", "write it again by hand", "%q holds a character that nobody sees: U+%04X", clip(seen(text)), r)
			return false
		}
	}
	if word, odd, ok := mixed(text); ok {
		d.found.Warnf(d.pos(n), "mixed-scripts", "write the word again by hand", "%q is written in two scripts: its %q is the %s letter U+%04X", clip(word), odd, ScriptOf(odd), odd)
	}
	return true
}

// seen is a text without what nobody sees.
func seen(text string) string {
	return strings.Map(func(r rune) rune {
		if invisible(r) {
			return -1
		}
		return r
	}, text)
}

// scripts are those of the languages that labels can be printed in.
var scripts = []struct {
	name  string
	table *unicode.RangeTable
}{{"Latin", unicode.Latin}, {"Greek", unicode.Greek}, {"Cyrillic", unicode.Cyrillic}}

// ScriptOf names the script of a letter, "Latin", "Greek" or "Cyrillic", or "".
func ScriptOf(r rune) string {
	for _, s := range scripts {
		if unicode.Is(s.table, r) {
			return s.name
		}
	}
	return ""
}

// mixed finds the first word with letters of two scripts: the word, and the
// letter of the script that has fewer in it.
func mixed(text string) (word string, odd rune, ok bool) {
	begin := -1
	for i, r := range text + " " {
		if in := unicode.IsLetter(r) || unicode.IsMark(r); in && begin < 0 {
			begin = i
		} else if !in && begin >= 0 {
			if odd, ok = oddOne(text[begin:i]); ok {
				return text[begin:i], odd, true
			}
			begin = -1
		}
	}
	return "", 0, false
}

// oddOne is the first letter of the scarcer of two scripts in a word.
func oddOne(word string) (rune, bool) {
	count := map[string]int{}
	for _, r := range word {
		if s := ScriptOf(r); s != "" {
			count[s]++
		}
	}
	if len(count) < 2 {
		return 0, false
	}
	least := ""
	for _, s := range scripts {
		if n := count[s.name]; n > 0 && (least == "" || n <= count[least]) {
			least = s.name
		}
	}
	for _, r := range word {
		if ScriptOf(r) == least {
			return r, true
		}
	}
	return 0, false
}
