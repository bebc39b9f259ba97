package follow

import (
	"strings"

	"chablon/cmd/internal/usage"
	"chablon/labels/trace"
	"chablon/labels/words"
)

// Reason is why something is withdrawn: a note for the house, what buyers are
// told, each as "fr=text", and the allergens that the label does not name.
func Reason(note string, told, undeclared []string) (trace.Reason, error) {
	r := trace.Reason{Note: strings.TrimSpace(note)}
	for _, s := range told {
		lang, text, _ := strings.Cut(s, "=")
		lang, text = strings.TrimSpace(lang), strings.TrimSpace(text)
		if text == "" {
			return r, usage.Errorf(`write it like --tell "en=Small pieces of glass may be in it."`, "%q does not say in which language something is said", s)
		}
		if _, ok := words.Get(lang); !ok {
			return r, usage.Unknown("language", lang, words.Codes())
		}
		if r.In(lang) != "" {
			return r, usage.Errorf("put it into one", "the reason is said twice in %s", lang)
		}
		r.Said = append(r.Said, trace.Saying{Lang: lang, Text: text})
	}
	for _, id := range undeclared {
		id = strings.TrimSpace(id)
		if err := allergen(id); err != nil {
			return r, err
		}
		r.Undeclared = append(r.Undeclared, id)
	}
	return r, nil
}

// allergen refuses an id that is none of an allergen.
func allergen(id string) error {
	en, _ := words.Get("en")
	if _, _, err := en.Allergen(id); err == nil {
		return nil
	}
	var ids []string
	for _, k := range en.Keys("label") {
		if slug, ok := strings.CutPrefix(k, "allergen."); ok {
			ids = append(ids, slug)
		}
	}
	return usage.Unknown("allergen", id, ids)
}
