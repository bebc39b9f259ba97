package prep

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/page"
)

// prep says the prep list.
func (t *teller) prep() list {
	l := list{title: t.word("prep.title"), lead: t.word("prep.do"), shape: makeShape(),
		heads: t.heads("prep.make", "prep.begin", "prep.in", "prep.out", "prep.split"),
		foot:  t.word("sheet.computed") + " " + t.word("caution.local-rules")}
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

// order is what is made, the earliest day first; within a day as it is needed.
func (t *teller) order() []scale.Prep {
	out := slices.Clone(t.Day.Prep)
	slices.SortStableFunc(out, func(a, b scale.Prep) int { return t.daysBefore(b) - t.daysBefore(a) })
	return out
}

const day = 24 * unit.Hour

// start is when something must be begun, from the midnight before the day.
func (t *teller) start(p scale.Prep) unit.Span { return t.Ready - p.Lead }

// daysBefore is how many days before the day something is made: as few as let
// it begin no earlier than the kitchen opens.
func (t *teller) daysBefore(p scale.Prep) int {
	if late := t.Opens - t.start(p); t.Ready > 0 && late > 0 {
		return int((late + day - 1) / day)
	}
	return 0
}

// when is the heading of a day.
func (t *teller) when(n int) string {
	s := t.word("prep.today")
	switch {
	case n == 1:
		s = t.word("prep.day-before")
	case n > 1:
		s = t.fill("prep.days-before", map[string]string{"n": t.Lang.Plain(int64(n), 0)})
	}
	return capital(s) + " · " + t.Lang.Date(t.Date.AddDays(-n), words.Long)
}

// make says one formula.
func (t *teller) make(p scale.Prep) row {
	f := p.Formula
	n := t.daysBefore(p)
	if f.Keep != nil && f.Keep.Life.Set() && f.Keep.Life.V.End(t.Date.AddDays(-n)).Before(t.Date) {
		t.found.Warnf(f.Keep.Life.Pos, "keep", "make it later, or open earlier", "%s is needed on %s, made %d days before, and keeps %s", f.ID, t.Date, n, f.Keep.Life.V)
	}
	return row{src: f.Pos, cells: []cell{
		{strong: t.name(f.Name, f.ID, f.Pos), under: t.about(p), role: page.Name},
		{strong: t.begin(p, n), role: page.Date},
		{strong: t.grams(weighed(p.Lines)), role: page.Amount},
		{strong: t.grams(p.Out), role: page.Amount},
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

// begin says when to begin at the latest; on a day before, that day is enough.
func (t *teller) begin(p scale.Prep, daysBefore int) string {
	switch {
	case t.Ready == 0 && p.Lead > 0:
		return t.fill("prep.before", map[string]string{"time": t.Lang.Span(p.Lead)})
	case t.Ready == 0 || daysBefore > 0:
		return ""
	}
	minutes := int64(t.start(p) / unit.Minute)
	return fmt.Sprintf("%02d:%02d", minutes/60, minutes%60)
}

// about says how it keeps and in how many bowls it is made.
func (t *teller) about(p scale.Prep) string {
	var out []string
	if k := p.Formula.Keep; k != nil && k.Life.Set() {
		s := t.fill("prep.keeps", map[string]string{"life": t.life(k.Life.V)})
		if k.Temp.Set() {
			s += ", " + strings.ReplaceAll(t.Lang.Temp(k.Temp.V, true), " ", noBreak)
		}
		out = append(out, s)
	}
	if b, ok := p.Bowls(); ok && b.Vessels > 1 {
		s := t.count("prep.bowls", int64(b.Vessels))
		if each := unit.Mass(b.Most); each > 0 {
			s += ", " + t.fill("prep.bowl", map[string]string{"mass": t.grams(each)})
		}
		out = append(out, s)
	}
	return strings.Join(out, "; ")
}

func (t *teller) life(l unit.Life) string {
	var out []string
	if l.Months > 0 {
		out = append(out, t.count("ticket.months", int64(l.Months)))
	}
	if l.Days > 0 || l.Months == 0 {
		out = append(out, t.count("ticket.days", int64(l.Days)))
	}
	return strings.Join(out, noBreak)
}

// parts says the weights to split it into. They add up to what comes out, as
// shown.
func (t *teller) parts(p scale.Prep) []part {
	var exact []unit.Mass
	for _, u := range p.For {
		exact = append(exact, u.Mass)
	}
	shown := split(exact, step(p.Out))
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
				what += ", " + strings.ReplaceAll(t.count("count.pieces", int64(n)), " ", noBreak)
			}
		}
		seen[u.Line.Pos]++
		if u.Medium {
			what += " – " + t.word("prep.medium")
		}
		out = append(out, part{t.gramsIn(shown[i], step(p.Out)), what})
	}
	return out
}

// pieces is how many pieces the n-th run of a product makes.
func (t *teller) pieces(p *shop.Product, n int) unit.Count {
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
