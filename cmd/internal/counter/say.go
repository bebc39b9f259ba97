package counter

import (
	"cmp"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// say speaks to the visitor in one language.
type say struct{ l *words.Lang }

// spoken is the language of a request: the one that was chosen, else the first
// that the browser asks for and the counter has, as its base language.
func spoken(r *http.Request) say {
	if k, err := r.Cookie(languageName); err == nil {
		if l, ok := words.Get(k.Value); ok && l.Has("counter") {
			return say{l}
		}
	}
	for _, code := range accepted(r.Header.Get("Accept-Language")) {
		if l, ok := words.Get(code); ok && l.Has("counter") {
			return say{l}
		}
	}
	l, _ := words.Get("en") // part of the program
	return say{l}
}

// accepted are the base languages of an Accept-Language header (RFC 9110,
// 12.5.4), the most wanted first.
func accepted(header string) []string {
	type wish struct {
		code string
		q    float64
	}
	var all []wish
	for part := range strings.SplitSeq(header, ",") {
		tag, params, _ := strings.Cut(part, ";")
		q := 1.0
		if s, ok := strings.CutPrefix(strings.TrimSpace(params), "q="); ok {
			q, _ = strconv.ParseFloat(s, 64) // what cannot be read is not wanted
		}
		base, _, _ := strings.Cut(strings.TrimSpace(tag), "-")
		if q > 0 && len(all) < 50 {
			all = append(all, wish{strings.ToLower(base), q})
		}
	}
	slices.SortStableFunc(all, func(a, b wish) int { return cmp.Compare(b.q, a.q) })
	var out []string
	for _, w := range all {
		out = append(out, w.code)
	}
	return out
}

// Lang is the code of the language.
func (s say) Lang() string { return s.l.Code() }

// W is what the language says for a key of the counter.
func (s say) W(key string) string {
	text, err := s.l.Word("counter." + key)
	if err != nil {
		return key // a test asks for every key
	}
	return text
}

// F is W with its slots filled: name and value by turns.
func (s say) F(key string, pairs ...string) string {
	slots := map[string]string{}
	for i := 0; i+1 < len(pairs); i += 2 {
		slots[pairs[i]] = pairs[i+1]
	}
	text, err := s.l.Fill("counter."+key, slots)
	if err != nil {
		return key + " " + strings.Join(pairs, " ")
	}
	return text
}

// C is a phrase that is counted.
func (s say) C(key string, n int) string {
	text, err := s.l.Count("counter."+key, int64(n))
	if err != nil {
		return s.N(n) + " " + key
	}
	return text
}

// N is a number.
func (s say) N(n int) string { return s.l.Plain(int64(n), 0) }

// DateLong is a day in words.
func (s say) DateLong(d unit.Date) string { return s.l.Date(d, words.Long) }

// Languages are those that the pages speak.
func (s say) Languages() (out []option) {
	for _, code := range words.Codes() {
		if l, ok := words.Get(code); ok && l.Has("counter") {
			out = append(out, option{Value: code, Text: l.Name(), On: code == s.Lang()})
		}
	}
	return out
}

// Kind is what a kind of paper is called.
func (s say) Kind(name string) string { return s.W("kind." + name) }

// name is what something is called in the language of the page, or in the first
// that its file has; lang is which.
func (s say) name(of shop.Words, id string) named {
	if n, ok := shop.In(of, s.Lang()); ok {
		return named{Text: n.V, Lang: s.Lang()}
	}
	for _, e := range of {
		return named{Text: e.V.V, Lang: e.Key.V}
	}
	return named{Text: id}
}

// named is words in a language of their own.
type named struct{ Text, Lang string }

// option is one choice of a list.
type option struct {
	Value, Text, Lang string
	On                bool
}
