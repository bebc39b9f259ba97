package tub

import (
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/text"
)

// label is what a label says.
type label struct {
	formula       *shop.Formula
	names         []text.Para // one for each language
	mass, keep    text.Para   // without spans where there is nothing to say
	made, useBy   string
	batch         string
	tubs          string      // which of them this is; empty for none
	contains, may []text.Para // one for each language
	unsure        []text.Para // of which ingredients nobody knows what is in them, likewise
	raw           []string    // "RAW …" in each language; none where that is not known
	frozen        bool
	word          map[string]string // the words of the label, in all languages at once
}

// keys are the words that a label may need.
func keys() []string {
	return []string{"tub.made", "tub.use-by", "card.batch", "card.keep", "tub.raw", "tub.to-cook", "tub.ready",
		"tub.opened", "tub.thawed", "tub.no-allergens"}
}

// teller says a label.
type teller struct {
	*compose.Teller
	Tub
}

// content says a label; what is missing is told to t.
func content(t *compose.Teller, tub Tub) *label {
	w := &teller{t, tub}
	if !w.languages() {
		return nil
	}
	w.asHere()
	c := &label{formula: w.Formula, batch: w.Batch, word: map[string]string{}}
	for _, k := range keys() {
		c.word[k] = w.Joined(k, nil)
	}
	if w.Mass > 0 {
		c.mass = flow.Strong(role.Amount, w.Formula.Pos, mass(w.Lang(), w.Mass))
	}
	w.dates(c)
	w.keep(c)
	if w.Of > 0 {
		c.tubs = w.Joined("tub.of", map[string]string{"n": w.Plain(int64(w.N)), "m": w.Plain(int64(w.Of))})
	}
	w.foods(c)
	if declare.Raw(w.Shop, w.Formula) {
		c.raw = w.Each("tub.raw", nil)
	}
	return c
}

// languages checks that there are words for the label.
func (w *teller) languages() bool {
	if n := len(w.Teller.Langs); n < 1 || n > 2 {
		w.Found().Errorf(w.Formula.Pos, "languages", "print a second label", "a tub label is in one or two languages, not %d", n)
		return false
	}
	return w.Speaks("print it in", "card")
}

// asHere takes the words of the shop's usual market, which may know allergens
// that others do not.
func (w *teller) asHere() {
	markets := w.Shop.Profile.Markets
	if len(markets) == 0 {
		return
	}
	langs := slices.Clone(w.Teller.Langs)
	for i, l := range langs {
		v, err := l.For(strings.ToLower(markets[0].V))
		if err != nil {
			w.Found().Errorf(w.Formula.Pos, "words", "complete the file of the market", "the tub label: %v", err)
			continue
		}
		langs[i] = v
	}
	w.Teller = w.In(langs...)
}

// foods says in each language what it is and which allergens are in it, their
// names in bold.
func (w *teller) foods(c *label) {
	contains, may := declare.InFormula(w.Shop, w.Formula, declare.Known{Contains: w.Contains, May: w.May})
	if len(scale.ExpandFormula(w.Shop, w.Formula, unit.Kilogram)) == 0 {
		w.Found().Errorf(w.Formula.Pos, "empty", "see check", "nothing is known to be in %s, so nobody can say which allergens are", w.Formula.ID)
	}
	unsure := declare.UnsureIn(w.Shop, w.Formula)
	for i, l := range w.Teller.Langs {
		in := w.In(l)
		name := in.Own(w.Formula.Name, "the name of "+w.Formula.ID, w.Formula.Pos)
		if i == 0 {
			c.names = append(c.names, flow.Strong(role.Name, name.Pos, name.V))
		} else {
			c.names = append(c.names, flow.Words(role.Note, name.Pos, name.V))
		}
		if len(contains) > 0 {
			c.contains = append(c.contains, in.Allergens(role.Allergens, "contains", contains, w.Formula.Pos))
		}
		if len(may) > 0 {
			c.may = append(c.may, in.Allergens(role.May, "may-contain", may, w.Formula.Pos))
		}
		if len(unsure) > 0 {
			c.unsure = append(c.unsure, flow.Strong(role.Allergens, unsure[0].Pos, compose.Capital(in.Unsure(unsure))))
		}
	}
}

// dates says the days; a batch without a code, or without a life, cannot be
// told from yesterday's.
func (w *teller) dates(c *label) {
	end, ok := w.UseBy()
	switch {
	case !ok:
		w.Found().Errorf(w.Formula.Pos, "keep", "write keep: with store, temp and life", "how long %s keeps is not said", w.Formula.ID)
	case end.Before(w.Made):
		w.Found().Errorf(w.Formula.Keep.Life.Pos, "past", "use a fresh part", "%s was over on %s, before it was made", w.Formula.ID, end)
	}
	if strings.TrimSpace(w.Batch) == "" {
		w.Found().Errorf(w.Formula.Pos, "batch", "give its batch code", "the tub of %s has no batch", w.Formula.ID)
	}
	c.made, c.useBy = w.Lang().Date(w.Made, words.Day), w.Lang().Date(end, words.Day)
}

// keep says where the tub is kept: the temperature in both scales, or the word
// of the place where none is stated.
func (w *teller) keep(c *label) {
	k := w.Formula.Keep
	if k == nil {
		return
	}
	c.frozen = k.Store.V == "frozen"
	words := w.Each("carton."+k.Store.V, nil)
	if k.Temp.Set() {
		words = []string{w.Lang().Limit(k.Temp.V, true)}
	}
	c.keep = flow.Strong(role.Keep, k.Pos, strings.Join(words, " · "))
}

// mass is how much is in the tub, as a kitchen scale shows it.
func mass(l *words.Lang, m unit.Mass) string {
	switch {
	case m < 100*unit.Gram:
		return l.MassIn(m, "g", 1)
	case m < 10*unit.Kilogram:
		return l.MassIn(m, "g", 0)
	}
	return l.MassIn(m, "kg", 2)
}
