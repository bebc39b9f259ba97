package words

import (
	"fmt"
	"slices"
	"strings"
)

// Slots lists the slots of a template, each once, in their order.
func (l *Lang) Slots(key string) []string {
	var out []string
	for _, s := range slotForm.FindAllString(l.entries[key].text, -1) {
		if name := s[1 : len(s)-1]; !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// Fill returns the template for a key with its slots filled. A slot without a
// value, or a value without a slot, is an error: nothing is left out in
// silence.
func (l *Lang) Fill(key string, slots map[string]string) (string, error) {
	text, err := l.Word(key)
	if err != nil {
		return "", err
	}
	have := l.Slots(key)
	for _, s := range have {
		if slots[s] == "" {
			return "", fmt.Errorf("nothing to put into {%s} of %q in %s", s, key, l.file())
		}
	}
	if len(have) != len(slots) {
		return "", fmt.Errorf("%q in %s takes %d values (%s), not %d",
			key, l.file(), len(have), strings.Join(have, ", "), len(slots))
	}
	return slotForm.ReplaceAllStringFunc(text, func(s string) string { return slots[s[1:len(s)-1]] }), nil
}

// Join strings names together as an ingredient list does: "a, b, c".
func (l *Lang) Join(names []string) string { return strings.Join(names, ", ") }

// And strings names together as a sentence does: "a, b and c".
func (l *Lang) And(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := len(names) - 1
	return put(l.entries["list.and"].text, "a", l.Join(names[:last]), "b", names[last])
}

// put fills slots given as name, value pairs.
func put(template string, pairs ...string) string {
	return slotForm.ReplaceAllStringFunc(template, func(s string) string {
		for i := 0; i+1 < len(pairs); i += 2 {
			if s[1:len(s)-1] == pairs[i] {
				return pairs[i+1]
			}
		}
		return s
	})
}
