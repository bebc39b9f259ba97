package compose

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
)

// NoBreak is a space at which no line ends.
const NoBreak = "\u00a0"

// Teller finds the words of one sheet in its languages, of which the first is
// that of the figures. What is missing it replaces by "?" and remembers, to be
// told in one finding by [Teller.Done].
type Teller struct {
	Langs []*words.Lang
	*told
}

// told is what the tellers of one sheet share.
type told struct {
	what    string
	at      diag.Pos
	found   *diag.List
	errors  int // found by others
	missing []string
}

// Tell begins to say a sheet: "run sheet". At is what is at fault when words
// are missing.
func Tell(what string, at diag.Pos, found *diag.List, langs ...*words.Lang) *Teller {
	return &Teller{langs, &told{what: what, at: at, found: found, errors: found.Errors()}}
}

// In is a teller of the same sheet in other languages, such as one of them.
func (t *Teller) In(langs ...*words.Lang) *Teller { return &Teller{langs, t.told} }

// Lang is the first language.
func (t *Teller) Lang() *words.Lang { return t.Langs[0] }

// Found is where findings go.
func (t *told) Found() *diag.List { return t.found }

// At is what the sheet is about, for words that come from nowhere else.
func (t *told) At() diag.Pos { return t.at }

// Speaks reports whether all languages have some sections ("card", "sheet").
// Where one has not, it adds a finding; do begins its hint, which ends with the
// languages that can be taken: "begin card-languages with".
func (t *Teller) Speaks(do string, sections ...string) bool {
	for _, l := range t.Langs {
		if !has(l, sections) {
			t.found.Errorf(t.at, "words", do+" "+able(sections), "there are no words for %s in %s", article(t.what), l.Name())
			return false
		}
	}
	return true
}

func has(l *words.Lang, sections []string) bool {
	return !slices.ContainsFunc(sections, func(s string) bool { return !l.Has(s) })
}

// able lists the languages that have some sections: "de, en or fr".
func able(sections []string) string {
	var codes []string
	for _, c := range words.Codes() {
		if l, ok := words.Get(c); ok && has(l, sections) {
			codes = append(codes, c)
		}
	}
	if n := len(codes) - 1; n > 0 {
		return strings.Join(codes[:n], ", ") + " or " + codes[n]
	}
	return strings.Join(codes, "")
}

func article(what string) string {
	if strings.ContainsAny(what[:1], "aeiou") {
		return "an " + what
	}
	return "a " + what
}

// Done tells what words are missing, and reports whether nothing was found to
// be wrong since [Tell].
func (t *told) Done() bool {
	if len(t.missing) > 0 {
		t.found.Errorf(t.at, "words", "complete the language file", "the %s: %s", t.what, strings.Join(t.missing, "; "))
		t.missing = nil
	}
	return t.found.Errors() == t.errors
}

// Pages are pages that were set, if nothing went wrong; what did is added to
// the findings, and then there are no pages.
func (t *told) Pages(pages []*page.Page, err error) []*page.Page {
	if err != nil {
		t.found.AddError(err, diag.Diag{Pos: t.at, Rule: "sheet", Hint: "report this: nothing may be printed", Msg: "the " + t.what + ": " + err.Error()})
	}
	if !t.Done() {
		return nil
	}
	return pages
}

// or is s, or "?" where it could not be found.
func (t *told) or(s string, err error) string {
	if err == nil {
		return s
	}
	if m := err.Error(); !slices.Contains(t.missing, m) {
		t.missing = append(t.missing, m)
	}
	return "?"
}

// Word is the words for a key in the first language.
func (t *Teller) Word(key string) string { return t.Fill(key, nil) }

// Fill is a template of the first language with its slots filled.
func (t *Teller) Fill(key string, slots map[string]string) string {
	return t.or(t.Lang().Fill(key, slots))
}

// Count is a phrase of the first language with a whole number.
func (t *Teller) Count(key string, n int64) string { return t.or(t.Lang().Count(key, n)) }

// Raw is the words for a key in the first language, slots and all.
func (t *Teller) Raw(key string) string { return t.or(t.Lang().Word(key)) }

// Words are the words for several keys; without a key there are none.
func (t *Teller) Words(keys ...string) []string {
	var out []string
	for _, k := range keys {
		out = append(out, t.Word(k))
	}
	return out
}

// Plain is a whole number.
func (t *Teller) Plain(n int64) string { return t.Lang().Plain(n, 0) }

// Page is "page 2 of 3".
func (t *Teller) Page(n, of int) string {
	return t.Fill("card.page", map[string]string{"n": t.Plain(int64(n)), "m": t.Plain(int64(of))})
}

// Each is a template in every language, what they share only once.
func (t *Teller) Each(key string, slots map[string]string) []string {
	var out []string
	for _, l := range t.Langs {
		if s := t.In(l).Fill(key, slots); !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// Joined is [Teller.Each] on one line: "oven · four".
func (t *Teller) Joined(key string, slots map[string]string) string {
	return strings.Join(t.Each(key, slots), " · ")
}

// Own is a text of the shop in the first language; what it is the text of is
// said when that language has none. Then it adds a finding at that place.
func (t *Teller) Own(w shop.Words, what string, at diag.Pos) shop.Text {
	v, ok := shop.In(w, t.Lang().Code())
	if !ok || strings.TrimSpace(v.V) == "" {
		t.found.Errorf(at, "translation", "add a line that begins with "+t.Lang().Code()+":, or print it in another language",
			"%s is not said in %s", what, t.Lang().Name())
		v.V, v.Pos = "?", at
	}
	return v
}

// Life is a shelf life: "1 month", "2 months 3 days".
func (t *Teller) Life(l unit.Life) string {
	var out []string
	if l.Months > 0 {
		out = append(out, t.Count("ticket.months", int64(l.Months)))
	}
	if l.Days > 0 || l.Months == 0 {
		out = append(out, t.Count("ticket.days", int64(l.Days)))
	}
	return strings.Join(out, NoBreak)
}

// Decimal is the decimal mark of the first language.
func (t *Teller) Decimal() string { return t.Lang().Decimal() }
