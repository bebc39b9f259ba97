package gs1

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Encode writes els as one element string in the order given, with FNC1 after
// each element of variable length but the last, and none at the front: the
// symbol adds that one. Each value is checked against the Syntax Dictionary,
// and so is what must or must not go together; `also` are elements in other
// symbols on the same item, such as an SSCC in a symbol of its own.
func Encode(els []Element, also ...Element) (string, error) {
	if len(els) == 0 {
		return "", fmt.Errorf("no data for a bar code")
	}
	for i, e := range els {
		if err := Check(e); err != nil {
			return "", err
		}
		if slices.ContainsFunc(els[:i], func(f Element) bool { return f.AI == e.AI }) {
			return "", fmt.Errorf("(%s) %s is given twice", e.AI, Title(e.AI))
		}
	}
	if err := Together(slices.Concat(els, also)); err != nil {
		return "", err
	}
	return join(els), nil
}

func join(els []Element) string {
	var b strings.Builder
	for i, e := range els {
		b.WriteString(e.AI + e.Value)
		if i < len(els)-1 && !Fixed(e.AI) {
			b.WriteString(FNC1)
		}
	}
	return b.String()
}

// Together reports the first element that needs a companion it has not, or
// has one that it must not have. All elements on one item count, in whatever
// symbol they stand.
func Together(els []Element) error {
	for i, e := range els {
		d, err := lookup(e.AI)
		if err != nil {
			return err
		}
		for _, f := range els[:i] {
			if f.AI == e.AI && f.Value != e.Value {
				return fmt.Errorf("(%s) %s is given twice with different values, %q and %q", e.AI, d.title, f.Value, e.Value)
			}
		}
		if err := d.companions(els); err != nil {
			return err
		}
	}
	return nil
}

func (d *entry) companions(els []Element) error {
	for _, pattern := range d.ex {
		for _, f := range els {
			if f.AI != d.ai && matches(pattern, f.AI) {
				return fmt.Errorf("(%s) %s may not stand with (%s) %s", d.ai, d.title, f.AI, Title(f.AI))
			}
		}
	}
	for _, anyOf := range d.req {
		ok := slices.ContainsFunc(anyOf, func(all []string) bool {
			return !slices.ContainsFunc(all, func(p string) bool { return !has(els, p) })
		})
		if !ok {
			return fmt.Errorf("(%s) %s must stand with %s", d.ai, d.title, alternatives(anyOf))
		}
	}
	return nil
}

// alternatives writes "(01) GTIN or (02) CONTENT".
func alternatives(anyOf [][]string) string {
	var out []string
	for _, all := range anyOf {
		var names []string
		for _, p := range all {
			names = append(names, strings.TrimSpace("("+p+") "+Title(p)))
		}
		out = append(out, strings.Join(names, " with "))
	}
	return strings.Join(out, " or ")
}

// Order returns els with the item's own number first, then what has a
// predefined length, then the rest, each group in the order given: this takes
// the fewest separators (GGS 7.8.5 advises it).
func Order(els []Element) []Element {
	rank := func(e Element) int {
		d := dict().all[e.AI]
		switch {
		case d == nil || !d.fixed:
			return 2
		case d.key || e.AI == "02":
			return 0
		}
		return 1
	}
	out := slices.Clone(els)
	slices.SortStableFunc(out, func(a, b Element) int { return cmp.Compare(rank(a), rank(b)) })
	return out
}

// HRI is the human readable interpretation that stands by the bars: each AI in
// parentheses, which are never encoded (GGS 4.14).
func HRI(els []Element) string {
	var b strings.Builder
	for _, e := range els {
		b.WriteString("(" + e.AI + ")" + e.Value)
	}
	return b.String()
}
