package tub

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
)

// said is what a label says, in words.
type said struct {
	names         []text.Para // one for each language
	mass, keep    text.Para   // without spans where there is nothing to say
	made, useBy   string
	tubs          string      // which of them this is; empty for none
	contains, may []text.Para // one for each language
	raw           []string    // "RAW …" in each language; none where that is not known
	frozen        bool
	word          map[string]string // the words of the label, in all languages at once
}

// keys are the words that a label may need.
func keys() []string {
	return []string{"tub.made", "tub.use-by", "card.batch", "card.keep", "tub.raw", "tub.to-cook", "tub.ready",
		"tub.opened", "tub.thawed", "tub.no-allergens"}
}

// teller finds the words of a label.
type teller struct {
	Tub
	found *diag.List
}

func tell(t Tub, found *diag.List) *said {
	w := &teller{t, found}
	if !w.languages() {
		return nil
	}
	w.asHere()
	s := &said{word: map[string]string{}}
	for _, k := range keys() {
		s.word[k] = strings.Join(w.each(k, nil), " · ")
	}
	w.dates(s)
	w.keep(s)
	s.mass = w.mass()
	if l := w.Langs[0]; t.Of > 0 {
		s.tubs = strings.Join(w.each("tub.of", map[string]string{"n": l.Plain(int64(t.N), 0), "m": l.Plain(int64(t.Of), 0)}), " · ")
	}
	for _, l := range w.Langs {
		s.names = append(s.names, w.name(l))
	}
	contains, may := t.allergens()
	if len(scale.ExpandFormula(t.Shop, t.Formula, unit.Kilogram)) == 0 {
		found.Errorf(t.Formula.Pos, "empty", "see check", "nothing is known to be in %s, so nobody can say which allergens are", t.Formula.ID)
	}
	s.contains, s.may = w.lines(page.Allergens, "contains", contains), w.lines(page.May, "may-contain", may)
	if Raw(t.Shop, t.Formula) {
		s.raw = w.each("tub.raw", nil)
	}
	return s
}

// languages checks that there are words for the label.
func (w *teller) languages() bool {
	if n := len(w.Langs); n < 1 || n > 2 {
		w.found.Errorf(w.Formula.Pos, "languages", "print a second label", "a tub label is in one or two languages, not %d", n)
		return false
	}
	for _, l := range w.Langs {
		if !l.Has("card") {
			w.found.Errorf(w.Formula.Pos, "words", "print it in English, French or German", "there are no words for tub labels in %s", l.Name())
			return false
		}
	}
	return true
}

// asHere takes the words of the shop's usual market, which may know allergens
// that others do not.
func (w *teller) asHere() {
	w.Langs = slices.Clone(w.Langs)
	for i, l := range w.Langs {
		if len(w.Shop.Profile.Markets) == 0 {
			return
		}
		v, err := l.For(strings.ToLower(w.Shop.Profile.Markets[0].V))
		if err != nil {
			w.found.Errorf(w.Formula.Pos, "words", "complete the file of the market", "the tub label: %v", err)
			continue
		}
		w.Langs[i] = v
	}
}

// each is a template in every language, what they share only once.
func (w *teller) each(key string, slots map[string]string) []string {
	var out []string
	for _, l := range w.Langs {
		s, err := l.Fill(key, slots)
		if err != nil {
			w.found.Errorf(w.Formula.Pos, "words", "complete the language file", "the tub label: %v", err)
		}
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return out
}

// name is the formula's name; the first is the large one.
func (w *teller) name(l *words.Lang) text.Para {
	v, ok := shop.In(w.Formula.Name, l.Code())
	if !ok || strings.TrimSpace(v.V) == "" {
		w.found.Errorf(w.Formula.Pos, "translation", "add it to the file, or print the label without this language",
			"the name of %s is not said in %s", w.Formula.ID, l.Name())
	}
	if l == w.Langs[0] {
		return flow.Strong(page.Name, v.Pos, v.V)
	}
	return flow.Words(page.Note, v.Pos, v.V)
}

// dates says the days; a batch without a code, or without a life, cannot be
// told from yesterday's.
func (w *teller) dates(s *said) {
	end, ok := w.UseBy()
	switch {
	case !ok:
		w.found.Errorf(w.Formula.Pos, "keep", "write keep: with store, temp and life", "how long %s keeps is not said", w.Formula.ID)
	case end.Before(w.Made):
		w.found.Errorf(w.Formula.Keep.Life.Pos, "past", "use a fresh part", "%s was over on %s, before it was made", w.Formula.ID, end)
	}
	if strings.TrimSpace(w.Batch) == "" {
		w.found.Errorf(w.Formula.Pos, "batch", "give its batch code", "the tub of %s has no batch", w.Formula.ID)
	}
	s.made, s.useBy = w.Langs[0].Date(w.Made, words.Day), w.Langs[0].Date(end, words.Day)
}

// keep says where the tub is kept: the temperature in both scales, or the word
// of the place where none is stated.
func (w *teller) keep(s *said) {
	k := w.Formula.Keep
	if k == nil {
		return
	}
	s.frozen = k.Store.V == "frozen"
	words := w.each("carton."+k.Store.V, nil)
	if k.Temp.Set() {
		words = []string{w.Langs[0].Temp(k.Temp.V, true)}
	}
	s.keep = flow.Strong(page.Keep, k.Pos, strings.Join(words, " · "))
}

// mass is what is in the tub, as a kitchen scale shows it.
func (w *teller) mass() text.Para {
	l, m := w.Langs[0], w.Mass
	if m <= 0 {
		return text.Para{}
	}
	s := l.MassIn(m, "kg", 2)
	switch {
	case m < 100*unit.Gram:
		s = l.MassIn(m, "g", 1)
	case m < 10*unit.Kilogram:
		s = l.MassIn(m, "g", 0)
	}
	return flow.Strong(page.Amount, w.Formula.Pos, s)
}

// lines says allergens in each language, their names in bold.
func (w *teller) lines(role page.Role, key string, ids []string) []text.Para {
	var out []text.Para
	for _, l := range w.Langs {
		if len(ids) > 0 {
			out = append(out, w.line(l, role, key, ids))
		}
	}
	return out
}

func (w *teller) line(l *words.Lang, role page.Role, key string, ids []string) text.Para {
	var names []string
	for _, id := range ids {
		name, _, err := l.Allergen(id)
		if err != nil {
			w.found.Errorf(w.Formula.Pos, "words", "write an allergen of the list, or print it in another language", "the tub label: %v", err)
			return text.Para{}
		}
		names = append(names, name)
	}
	list := l.Join(names)
	s, err := l.Fill(key, map[string]string{"list": list})
	if err != nil {
		w.found.Errorf(w.Formula.Pos, "words", "complete the language file", "the tub label: %v", err)
	}
	before, after, _ := strings.Cut(s, list)
	return text.Para{Role: role, Src: w.Formula.Pos, Spans: []text.Span{{Text: before}, {Text: list, Bold: true}, {Text: after}}}
}
