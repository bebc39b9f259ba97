package prep

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/page"
)

const noBreak = "\u00a0"

// row is one line of a list: a heading over the rows below it, or a box to tick
// with cells.
type row struct {
	head  string
	cells []cell
	src   diag.Pos
}

// cell is what stands in a column: strong words with plain ones under them, or
// lines with a box to tick each. A cell with write is a box to write in.
type cell struct {
	strong, under string
	role          page.Role
	parts         []part
	write         bool
}

// part is a weight and what it is for.
type part struct{ mass, what string }

// teller finds the words of the lists.
type teller struct {
	Sheet
	found *diag.List
}

func (t *teller) word(key string) string { return t.fill(key, nil) }

func (t *teller) fill(key string, slots map[string]string) string {
	s, err := t.Lang.Fill(key, slots)
	if err != nil {
		t.found.Errorf(t.Shop.Profile.Pos, "words", "complete the language file", "the prep list: %v", err)
	}
	return s
}

func (t *teller) count(key string, n int64) string {
	s, err := t.Lang.Count(key, n)
	if err != nil {
		t.found.Errorf(t.Shop.Profile.Pos, "words", "complete the language file", "the prep list: %v", err)
	}
	return s
}

// name is a text of the shop in the language of the lists.
func (t *teller) name(w shop.Words, id string, at diag.Pos) string {
	v, ok := shop.In(w, t.Lang.Code())
	if !ok || strings.TrimSpace(v.V) == "" {
		t.found.Errorf(at, "translation", fmt.Sprintf("add %q, or print the list in another language", t.Lang.Code()),
			"the name of %s is not said in %s", id, t.Lang.Name())
		return id
	}
	return v.V
}

// heads are the words of columns.
func (t *teller) heads(keys ...string) []string {
	var out []string
	for _, k := range keys {
		s := ""
		if k != "" {
			s = t.word(k)
		}
		out = append(out, s)
	}
	return out
}

// step is how fine a mass is shown: grams, and tenths below 100 g.
func step(m unit.Mass) unit.Mass {
	if m < 100*unit.Gram {
		return unit.Gram / 10
	}
	return unit.Gram
}

func (t *teller) grams(m unit.Mass) string { return t.gramsIn(m.Round(step(m)), step(m)) }

func (t *teller) gramsIn(m, step unit.Mass) string {
	decimals := 0
	if step < unit.Gram {
		decimals = 1
	}
	return t.Lang.MassIn(m, "g", decimals)
}

// split rounds masses to a step so that what is shown adds up to their sum as
// shown: those with the largest remainders are rounded up (M. L. Balinski,
// H. P. Young, Fair Representation, 1982).
func split(exact []unit.Mass, step unit.Mass) []unit.Mass {
	var sum, shown unit.Mass
	out := make([]unit.Mass, len(exact))
	order := make([]int, len(exact))
	for i, m := range exact {
		out[i], order[i] = m/step*step, i
		sum, shown = sum+m, shown+out[i]
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return int((exact[b] - out[b] - exact[a] + out[a]) / max(1, step/1000))
	})
	for _, i := range order {
		if shown+step <= sum.Round(step) {
			out[i], shown = out[i]+step, shown+step
		}
	}
	return out
}

// capital is s with a capital first letter.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
