package shop

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// place is where a sentence takes the amount of a line: {take:butter}.
var place = regexp.MustCompile(`\{take: ?([a-z0-9-]+)\}`)

// Said is a sentence with the amounts that it takes of lines put in, as amount
// writes them; a line that amount does not know keeps its name.
func Said(sentence string, amount func(ref string) (string, bool)) string {
	return place.ReplaceAllStringFunc(sentence, func(s string) string {
		ref := place.FindStringSubmatch(s)[1]
		if a, ok := amount(ref); ok {
			return a
		}
		return ref
	})
}

// takes lists the lines whose amounts a sentence takes, in order of their ids.
func takes(sentence string) []string {
	var all []string
	for _, m := range place.FindAllStringSubmatch(sentence, -1) {
		all = append(all, m[1])
	}
	slices.Sort(all)
	return all
}

// spokenTakes: what stands in braces in a sentence of a step is the amount of a
// line, the same in each language.
func (c *checker) spokenTakes() {
	c.sheets(func(s sheet) {
		for _, st := range s.steps {
			c.spoken(s, st, st.Do)
			c.spoken(s, st, st.Short)
		}
	})
}

// spoken is spokenTakes for one sentence.
func (c *checker) spoken(s sheet, st Step, said Words) {
	for _, e := range said {
		c.spokenIn(s, st, e.V)
		if first := said[0]; !slices.Equal(takes(first.V.V), takes(e.V.V)) {
			c.wrong(e.V.Pos, "take", fmt.Sprintf("take the same lines as in %s", first.Key.V), "step %s says other amounts in %s than in %s", st.ID.V, e.Key.V, first.Key.V)
		}
	}
}

// spokenIn is spokenTakes for a sentence in one language.
func (c *checker) spokenIn(s sheet, st Step, in Text) {
	refs := s.refs()
	for _, ref := range takes(in.V) {
		if !slices.Contains(refs, ref) && c.whole(s.pos) {
			c.wrong(in.Pos, "take", meant(ref, refs, "lines here are "+list(refs)), "step %s takes the amount of %q, and %s has no such line", st.ID.V, ref, s.name)
		}
	}
	if strings.ContainsAny(place.ReplaceAllString(in.V, ""), "{}") {
		c.wrong(in.Pos, "take", "write it like {take:butter}, with the id of a line; in quotes where a space follows the colon", "a brace in the sentence of step %s stands for nothing", st.ID.V)
	}
}
