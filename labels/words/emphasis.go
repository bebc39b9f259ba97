package words

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/claim"
	"chablon/labels/stem"
)

// Allergen returns what the law calls an allergen here, and the stems that
// name it inside compound or inflected words. The id is a trade name of
// Annex II such as "wheat", "pecan nuts" or "sulphites".
func (l *Lang) Allergen(id string) (name string, stems []string, err error) {
	if name, err = l.Word("allergen." + slug(id)); err != nil {
		return "", nil, fmt.Errorf("no words for the allergen %q in %s", id, l.file())
	}
	f, ok := l.search[slug(id)]
	if !ok {
		return "", nil, fmt.Errorf("no stems for the allergen %q in %s", id, l.file())
	}
	for _, p := range f.own {
		stems = append(stems, p.String())
	}
	return name, stems, nil
}

// AllergenFromMemory reports whether the name of an allergen was written from
// memory.
func (l *Lang) AllergenFromMemory(id string) bool { return l.FromMemory("allergen." + slug(id)) }

func slug(id string) string { return strings.ReplaceAll(strings.ToLower(id), " ", "-") }

// Emphasis finds the stems of the given allergens in the name of an
// ingredient. It returns the byte ranges to be set in bold (the whole word, or
// in languages that build compound words the stem with its inflection), in
// order and without overlap, and those allergens whose stem does not occur, so that the
// caller adds them in brackets. A stem is not found inside a longer word that
// means something else, be it a word of the language file ("buckwheat") or the
// name of another allergen ("noix" in "noix de cajou"), and not where the text
// says that it is absent ("milk-free margarine").
func (l *Lang) Emphasis(text string, allergens []string) (strong [][2]int, missing []string) {
	letters := stem.Cut(text)
	for _, id := range allergens {
		f, ok := l.search[slug(id)]
		var found [][2]int
		if ok {
			found = l.present(text, f.find(letters))
		}
		if len(found) == 0 && !slices.Contains(missing, id) {
			missing = append(missing, id)
		}
		strong = append(strong, found...)
	}
	return merge(strong), missing
}

// present leaves out what a text names only to say that it is absent.
func (l *Lang) present(text string, found [][2]int) [][2]int {
	if len(found) == 0 {
		return nil
	}
	claims := l.ClaimsIn(text)
	return slices.DeleteFunc(found, func(r [2]int) bool {
		return slices.ContainsFunc(claims, func(c claim.Found) bool { return c.Absent() && r[0] < c.To && r[1] > c.From })
	})
}

// merge orders ranges and joins those that overlap or touch.
func merge(in [][2]int) [][2]int {
	slices.SortFunc(in, func(a, b [2]int) int {
		if a[0] != b[0] {
			return a[0] - b[0]
		}
		return a[1] - b[1]
	})
	var out [][2]int
	for _, r := range in {
		if n := len(out); n > 0 && r[0] <= out[n-1][1] {
			out[n-1][1] = max(out[n-1][1], r[1])
			continue
		}
		out = append(out, r)
	}
	return out
}

// finder finds one allergen.
type finder struct {
	own    []stem.Stem // stems of the allergen
	others []stem.Stem // words that hide a stem
	word   bool        // a find is the whole word in which the stem stands

	mine, theirs stem.Set // own and others
}

// find returns the byte ranges of the stems: at each place the longest word
// wins, and the search goes on behind it.
func (f *finder) find(text stem.Letters) (out [][2]int) {
	f.each(text, func(from, end int) {
		out = append(out, [2]int{text.Byte(f.beginning(text, from)), text.Byte(f.ending(text, end))})
	})
	return out
}

// each goes through the stems from the left.
func (f *finder) each(text stem.Letters, do func(from, end int)) {
	for i := 0; i < text.Len(); {
		mine, theirs := f.mine.Longest(text, i), f.theirs.Longest(text, i)
		end := i + max(1, mine, theirs)
		if mine > 0 && mine >= theirs {
			do(i, end)
			end = f.ending(text, end)
		}
		i = end
	}
}

// stems returns the byte ranges of the bare stems.
func (f *finder) stems(text stem.Letters) (out [][2]int) {
	f.each(text, func(from, end int) { out = append(out, [2]int{text.Byte(from), text.Byte(end)}) })
	return out
}

// beginning goes back to where the word begins, where the language wants the
// whole of it ("[buttermilk]").
func (f *finder) beginning(text stem.Letters, i int) int {
	for f.word && i > 0 && text.InWord(i-1) && text.InWord(i) {
		i--
	}
	return i
}

// ending takes in the rest of the word where the language wants it, and
// otherwise an inflection of up to two letters ("hazelnut|s", "soy|a"); a
// longer rest is the other half of a compound ("Weizen|mehl").
func (f *finder) ending(text stem.Letters, end int) int {
	last := end
	for text.InWord(last) {
		last++
	}
	if f.word || last-end <= 2 {
		return last
	}
	return end
}

// compile builds the finders of all allergens.
func (l *Lang) compile() error {
	l.search = map[string]*finder{}
	var ids []string
	for _, k := range l.keys {
		id, ok := strings.CutPrefix(k, "stems.")
		if !ok {
			continue
		}
		f, err := finderOf(l.entries[k].text)
		if err != nil {
			return fmt.Errorf("%s: %w", k, err)
		}
		if name := l.entries["allergen."+id].text; name != "" {
			f.own = append(f.own, stem.Whole(name))
		}
		f.word = l.entries["emphasis"].text == "word"
		l.search[id] = f
		ids = append(ids, id)
	}
	l.ids = ids
	l.claims, _ = claim.Get(l.code)
	l.hide(ids)
	return nil
}

// finderOf reads the stems of one allergen.
func finderOf(stems string) (*finder, error) {
	f := &finder{}
	for s := range strings.SplitSeq(stems, ",") {
		p, err := stem.Parse(strings.TrimSpace(s))
		if err != nil {
			return nil, err
		}
		if p.Other() {
			f.others = append(f.others, p)
		} else {
			f.own = append(f.own, p)
		}
	}
	return f, nil
}

// hide lets the stems of each allergen hide shorter stems of the others.
func (l *Lang) hide(ids []string) {
	for _, id := range ids {
		f := l.search[id]
		for _, other := range ids {
			if other != id {
				f.others = append(f.others, l.search[other].own...)
			}
		}
		f.mine, f.theirs = stem.SetOf(f.own), stem.SetOf(f.others)
	}
}
