package trace

import (
	"regexp"
	"slices"
	"strings"

	"chablon/labels/register"
)

// Reason is why something was withdrawn: a note for the house, and what is said
// of it to others, who must be told the reason (Reg. (EC) 178/2002 Art. 19).
// A book keeps it as one text, "glass found by the supplier | fr: Il peut
// contenir des éclats de verre."
type Reason struct {
	Note       string
	Said       []Saying // each language once
	Undeclared []string // ids of allergens that the food contains and its label does not name
}

// Saying is a reason in one language.
type Saying struct{ Lang, Text string }

const (
	parted     = " | "
	undeclared = "undeclared: "
)

var saying = regexp.MustCompile(`^([a-z]{2}): (.+)$`)

// ReadReason reads the reason of an event.
func ReadReason(why string) (r Reason) {
	var notes []string
	for part := range strings.SplitSeq(why, parted) {
		if list, ok := strings.CutPrefix(part, undeclared); ok {
			r.Undeclared = append(r.Undeclared, strings.Split(list, ", ")...)
		} else if m := saying.FindStringSubmatch(part); m != nil {
			r.say(m[1], m[2])
		} else {
			notes = append(notes, part)
		}
	}
	r.Note = strings.Join(notes, parted)
	return r
}

// say puts a text in the place of an older one of its language.
func (r *Reason) say(lang, text string) {
	r.Said = slices.DeleteFunc(r.Said, func(s Saying) bool { return s.Lang == lang })
	r.Said = append(r.Said, Saying{lang, text})
}

// In is what is said in a language, or "".
func (r Reason) In(lang string) string {
	for _, s := range r.Said {
		if s.Lang == lang {
			return s.Text
		}
	}
	return ""
}

// With is r with what a later reason of the same withdrawal adds to it.
func (r Reason) With(later Reason) Reason {
	out := Reason{Note: r.Note, Said: slices.Clone(r.Said), Undeclared: slices.Clone(r.Undeclared)}
	for _, s := range later.Said {
		out.say(s.Lang, s.Text)
	}
	for _, id := range later.Undeclared {
		if !slices.Contains(out.Undeclared, id) {
			out.Undeclared = append(out.Undeclared, id)
		}
	}
	return out
}

// Text is the reason as an event keeps it, which [ReadReason] reads. The error
// is a [*register.Error].
func (r Reason) Text() (string, error) {
	parts := []string{r.Note}
	for _, s := range r.Said {
		parts = append(parts, s.Lang+": "+s.Text)
	}
	if len(r.Undeclared) > 0 {
		parts = append(parts, undeclared+strings.Join(r.Undeclared, ", "))
	}
	for i, part := range parts {
		part, err := register.Text("the reason", part)
		if err != nil {
			return "", err
		}
		if strings.Contains(part+" ", parted) || i == 0 && (saying.MatchString(part) || strings.HasPrefix(part, undeclared)) {
			return "", refuse("write it in plain words", "the reason %q cannot be kept: it reads as several", part)
		}
		parts[i] = part
	}
	return strings.TrimPrefix(strings.Join(parts, parted), parted), nil
}
