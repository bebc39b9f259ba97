package card

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/words"
)

// told is one text in each language of the card.
type told struct {
	In  []string
	Src diag.Pos
}

// empty reports that there is nothing to say.
func (t told) empty() bool { return len(t.In) == 0 }

// first is the text in the first language.
func (t told) first() string {
	if t.empty() {
		return ""
	}
	return t.In[0]
}

// joined is the text in all languages on one line, a text that is the same in
// both only once: "oven · four".
func (t told) joined() string { return strings.Join(slices.Compact(slices.Clone(t.In)), " · ") }

// numbered is a figure, which is written once whatever the languages.
func numbered(s string, src diag.Pos) told { return told{[]string{s}, src} }

// teller finds the words of a card in its languages.
type teller struct {
	Card
	found *diag.List
}

// each asks every language.
func (t *teller) each(src diag.Pos, ask func(l *words.Lang) (string, error)) told {
	out := told{Src: src}
	for _, l := range t.Langs {
		s, err := ask(l)
		if err != nil {
			t.found.Errorf(src, "words", "print the card in another language, or complete the language file", "%v", err)
		}
		out.In = append(out.In, s)
	}
	return out
}

// word is a word of the trade.
func (t *teller) word(key string) told {
	return t.each(diag.Pos{}, func(l *words.Lang) (string, error) { return l.Word(key) })
}

// fill is a template with one slot.
func (t *teller) fill(key, slot string, value func(l *words.Lang) string) told {
	return t.each(diag.Pos{}, func(l *words.Lang) (string, error) {
		return l.Fill(key, map[string]string{slot: value(l)})
	})
}

// count is a phrase with a whole number.
func (t *teller) count(key string, n int64) told {
	return t.each(diag.Pos{}, func(l *words.Lang) (string, error) { return l.Count(key, n) })
}

// own is a text of the shop in every language of the card; a missing
// translation is an error, because half a card is worse than none.
func (t *teller) own(w shop.Words, pos diag.Pos, what string) told {
	out := told{Src: pos}
	for i, l := range t.Langs {
		v, ok := shop.In(w, l.Code())
		if !ok || strings.TrimSpace(v.V) == "" {
			t.found.Errorf(pos, "translation", fmt.Sprintf("add %q, or print the card without this language", l.Code()),
				"%s is not said in %s", what, l.Name())
		}
		if i == 0 && ok {
			out.Src = v.Pos
		}
		out.In = append(out.In, v.V)
	}
	return out
}

// maybe is own for a text that may be left out as a whole.
func (t *teller) maybe(w shop.Words, pos diag.Pos, what string) told {
	if len(w) == 0 {
		return told{}
	}
	return t.own(w, pos, what)
}

// once puts a figure that every language repeats only into the first.
func once(t told, figure string) told {
	for i := 1; i < len(t.In); i++ {
		t.In[i] = strings.TrimSpace(strings.Replace(t.In[i], figure, "", 1))
	}
	return numbered(t.joined(), t.Src)
}

// with joins texts of the same languages: "makes 760 g" and the like.
func with(sep string, parts ...told) told {
	var out told
	for _, p := range parts {
		switch {
		case p.empty():
			continue
		case out.empty():
			out = told{slices.Clone(p.In), p.Src}
			continue
		}
		for len(out.In) < len(p.In) {
			out.In = append(out.In, out.In[0])
		}
		for i := range out.In {
			out.In[i] += sep + p.In[min(i, len(p.In)-1)]
		}
	}
	return out
}
