package claim

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"chablon/labels/stem"
)

// phrase is the words of one claim: "free from {x}".
type phrase struct {
	about  string
	tokens []string
}

const slot = "{x}"

// phraseOf reads a phrase; a hyphen in it is as good as a space.
func phraseOf(about, s string) (phrase, error) {
	p := phrase{about, strings.FieldsFunc(stem.Fold(s), func(r rune) bool { return r == ' ' || r == '-' || r == '\'' })}
	slots := strings.Count(s, slot)
	if len(p.tokens) == 0 || (about == "x") != (slots == 1) || slots > 1 || strings.ContainsAny(s, "<>=!") {
		return p, fmt.Errorf("the phrase %q cannot be read", s)
	}
	return p, nil
}

// head is what the first word of a phrase begins with, and whether a thing
// follows in that word: "" where a thing begins it.
func (p phrase) head() (begins string, isSlot bool) {
	begins, _, isSlot = strings.Cut(p.tokens[0], slot)
	return begins, isSlot
}

// word is one word of a text.
type word struct {
	low      string // in small letters
	from, to int    // in bytes
	gap      string // what stands between it and the word before
}

// wordsOf cuts a text into words: letters, marks and figures.
func wordsOf(text string) []word {
	var out []word
	end := 0
	inside := func(r rune) bool { return unicode.IsLetter(r) || unicode.IsMark(r) || unicode.IsDigit(r) }
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		if !inside(r) {
			i += n
			continue
		}
		from := i
		for i < len(text) {
			if r, n = utf8.DecodeRuneInString(text[i:]); !inside(r) {
				break
			}
			i += n
		}
		out = append(out, word{stem.Fold(text[from:i]), from, i, text[end:from]})
		end = i
	}
	return out
}

// scan is one text that is being looked through.
type scan struct {
	lang  *Lang
	text  string
	words []word
	names func(string) []Span
	spans []Span // of things, once they are asked for
	known bool
	found []Found
}

// things are the places where the text names an allergen or a thing.
func (s *scan) things() []Span {
	if !s.known {
		s.spans, s.known = s.lang.thingsIn(s.text, s.names), true
	}
	return s.spans
}

func (l *Lang) thingsIn(text string, names func(string) []Span) []Span {
	out := names(text)
	cut := stem.Cut(text)
	for id, t := range l.things {
		out = append(out, t.spans(id, cut)...)
	}
	return out
}

// try holds a phrase against the words from i on.
func (s *scan) try(p phrase, i int) {
	from := s.words[i].from
	for k, t := range p.tokens {
		at := i + k
		if t == "." {
			if at == len(s.words) || stops(s.words[at].gap) {
				s.add(p.about, from, s.words[at-1].to)
			}
			return
		}
		if at >= len(s.words) || k > 0 && stops(s.words[at].gap) {
			return
		}
		before, after, isSlot := strings.Cut(t, slot)
		switch {
		case isSlot && before == "" && after == "" && k == 0:
			s.behind(p, i)
			return
		case isSlot && before == "" && after == "":
			s.list(from, at)
			return
		case isSlot && before != "":
			s.beginning(before, at)
			return
		case isSlot:
			s.ending(after, at)
			return
		case !fits(t, s.words[at].low):
			return
		}
	}
	last := i + len(p.tokens) - 1
	if p.about == Plant && s.oily(i, last) || p.tokens[0] == "0" && s.figure(i) {
		return
	}
	s.add(p.about, from, s.words[last].to)
}

// fits compares one word with a word of a phrase; * is up to five letters.
func fits(pattern, word string) bool {
	if start, open := strings.CutSuffix(pattern, "*"); open {
		rest, ok := strings.CutPrefix(word, start)
		return ok && utf8.RuneCountInString(rest) <= 5
	}
	return pattern == word
}

// stops reports whether a sentence or a part of it ends between two words.
func stops(gap string) bool {
	if gap == "–" || gap == "—" {
		return false // a dash where a hyphen is meant
	}
	return strings.ContainsAny(gap, ".,;:!?()[]/|•–—·&+")
}

// figure reports whether word i is only the end of a figure: the 0 of 4.0.
func (s *scan) figure(i int) bool {
	return i > 0 && len(s.words[i].gap) == 1 && strings.ContainsAny(s.words[i].gap, ".,")
}

// oily reports whether oil or fat stands beside a word for plants: vegetable
// oil is an ingredient and no promise.
func (s *scan) oily(first, last int) bool {
	for k := max(0, first-2); k < min(len(s.words), last+4); k++ {
		if slices.ContainsFunc(s.lang.oil, func(o string) bool { return strings.Contains(s.words[k].low, o) }) {
			return true
		}
	}
	return false
}

func (s *scan) add(about string, from, to int) {
	s.found = append(s.found, Found{about, from, to})
}

