package words

import (
	"strings"
)

// phrase is text with the byte ranges to be set in bold.
type phrase struct {
	text   string
	strong [][2]int
}

// plain is a phrase without emphasis.
func plain(s string) phrase { return phrase{text: s} }

// bold is a phrase that is emphasised as a whole.
func bold(s string) phrase { return phrase{s, [][2]int{{0, len(s)}}} }

// then appends q to p.
func (p phrase) then(q phrase) phrase {
	out := phrase{p.text + q.text, p.strong[:len(p.strong):len(p.strong)]}
	for _, r := range q.strong {
		out.strong = append(out.strong, [2]int{r[0] + len(p.text), r[1] + len(p.text)})
	}
	return out
}

// joined strings phrases together as an ingredient list does.
func (l *Lang) joined(ps []phrase) phrase {
	var out phrase
	for i, p := range ps {
		if i > 0 {
			out = out.then(plain(l.Join([]string{"", ""})))
		}
		out = out.then(p)
	}
	return out
}

// say fills the template for a key with phrases; like [Lang.Fill] it lets
// nothing go missing.
func (l *Lang) say(key string, slots map[string]phrase) (phrase, error) {
	words := map[string]string{}
	for k, p := range slots {
		words[k] = p.text
	}
	if _, err := l.Fill(key, words); err != nil {
		return phrase{}, err
	}
	rest := l.entries[key].text
	var out phrase
	for {
		at := slotForm.FindStringIndex(rest)
		if at == nil {
			return out.then(plain(rest)), nil
		}
		out = out.then(plain(rest[:at[0]])).then(slots[strings.Trim(rest[at[0]:at[1]], "{}")])
		rest = rest[at[1]:]
	}
}

// Emphasise fills the template for a key as [Lang.Fill] does, with the value of
// one slot in bold: "Contains {list}" with its list.
func (l *Lang) Emphasise(key, slot, value string) (Said, error) {
	p, err := l.say(key, map[string]phrase{slot: bold(value)})
	return Said{Text: p.text, Strong: p.strong}, err
}
