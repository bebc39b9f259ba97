package prep

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/list"
)

// prep says the prep list.
func (t teller) prep() list.List {
	l := t.list("prep.title", "prep.do", t.Word("sheet.computed")+" "+t.Word("caution.local-rules"))
	l.Cols = []list.Col{{Head: t.Word("prep.make"), Share: 46}, {Head: t.Word("prep.begin"), Kind: list.Right}, {Head: t.Word("prep.in"), Kind: list.Figure},
		{Head: t.Word("prep.out"), Kind: list.Figure}, {Head: t.Word("prep.split"), Share: 54}}
	all := t.order()
	for k, i := range all {
		if head := t.head(i); head != "" && (k == 0 || i.made() != all[k-1].made()) {
			l.Rows = append(l.Rows, list.Row{Head: head})
		}
		l.Rows = append(l.Rows, i.row())
	}
	l.Rows = append(l.Rows, t.thaws()...)
	for _, d := range t.days()[:max(1, t.Sheet.Days)] {
		l.Rows = append(l.Rows, d.picks()...)
	}
	return l
}

// head is the heading of the day on which something is made; for one day without
// a time at which all is to be ready there is none.
func (t teller) head(i item) string {
	switch {
	case len(t.Then) > 0:
		return t.Sheet.Lang.Date(i.made(), words.Long)
	case t.Ready > 0 || i.before > 0:
		return i.when(i.before)
	}
	return ""
}

// row says one formula.
func (i item) row() list.Row {
	t, f, p := i.teller, i.Formula, i.Prep
	if f.Keep != nil && f.Keep.Life.Set() && f.Keep.Life.V.End(i.made()).Before(t.Date) {
		t.Found().Warnf(f.Keep.Life.Pos, "keep", "make it later, or open earlier", "%s is needed on %s, made %d days before, and keeps %s", f.ID, t.Date, i.before, f.Keep.Life.V)
	}
	return list.Row{Src: f.Pos, Cells: []list.Cell{
		{Strong: t.name(f.Name, f.ID, f.Pos), Under: t.about(p), Role: role.Name, Parts: t.weigh(p)},
		{Strong: t.begin(p, i.before), Role: role.Date},
		{Strong: t.grams(weighed(p.Lines)), Role: role.Amount},
		{Strong: t.grams(p.Out), Role: role.Amount},
		{Under: t.needed(), Parts: t.parts(p)},
	}}
}

// needed says for which day it is, where there are several.
func (t teller) needed() string {
	if len(t.Then) == 0 {
		return ""
	}
	return t.Fill("prep.for-day", map[string]string{"date": t.Sheet.Lang.Date(t.Date, words.Long)})
}

// weigh says what is weighed into it, as the scales of the bench show it.
func (t teller) weigh(p scale.Prep) (out []list.Part) {
	for _, a := range p.Lines {
		out = append(out, list.Part{Mass: list.GramsIn(t.Sheet.Lang, a.Shown, min(a.Step, unit.Gram)), What: t.line(a)})
	}
	if m := p.Medium; m != nil {
		out = append(out, list.Part{Mass: list.GramsIn(t.Sheet.Lang, m.Shown, min(m.Step, unit.Gram)), What: t.line(*m) + " – " + t.Word("prep.medium")})
	}
	return out
}

// line names what is weighed, as the formula calls it.
func (t teller) line(a scale.Amount) string {
	switch _, own := shop.In(a.Line.Name, t.Sheet.Lang.Code()); {
	case own:
		return t.name(a.Line.Name, a.Line.Ref(), a.Line.Pos)
	case a.Formula != nil:
		return t.name(a.Formula.Name, a.Formula.ID, a.Formula.Pos)
	}
	return t.name(a.Ingredient.Name, a.Ingredient.ID, a.Ingredient.Pos)
}

// weighed is all that is put in: without what a cooking medium gives.
func weighed(lines []scale.Amount) unit.Mass {
	var sum unit.Mass
	for _, a := range lines {
		sum += a.Exact
	}
	return sum
}

// about says how it keeps and in how many bowls it is made.
func (t teller) about(p scale.Prep) string {
	var out []string
	if k := p.Formula.Keep; k != nil && k.Life.Set() {
		s := t.Fill("prep.keeps", map[string]string{"life": t.Life(k.Life.V)})
		if k.Temp.Set() {
			s += ", " + strings.ReplaceAll(t.Sheet.Lang.Limit(k.Temp.V, true), " ", compose.NoBreak)
		}
		out = append(out, s)
	}
	if b, ok := p.Bowls(); ok && b.Vessels > 1 {
		s := t.Count("prep.bowls", int64(b.Vessels))
		if each := unit.Mass(b.Most); each > 0 {
			s += ", " + t.Fill("prep.bowl", map[string]string{"mass": t.grams(each)})
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

// parts says the weights to split it into. They add up to what comes out, as
// shown.
func (t teller) parts(p scale.Prep) []list.Part {
	var exact []unit.Mass
	for _, u := range p.For {
		exact = append(exact, u.Mass)
	}
	shown := scale.Split(exact, list.Step(p.Out))
	seen := map[diag.Pos]int{}
	var out []list.Part
	for i, u := range p.For {
		what := ""
		switch {
		case u.Formula != nil:
			what = t.name(u.Formula.Name, u.Formula.ID, u.Formula.Pos)
		case u.Product != nil:
			what = t.name(u.Product.Name, u.Product.ID, u.Product.Pos)
			if n := t.pieces(u.Product, seen[u.Line.Pos]); n > 0 {
				what += ", " + strings.ReplaceAll(t.Count("count.pieces", int64(n)), " ", compose.NoBreak)
			}
		}
		seen[u.Line.Pos]++
		if u.Medium {
			what += " – " + t.Word("prep.medium")
		}
		out = append(out, list.Part{Mass: list.GramsIn(t.Sheet.Lang, shown[i], list.Step(p.Out)), What: what})
	}
	return out
}

// pieces is how many pieces the n-th run of a product makes.
func (t teller) pieces(p *shop.Product, n int) unit.Count {
	for _, b := range t.Day.Runs {
		if b.Product == p {
			if n == 0 {
				return b.Pieces
			}
			n--
		}
	}
	return 0
}

// picks says what assortments take of other products, and what is short.
func (t teller) picks() []list.Row {
	if len(t.Day.Picks) == 0 {
		return nil
	}
	out := []list.Row{{Head: compose.Capital(t.Word("prep.pieces"))}}
	if day := t.needed(); day != "" {
		out[0].Head += " · " + day
	}
	for _, p := range t.Day.Picks {
		about := t.Word("prep.made") + compose.NoBreak + t.Sheet.Lang.Plain(int64(p.Makes), 0)
		if p.Short() {
			about += "; " + t.Fill("prep.short", map[string]string{"n": t.Sheet.Lang.Plain(int64(p.Taken-p.Makes), 0)})
		}
		out = append(out, list.Row{Src: p.Product.Pos, Cells: []list.Cell{
			{Strong: t.name(p.Product.Name, p.Product.ID, p.Product.Pos), Role: role.Name}, {}, {}, {},
			{Strong: t.Count("count.pieces", int64(p.Taken)), Under: about, Role: role.Amount}}})
	}
	return out
}
