package margin

import (
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/role"
	"chablon/labels/words"
)

// Sort is what a change of a label is.
type Sort string

// The sorts.
const (
	Order     Sort = "order"     // two entries of a list change places
	Quantity  Sort = "quantity"  // a declared percentage
	Entry     Sort = "entry"     // an entry of a list comes or goes, is opened or closed
	Nutrition Sort = "nutrition" // a line of the nutrition declaration
	Wording   Sort = "words"     // other words
	Refused   Sort = "refused"   // nothing can be printed; Now is why
)

// Change is one thing that a label says otherwise: what it said and what it says
// then, in the words of the label. Either is empty where it says nothing.
type Change struct {
	Sort     Sort
	Role     role.Role
	Key      string // of a line of the nutrition declaration
	Was, Now string
}

// changes tells what becomes of what is watched.
func (t *trial) changes(watch int, s state) (out []Change) {
	w := t.watch[watch]
	switch {
	case s.refused != nil:
		return []Change{{Sort: Refused, Now: s.refused.Msg}}
	case w.Tell != nil:
		return w.Tell(t.base.facts, s.facts)
	}
	out = slices.Concat(t.sentences(s), t.table(s.label.Table))
	if w.Only != nil {
		out = slices.DeleteFunc(out, func(c Change) bool { return !w.Only(c) })
	}
	return out
}

// sentences tells which particulars differ.
func (t *trial) sentences(s state) (out []Change) {
	was, now := particulars(t.base.label), particulars(s.label)
	if len(was) == len(now) {
		for i := range was {
			if was[i].Text != now[i].Text {
				out = append(out, t.particular(s.facts, was[i], now[i]))
			}
		}
		return out
	}
	for _, w := range was {
		if !holds(now, w) {
			out = append(out, Change{Sort: Wording, Role: w.Role, Was: w.Text})
		}
	}
	for _, n := range now {
		if !holds(was, n) {
			out = append(out, Change{Sort: Wording, Role: n.Role, Now: n.Text})
		}
	}
	return out
}

func holds(all []words.Said, one words.Said) bool {
	return slices.ContainsFunc(all, func(s words.Said) bool { return s.Role == one.Role && s.Text == one.Text })
}

// particular tells how a particular differs.
func (t *trial) particular(f *declare.Facts, was, now words.Said) Change {
	c := Change{Sort: Wording, Role: was.Role}
	c.Was, c.Now = differ(was.Text, now.Text)
	if was.Role == role.List {
		c.Sort = sort(t.base.facts, f)
	}
	return c
}

// sort is what happens to the lists of two labels.
func sort(a, b *declare.Facts) Sort {
	for i := range min(len(a.Lists), len(b.Lists)) {
		was, now := entries(a.Lists[i].Parts), entries(b.Lists[i].Parts)
		switch {
		case slices.Equal(was, now):
			continue
		case slices.Equal(slices.Sorted(slices.Values(was)), slices.Sorted(slices.Values(now))):
			return Order
		}
		return Entry
	}
	return Quantity
}

// entries are the entries of a list with their inner ones, without quantities.
func entries(parts []declare.Part) (out []string) {
	for _, p := range parts {
		name := p.Ref + p.Group + p.Class
		for _, n := range p.Name {
			name += "|" + n.V.V
		}
		inner := entries(p.Inner)
		slices.Sort(inner)
		out = append(out, name+"("+strings.Join(inner, ",")+")")
	}
	return out
}

// table tells which lines of a nutrition declaration differ.
func (t *trial) table(now *words.Table) (out []Change) {
	was := t.base.label.Table
	if was == nil || now == nil || len(was.Rows) != len(now.Rows) {
		if was == now {
			return nil
		}
		return []Change{{Sort: Nutrition, Role: role.Nutrition}}
	}
	for i, r := range was.Rows {
		for j, c := range r.Cells {
			if j < len(now.Rows[i].Cells) && c != now.Rows[i].Cells[j] {
				out = append(out, Change{Nutrition, role.Nutrition, t.key(i), strings.TrimSpace(r.Name + " " + c), strings.TrimSpace(now.Rows[i].Name + " " + now.Rows[i].Cells[j])})
			}
		}
	}
	return out
}

// key is that of the line of the declaration that a line of the table says; ""
// where the table says several as one.
func (t *trial) key(i int) string {
	rows := t.base.facts.Nutrition.Rows
	if extra := len(rows) - len(t.base.label.Table.Rows); extra > 0 { // energy in two units is one line
		i += extra * min(i, 1)
	}
	if i >= len(rows) {
		return ""
	}
	return rows[i].Key
}

// differ cuts from two texts what they have in common at both ends, and gives
// the entries between commas that are left; of entries that only change places
// no inner ones.
func differ(a, b string) (was, now string) {
	x, y := listed(a), listed(b)
	for len(x) > 0 && len(y) > 0 && x[0] == y[0] {
		x, y = x[1:], y[1:]
	}
	for len(x) > 0 && len(y) > 0 && x[len(x)-1] == y[len(y)-1] {
		x, y = x[:len(x)-1], y[:len(y)-1]
	}
	return strings.Join(short(x, y), ", "), strings.Join(short(y, x), ", ")
}

// short takes the inner entries off what both have.
func short(all, other []string) []string {
	out := slices.Clone(all)
	for i, s := range all {
		if slices.Contains(other, s) {
			out[i], _, _ = strings.Cut(s, " (")
		}
	}
	return out
}

// listed cuts a text at its commas, but for those in brackets, and takes off its
// heading and its full stop.
func listed(text string) (out []string) {
	if head, rest, ok := strings.Cut(text, ": "); ok && !strings.ContainsAny(head, ",(") {
		text = rest
	}
	depth, from := 0, 0
	text = strings.TrimSuffix(text, ".")
	for i, c := range text {
		switch {
		case c == '(':
			depth++
		case c == ')':
			depth--
		case c == ',' && depth == 0:
			out, from = append(out, strings.TrimSpace(text[from:i])), i+1
		}
	}
	return append(out, strings.TrimSpace(text[from:]))
}
