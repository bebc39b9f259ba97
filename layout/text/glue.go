package text

import (
	"strings"
	"unicode"
)

// reach is how far glued looks, so that setting a line stays linear.
const reach = 24

// glued tells that a line must not end before t[at] although Unicode would
// allow it: not inside a number with its sign and unit ("88 ± 3 °C"), not
// before a percentage ("pear (41 %)"), not inside a date ("19. 3. 2026"), not
// before a lone dash, not beside a stub of one or two letters ("T-55").
func glued(t []rune, at int) bool {
	left, right := before(t, at), after(t, at)
	if len(left) == 0 || len(right) == 0 {
		return false
	}
	last, first := left[len(left)-1], right[0]
	if at > 0 && t[at-1] != ' ' {
		return stub(left, right)
	}
	switch {
	case percentage(t[at:min(len(t), at+reach)]), first == '℮', lone(right):
		return true
	case figure(left):
		return unitWord(right) || thousand(last, right)
	case ordinal(left), sign(last), capital(left), lone(left):
		return number(first) || sign(first)
	}
	return degree(left) && first == '(' && len(right) > 1 && (number(right[1]) || sign(right[1]))
}

// figure tells that w is a number, a bracket or sign before it allowed.
func figure(w []rune) bool {
	n := len(w)
	return number(w[n-1]) && n == skip(w, 0, func(r rune) bool {
		return number(r) || sign(r) || strings.ContainsRune("(.,/–", r)
	})
}

// ordinal tells that w is a day or month in a date such as "19. 3. 2026".
func ordinal(w []rune) bool {
	n := len(w)
	return n > 1 && n <= 3 && w[n-1] == '.' && unicode.IsDigit(w[n-2])
}

// before is the word that ends at t[at], blanks between left out.
func before(t []rune, at int) []rune {
	end := at
	for end > 0 && t[end-1] == ' ' {
		end--
	}
	start := end
	for start > 0 && end-start < reach && t[start-1] != ' ' && t[start-1] != '\n' {
		start--
	}
	return t[start:end]
}

// after is the word that begins at t[at].
func after(t []rune, at int) []rune {
	end := at
	for end < len(t) && end-at < reach && t[end] != ' ' && t[end] != '\n' {
		end++
	}
	return t[at:end]
}

// stub tells that a break after a hyphen, dash or slash would leave fewer than
// three letters on either side, or part a number.
func stub(left, right []rune) bool {
	last := left[len(left)-1]
	if !strings.ContainsRune("-‐–/", last) {
		return false
	}
	rest := left[:len(left)-1]
	if len(rest) == 0 {
		return true
	}
	return letters(rest, -1) < 3 || letters(right, 1) < 3
}

// letters counts the letters at the start (step 1) or end (step -1) of w.
func letters(w []rune, step int) int {
	n := 0
	for n < len(w) {
		r := w[n]
		if step < 0 {
			r = w[len(w)-1-n]
		}
		if !unicode.IsLetter(r) {
			break
		}
		n++
	}
	return n
}

// percentage tells that t begins with one: "41 %", "(12,5 %", "%41".
func percentage(t []rune) bool {
	i := skip(t, 0, func(r rune) bool { return r == '(' || r == '[' || sign(r) || r == ' ' })
	if i+1 < len(t) && t[i] == '%' {
		return unicode.IsDigit(t[i+1])
	}
	j := skip(t, i, func(r rune) bool { return unicode.IsDigit(r) || r == '.' || r == ',' })
	k := skip(t, j, space)
	return j > i && k < len(t) && t[k] == '%'
}

func skip(t []rune, i int, in func(rune) bool) int {
	for i < len(t) && in(t[i]) {
		i++
	}
	return i
}

func space(r rune) bool { return r == ' ' || r == 0xA0 || r == 0x202F || r == 0x2009 }

func number(r rune) bool { return unicode.IsDigit(r) || strings.ContainsRune("½¼¾", r) }

// sign leads a number, or joins two.
func sign(r rune) bool { return strings.ContainsRune("±×≤≥<>≈~+−", r) }

// lone tells that w is a dash, dot or joining sign standing by itself.
func lone(w []rune) bool { return len(w) == 1 && strings.ContainsRune("–—·=/±×", w[0]) }

// thousand tells that w continues a number grouped with spaces: "1 200".
func thousand(last rune, w []rune) bool {
	n := skip(w, 0, unicode.IsDigit)
	return unicode.IsDigit(last) && n == 3
}

// unitWord tells that w can be the unit of a number: at most three letters
// ("kg", "мл", "°C,", "min.") or kcal.
func unitWord(w []rune) bool {
	n := skip(w, 0, func(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune("°%µ²³", r) })
	return n >= 1 && n <= 3 || string(w[:n]) == "kcal"
}

// capital tells that w is one capital letter, as in "E 330" or "L 26076".
func capital(w []rune) bool { return len(w) == 1 && unicode.IsUpper(w[0]) }

func degree(w []rune) bool {
	s := string(w)
	return strings.HasSuffix(s, "°C") || strings.HasSuffix(s, "°F")
}
