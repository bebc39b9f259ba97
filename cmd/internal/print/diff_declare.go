package print

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/shop"
	"chablon/labels/words"
)

// saying is how the declaration of a product has changed, in the packs and
// markets in which it has changed alike.
type saying struct {
	in        []string
	allergens []string
	changes   []change
}

// change is one text that is not what it was.
type change struct{ what, was, now string }

// printed reports whether anything that is printed has changed.
func (s saying) printed() bool { return len(s.allergens)+len(s.changes) > 0 }

// declarations compares the declarations of a product, pack by pack and market
// by market.
func (d *differ) declarations(was, now *shop.Product) ([]saying, error) {
	var out []saying
	for _, k := range now.PackIDs() {
		for _, m := range d.new.marketCodes() {
			if _, ok := was.Pack(k); !ok {
				continue
			}
			a, err := d.old.Declare(DeclareRequest{ID: was.ID, Pack: k, Market: m, Made: d.new.Today})
			if err != nil {
				return nil, err
			}
			b, err := d.new.Declare(DeclareRequest{ID: now.ID, Pack: k, Market: m, Made: d.new.Today})
			if err != nil {
				return nil, err
			}
			if d.old.Found.Errors()+d.new.Found.Errors() > 0 {
				return nil, nil
			}
			out = d.compare(out, a, b)
		}
	}
	return out, nil
}

// compare adds what has changed between two declarations, joined with the same
// changes elsewhere.
func (d *differ) compare(out []saying, a, b *Declaration) []saying {
	s := saying{in: []string{b.Pack.ID.V + " " + code(b.Market)}, allergens: allergenChanges(a, b), changes: textChanges(a, b)}
	if a.Fingerprint != b.Fingerprint && a.Approval.Valid && !b.Approval.Valid {
		d.fallen = append(d.fallen, fmt.Sprintf("%s: %s, not %s (%s, %s)", b.Name(), b.Fingerprint, a.Fingerprint, a.Approval.By, a.Approval.On))
	}
	if a.Fingerprint == b.Fingerprint && !s.printed() {
		return out
	}
	for i, o := range out {
		if slices.Equal(o.allergens, s.allergens) && slices.Equal(o.changes, s.changes) {
			out[i].in = append(o.in, s.in...)
			return out
		}
	}
	return append(out, s)
}

// allergenChanges says which allergens come and go.
func allergenChanges(a, b *Declaration) []string {
	var out []string
	l := b.Langs[0]
	tell := func(what string, ids, other []string) {
		if gone := slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return slices.Contains(other, id) }); len(gone) > 0 {
			out = append(out, what+" "+named(l, gone))
		}
	}
	tell("now contains", b.Facts.Contains, a.Facts.Contains)
	tell("no longer contains", a.Facts.Contains, b.Facts.Contains)
	tell("now may contain", b.Facts.May, a.Facts.May)
	tell("no longer may contain", a.Facts.May, b.Facts.May)
	return out
}

// textChanges compares what is said in each language that both declare.
func textChanges(a, b *Declaration) []change {
	var out []change
	for _, now := range b.Told {
		i := slices.IndexFunc(a.Told, func(t *words.Label) bool { return t.Lang == now.Lang })
		if i < 0 {
			out = append(out, change{now.Lang, "–", "a new language of the label"})
			continue
		}
		was, said := spoken(a.Told[i]), spoken(now)
		for n, s := range said {
			if was[n].text != s.text {
				out = append(out, change{now.Lang + " " + s.what, was[n].text, s.text})
			}
		}
	}
	return out
}

// spokenText is one particular in one language.
type spokenText struct{ what, text string }

// spoken is all that a label says, always in the same order.
func spoken(t *words.Label) []spokenText {
	var lists, statements, rows []string
	for _, s := range t.Lists {
		lists = append(lists, starred(s))
	}
	for _, s := range t.Statements {
		statements = append(statements, s.Text)
	}
	if t.Table != nil {
		for _, r := range t.Table.Rows {
			rows = append(rows, r.Name+"\u00a0"+strings.Join(r.Cells, " | "))
		}
	}
	out := []spokenText{
		{"name", t.Name.Text}, {"list", strings.Join(lists, " ")}, {"may", starred(t.May)}, {"net", t.Net.Text},
		{"date", t.Date.Text}, {"keep", t.Keep.Text}, {"statements", strings.Join(statements, " ")},
		{"operator", t.Operator.Text}, {"use", t.Use.Text}, {"nutrition", strings.Join(rows, ", ")},
	}
	for i := range out {
		if out[i].text == "" {
			out[i].text = "–"
		}
	}
	return out
}

// tell writes how a declaration has changed, allergens first.
func (d *differ) tell(s saying) {
	d.line("  %s", strings.Join(s.in, ", "))
	for _, a := range s.allergens {
		d.entry("    ", "allergens", a)
	}
	if s.printed() && len(s.allergens) == 0 {
		d.entry("    ", "allergens", "as before")
	}
	for _, c := range s.changes {
		was, now := marked(c.was, c.now)
		d.line("    %s", c.what)
		d.entry("      ", "was", was)
		d.entry("      ", "now", now)
	}
	if !s.printed() {
		d.item("    ", "these labels read as before; masses, or words of another language, have changed")
	}
}
