package margin

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// Watch is something of a label that is to stay the same.
type Watch struct {
	// See gives what is watched in the facts now; was are those as they are
	// written.
	See func(was, now *declare.Facts) string
	// Said is the same in the words of the label; nil where See is what is said.
	Said func(*words.Label) string
	// Tell says what became of it; what differs in the words when left out.
	Tell func(was, now *declare.Facts) []Change
	// Only leaves changes out that are not of what is watched; nil for none.
	Only func(Change) bool
}

// Whole watches every word and figure of the label: whatever changes it makes
// the approval fall.
func Whole() Watch {
	return Watch{See: func(_, f *declare.Facts) string { return f.Outline() }, Said: func(l *words.Label) string { return sentences(l) + table(l) }}
}

// Words watches all but the figures of the nutrition declaration: the list, its
// order, its percentages, allergens, statements.
func Words() Watch {
	return Watch{See: func(_, f *declare.Facts) string {
		bare := *f
		bare.Nutrition = nil
		return bare.Outline()
	}, Said: sentences, Only: func(c Change) bool { return c.Sort != Nutrition }}
}

// Tolerance watches whether each figure of the nutrition declaration, as it is
// printed now, would still be within the tolerance of the market. What the
// market has no tolerance for is not watched.
func Tolerance(m *market.Market) Watch {
	out := func(was, now *declare.Facts) (all []Change) {
		if was.Nutrition == nil || now.Nutrition == nil {
			return nil
		}
		for i, r := range was.Nutrition.Rows {
			printed := r.Shown.Amount()
			leeway, ok := m.Leeway(r.Key, printed)
			if exact := now.Nutrition.Rows[i].Exact; ok && market.Amount(abs(int64(exact-printed))) > leeway.Amount {
				all = append(all, Change{Sort: Nutrition, Role: role.Nutrition, Key: r.Key, Was: grams(printed) + " ± " + grams(leeway.Amount), Now: grams(exact)})
			}
		}
		return all
	}
	return Watch{Tell: out, See: func(was, now *declare.Facts) string {
		if len(out(was, now)) > 0 {
			return "out"
		}
		return "in"
	}}
}

// sentences is all that a label says but for its table, a line for each
// particular.
func sentences(l *words.Label) string {
	var b strings.Builder
	for _, s := range particulars(l) {
		b.WriteString(string(s.Role) + ": " + s.Text + "\n")
	}
	return b.String()
}

// table is the nutrition declaration of a label.
func table(l *words.Label) string {
	if l.Table == nil {
		return ""
	}
	s := l.Table.Heading + l.Table.Per + l.Table.Portion + l.Table.Portions + l.Table.ReferenceOf + strings.Join(l.Table.Heads, "|") + "\n"
	for _, r := range l.Table.Rows {
		s += r.Name + ": " + strings.Join(r.Cells, " | ") + "\n"
	}
	return s
}

// particulars are those of a label that are sentences, in a fixed order.
func particulars(l *words.Label) []words.Said {
	out := append([]words.Said{l.Name}, l.Lists...)
	out = append(out, l.May, l.Net.Said, l.Date, l.Keep)
	return append(append(out, l.Statements...), l.Operator)
}

// Quantities watches the percentages of the lists.
func Quantities() Watch {
	printed := func(f *declare.Facts) (out []string) {
		for _, l := range f.Lists {
			walk(l.Parts, func(p declare.Part) {
				if p.Quid != nil {
					n, _ := market.RoundQuid(p.Quid.Used, p.Quid.Of)
					out = append(out, fmt.Sprint(entries([]declare.Part{p})[0], n, p.Quid.PerHundred))
				}
			})
		}
		return out
	}
	return Watch{See: func(_, f *declare.Facts) string { return strings.Join(printed(f), "\n") }, Only: func(c Change) bool { return c.Role == role.List }}
}

// Entries watches which names stand in the lists, in whatever order.
func Entries() Watch {
	return Watch{See: func(_, f *declare.Facts) string {
		var all []string
		for _, l := range f.Lists {
			all = append(all, entries(l.Parts)...)
		}
		slices.Sort(all)
		return strings.Join(all, "\n")
	}, Only: func(c Change) bool { return c.Role == role.List }}
}

// Allergens watches what the food contains and what it may contain.
func Allergens() Watch {
	return Watch{See: func(_, f *declare.Facts) string { return fmt.Sprint(f.Contains, f.May) },
		Tell: func(was, now *declare.Facts) (out []Change) {
			told := func(before, after []string, what role.Role) {
				for _, id := range before {
					if !slices.Contains(after, id) {
						out = append(out, Change{Sort: Wording, Role: what, Was: id})
					}
				}
				for _, id := range after {
					if !slices.Contains(before, id) {
						out = append(out, Change{Sort: Wording, Role: what, Now: id})
					}
				}
			}
			told(was.Contains, now.Contains, role.Allergens)
			told(was.May, now.May, role.May)
			return out
		}}
}

// Row watches one line of the nutrition declaration, as it is printed.
func Row(key string) Watch {
	at := func(f *declare.Facts) (out declare.Row) {
		if f.Nutrition != nil {
			for _, r := range f.Nutrition.Rows {
				if r.Key == key {
					out = r
				}
			}
		}
		return out
	}
	return Watch{See: func(_, f *declare.Facts) string {
		r := at(f)
		return fmt.Sprint(r.Shown, figure(r.Portion))
	}, Only: func(c Change) bool {
		return c.Key == key || strings.HasPrefix(key, "energy") && strings.HasPrefix(c.Key, "energy")
	}}
}

// grams is an amount to a tenth of a gram.
func grams(a market.Amount) string { return unit.Mass(a).Round(100 * unit.Milligram).String() }

func figure(r *market.Rounded) string {
	if r == nil {
		return ""
	}
	return fmt.Sprint(*r)
}

// walk calls do for every part, however deep.
func walk(parts []declare.Part, do func(declare.Part)) {
	for _, p := range parts {
		do(p)
		walk(p.Inner, do)
	}
}
