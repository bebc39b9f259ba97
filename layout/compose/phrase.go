package compose

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/layout/text"
)

// Phrase is a particular of a label as a paragraph, its emphasis in bold;
// without words it has no spans.
func Phrase(s words.Said) text.Para {
	q := text.Para{Role: s.Role, Src: s.Src}
	at := 0
	for _, r := range s.Strong {
		q.Spans = append(q.Spans, text.Span{Text: s.Text[at:r[0]]}, text.Span{Text: s.Text[r[0]:r[1]], Bold: true})
		at = r[1]
	}
	if at < len(s.Text) {
		q.Spans = append(q.Spans, text.Span{Text: s.Text[at:]})
	}
	return q
}

// Allergen is the name of an allergen in the first language.
func (t *Teller) Allergen(id string) string {
	name, _, err := t.Lang().Allergen(id)
	return t.or(name, err)
}

// Allergens is a template of the first language, such as "contains", with the
// names of allergens in its list, in bold; without ids it has no spans.
func (t *Teller) Allergens(role role.Role, key string, ids []string, at diag.Pos) text.Para {
	q := text.Para{Role: role, Src: at}
	var names []string
	for _, id := range ids {
		names = append(names, t.Allergen(id))
	}
	if len(names) == 0 {
		return q
	}
	said, err := t.Lang().Emphasise(key, "list", t.Lang().Join(names))
	said.Text = t.or(said.Text, err)
	said.Role, said.Src = role, at
	return Phrase(said)
}

// Unsure says of which ingredients nobody knows all that is in them; one without
// a name in the first language is named by its id.
func (t *Teller) Unsure(all []*shop.Ingredient) string {
	var names []string
	for _, i := range all {
		name := i.ID
		if n, ok := shop.In(i.Name, t.Lang().Code()); ok {
			name = n.V
		}
		names = append(names, strings.ReplaceAll(name, " ", NoBreak))
	}
	return t.Fill("card.allergens-unknown", map[string]string{"list": t.Lang().Join(names)})
}

// Long is words that are cut where a line ends rather than refused: names are
// the shop's, and its sheets must come.
func Long(role role.Role, at diag.Pos, s string, bold bool) text.Para {
	return text.Para{Role: role, Src: at, Anywhere: true, Spans: []text.Span{{Text: s, Bold: bold}}}
}

// Capital is s with a capital first letter.
func Capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
