package prep

import (
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
)

// prep says the prep list.
func (t teller) prep() list {
	l := t.list("prep.title", "prep.do", t.Word("sheet.computed")+" "+t.Word("caution.local-rules"))
	l.cols = []col{{t.Word("prep.make"), isWords, 46}, {t.Word("prep.begin"), isRight, 0}, {t.Word("prep.in"), isFigure, 0},
		{t.Word("prep.out"), isFigure, 0}, {t.Word("prep.split"), isParts, 54}}
	last := -1
	for _, p := range t.order() {
		if n := t.daysBefore(p); t.Ready > 0 && n != last {
			l.rows, last = append(l.rows, row{head: t.when(n)}), n
		}
		l.rows = append(l.rows, t.make(p))
	}
	l.rows = append(l.rows, t.thaws()...)
	l.rows = append(l.rows, t.picks()...)
	return l
}

// make says one formula.
func (t teller) make(p scale.Prep) row {
	f := p.Formula
	n := t.daysBefore(p)
	if f.Keep != nil && f.Keep.Life.Set() && f.Keep.Life.V.End(t.Date.AddDays(-n)).Before(t.Date) {
		t.Found().Warnf(f.Keep.Life.Pos, "keep", "make it later, or open earlier", "%s is needed on %s, made %d days before, and keeps %s", f.ID, t.Date, n, f.Keep.Life.V)
	}
	return row{src: f.Pos, cells: []cell{
		{strong: t.name(f.Name, f.ID, f.Pos), under: t.about(p), role: role.Name},
		{strong: t.begin(p, n), role: role.Date},
		{strong: t.grams(weighed(p.Lines)), role: role.Amount},
		{strong: t.grams(p.Out), role: role.Amount},
		{parts: t.parts(p)},
	}}
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
func (t teller) parts(p scale.Prep) []part {
	var exact []unit.Mass
	for _, u := range p.For {
		exact = append(exact, u.Mass)
	}
	shown := scale.Split(exact, step(p.Out))
	seen := map[diag.Pos]int{}
	var out []part
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
		out = append(out, part{t.gramsIn(shown[i], step(p.Out)), what})
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

// thaws says what comes out of the freezer.
func (t teller) thaws() []row {
	if len(t.Thaw) == 0 {
		return nil
	}
	out := []row{{head: compose.Capital(t.Word("prep.thaw")) + " · " + t.Word("prep.thaw-do")}}
	for _, th := range t.Thaw {
		name, at := "", diag.Pos{}
		switch {
		case th.Formula != nil:
			name, at = t.name(th.Formula.Name, th.Formula.ID, th.Formula.Pos), th.Formula.Pos
		case th.Ingredient != nil:
			name, at = t.name(th.Ingredient.Name, th.Ingredient.ID, th.Ingredient.Pos), th.Ingredient.Pos
		}
		out = append(out, row{src: at, cells: []cell{{strong: name, role: role.Name}, {}, {strong: t.grams(th.Mass), role: role.Amount},
			{}, {under: t.Word("prep.out-at"), write: true}}})
	}
	return out
}

// picks says what assortments take of other products, and what is short.
func (t teller) picks() []row {
	if len(t.Day.Picks) == 0 {
		return nil
	}
	out := []row{{head: compose.Capital(t.Word("prep.pieces"))}}
	for _, p := range t.Day.Picks {
		about := t.Word("prep.made") + compose.NoBreak + t.Sheet.Lang.Plain(int64(p.Makes), 0)
		if p.Short() {
			about += "; " + t.Fill("prep.short", map[string]string{"n": t.Sheet.Lang.Plain(int64(p.Taken-p.Makes), 0)})
		}
		out = append(out, row{src: p.Product.Pos, cells: []cell{
			{strong: t.name(p.Product.Name, p.Product.ID, p.Product.Pos), role: role.Name}, {}, {}, {},
			{strong: t.Count("count.pieces", int64(p.Taken)), under: about, role: role.Amount}}})
	}
	return out
}
