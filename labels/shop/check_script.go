package shop

import (
	"strings"
	"unicode"

	"chablon/labels/read"
)

// otherScripts are the languages that are not written in Latin letters.
const otherScripts = " ar be bg el fa he hy ja ka kk ko ky mk mn ru sr tg th uk ur zh "

// foreignLetters: a word of a language that is written in Latin letters is
// written in them. "сосоа" in Cyrillic letters looks like cocoa and is found by no
// search; a letter alone, as in β-carotene, is a sign.
func (c *checker) foreignLetters() {
	look := func(w Written) {
		if strings.Contains(otherScripts, " "+w.Lang+" ") {
			return
		}
		for _, word := range strings.FieldsFunc(w.Text, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsMark(r) }) {
			if s := scriptOf(word); s != "" {
				c.caution(w.Pos, "foreign-letters", "write the word again by hand", "%q is written in %s letters, the language %s is not", word, s, w.Lang)
				return
			}
		}
	}
	EachWritten(c.Profile, look)
	c.ingredients(func(i *Ingredient) { EachWritten(i, look) })
	c.formulas(func(f *Formula) { EachWritten(f, look) })
	c.products(func(p *Product) { EachWritten(p, look) })
}

// scriptOf names the script of a word of several letters that has no Latin
// letter; of every other word "". A word in two scripts is told of by the
// reader.
func scriptOf(word string) string {
	script, n := "", 0
	for _, r := range word {
		switch s := read.ScriptOf(r); s {
		case "Latin":
			return ""
		case "":
		default:
			script, n = s, n+1
		}
	}
	if n < 2 {
		return ""
	}
	return script
}