// list takes the things that follow "without": the first, and those that are
// strung to it.
func (s *scan) list(from, at int) {
	if s.words[at-1].low == "0" && s.figure(at-1) {
		return
	}
	for at < len(s.words) && slices.Contains(s.lang.skip, s.words[at].low) && !stops(s.words[at].gap) {
		at++
	}
	ids, next := s.thingAt(at)
	if len(ids) == 0 || stops(s.words[at].gap) {
		return
	}
	to := next - 1
	var more []string
	for pending := next; pending < len(s.words); {
		strung := slices.Contains(s.lang.and, s.words[pending].low)
		comma := strings.TrimSpace(s.words[pending].gap)
		if strung && !stops(s.words[pending].gap) {
			pending++
		} else if comma != "," && comma != "/" && comma != "&" {
			break
		}
		found, after := s.thingAt(pending)
		if len(found) == 0 {
			break
		}
		more, pending = append(more, found...), after
		if strung || comma == "/" || comma == "&" { // only now it is sure that the commas were of the list
			ids, more, to = append(ids, more...), nil, after-1
		}
	}
	for _, id := range ids {
		s.add(id, from, s.words[to].to)
	}
}

// thingAt names what begins at word i, and the word behind it.
func (s *scan) thingAt(i int) (ids []string, next int) {
	if i >= len(s.words) {
		return nil, i
	}
	end := 0
	for _, t := range s.things() {
		if t.From >= s.words[i].from && t.From < s.words[i].to && !slices.Contains(ids, t.ID) {
			ids, end = append(ids, t.ID), max(end, t.To)
		}
	}
	for next = i + 1; next < len(s.words) && s.words[next].from < end; {
		next++
	}
	return ids, next
}

// behind takes a thing with the words that follow it: "nut free", and before it
// others whose ending was left out: "milk- and egg-free".
func (s *scan) behind(p phrase, i int) {
	ahead := s.words[i+1 : min(len(s.words), i+6)] // a thing is of five words at most
	if !slices.ContainsFunc(ahead, func(w word) bool { return fits(p.tokens[1], w.low) }) {
		return
	}
	ids, next := s.thingAt(i)
	if len(ids) == 0 {
		return
	}
	for k, t := range p.tokens[1:] {
		if next+k >= len(s.words) || stops(s.words[next+k].gap) || !fits(t, s.words[next+k].low) {
			return
		}
	}
	last := next + len(p.tokens) - 2
	if follows := last + 1; follows < len(s.words) && slices.Contains([]string{"range", "from", "of"}, s.words[follows].low) && !stops(s.words[follows].gap) {
		return // milk free-range, milk free from
	}
	if strings.TrimSpace(s.words[next].gap) == "" {
		more, first := s.strungTo(i)
		ids, i = append(ids, more...), first
	}
	s.claimed(ids, i, last)
}

// strungTo takes the things that are strung before word i from the beginning of the
// text on: "Milk and egg free". Where a hyphen binds the last of them, "Butter
// and gluten-free flour", nobody asks for them.
func (s *scan) strungTo(i int) (ids []string, first int) {
	k := i
	for k > 0 {
		gap := strings.TrimSpace(s.words[k].gap)
		switch {
		case gap == "" && k > 1 && slices.Contains(s.lang.and, s.words[k-1].low):
			k -= 2
		case gap == "&" || gap == "/" || gap == "," && k < i:
			k--
		default:
			return nil, i
		}
		more, _ := s.thingAt(k)
		if len(more) == 0 {
			return nil, i
		}
		ids = append(ids, more...)
	}
	return ids, k
}

// ending takes a word of which a thing is the beginning: "glutenfrei", or, with
// a hyphen, "Gluten-frei".
func (s *scan) ending(suffix string, i int) {
	w := s.words[i]
	at := strings.LastIndex(w.low, suffix)
	if at < 0 || utf8.RuneCountInString(w.low[at+len(suffix):]) > 3 || exactly(suffix) && at+len(suffix) != len(w.low) {
		return
	}
	if at == 0 {
		if i > 0 && strings.TrimSpace(w.gap) == "-" {
			if ids, _ := s.thingAt(i - 1); len(ids) > 0 {
				s.claimed(ids, i-1, i)
			}
		}
		return
	}
	reach := 6 // bytes of other words between: Milch|eiweiß|frei
	if exactly(suffix) {
		reach = 2
	}
	var ids []string
	for _, t := range s.lang.thingsIn(w.low[:at], s.names) {
		if t.To > at-reach && !slices.Contains(ids, t.ID) {
			ids = append(ids, t.ID)
		}
	}
	if len(ids) > 0 {
		s.claimed(ids, i, i)
	}
}

// exactly reports whether an ending is so short that nothing may follow it.
func exactly(suffix string) bool { return utf8.RuneCountInString(suffix) < 3 }

// beginning takes a word of which a thing is the rest: "bezmléčný".
func (s *scan) beginning(prefix string, i int) {
	rest, ok := strings.CutPrefix(s.words[i].low, prefix)
	if !ok || rest == "" {
		return
	}
	for _, t := range s.lang.thingsIn(rest, s.names) {
		if t.From == 0 {
			s.claimed([]string{t.ID}, i, i)
		}
	}
}

// claimed notes the things, and those strung before the first word by a hyphen
// that stands for the ending.
func (s *scan) claimed(ids []string, first, last int) {
	for k := first; k >= 2 && slices.Contains(s.lang.and, s.words[k-1].low) && strings.HasPrefix(s.words[k-1].gap, "-"); k -= 2 {
		if more, _ := s.thingAt(k - 2); len(more) > 0 {
			ids, first = append(ids, more...), k-2
		}
	}
	for _, id := range ids {
		s.add(id, s.words[first].from, s.words[last].to)
	}
}
