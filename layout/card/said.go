package card

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/layout/compose"
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
	*compose.Teller
	Card
}

// each asks every language.
func (t *teller) each(src diag.Pos, ask func(i int, t *compose.Teller) string) told {
	out := told{Src: src}
	for i, l := range t.Card.Langs {
		out.In = append(out.In, ask(i, t.In(l)))
	}
	return out
}

// word is a word of the trade.
func (t *teller) word(key string) told {
	return t.each(diag.Pos{}, func(_ int, t *compose.Teller) string { return t.Word(key) })
}

// both is a trade word in all languages of the card.
func (t *teller) both(key string) string { return t.word(key).joined() }

// fill is a template with one slot.
func (t *teller) fill(key, slot string, value func(l *words.Lang) string) told {
	return t.slots(key, diag.Pos{}, func(_ int, l *words.Lang) map[string]string { return map[string]string{slot: value(l)} })
}

// slots fills a template whose slots differ from language to language.
func (t *teller) slots(key string, src diag.Pos, value func(i int, l *words.Lang) map[string]string) told {
	return t.each(src, func(i int, t *compose.Teller) string { return t.Fill(key, value(i, t.Lang())) })
}

// count is a phrase with a whole number.
func (t *teller) count(key string, n int64) told {
	return t.each(diag.Pos{}, func(_ int, t *compose.Teller) string { return t.Count(key, n) })
}

// own is a text of the shop in every language of the card; a missing
// translation is an error, because half a card is worse than none.
func (t *teller) own(w shop.Words, pos diag.Pos, what string) told {
	src := pos
	out := t.each(pos, func(i int, t *compose.Teller) string {
		v := t.Own(w, what, pos)
		if i == 0 {
			src = v.Pos
		}
		return v.V
	})
	out.Src = src
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
