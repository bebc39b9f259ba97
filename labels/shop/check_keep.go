package shop

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// keeps: cold food says how cold, a date says which, and life is not nothing.
func (c *checker) keeps() {
	c.formulas(func(f *Formula) {
		if f.Keep != nil {
			c.keep(f.Keep, f.ID)
			c.needless(f.Keep)
		}
	})
	c.products(func(p *Product) {
		c.keep(&p.Keep, p.ID)
		if !p.Keep.Date.Set() && c.whole(p.Pos) {
			c.wrong(p.Pos, "keep", "write date: use-by, best-before or none under keep", "%s does not say which date its label bears", p.ID)
		}
		c.dated(p)
	})
}

func (c *checker) keep(k *Keep, id string) {
	cold := k.Store.V == "chilled" || k.Store.V == "frozen"
	if (cold || k.Date.V == "use-by") && !k.Temp.Set() && c.whole(k.Pos) {
		c.wrong(k.Pos, "keep", "write temp: such as ≤ 5 °C; the law behind a use-by date wants the storage conditions (Reg. (EU) 1169/2011 Annex X 2)",
			"%s must say at which temperature it is kept", id)
	}
	for _, l := range []diag.At[unit.Life]{k.Life, k.Opened} {
		if l.Set() && l.V.Days <= 0 && l.V.Months <= 0 {
			c.wrong(l.Pos, "keep", "the day of making is day 0; write 1 day for the day after", "%s keeps for no time at all", id)
		}
	}
	if k.Temp.Set() && cold {
		c.cold(k, id)
	}
}

// cold holds a store's temperature against the usual limits: 8 °C is the
// highest that the markets here allow for chilled food (England: Food Safety
// and Hygiene Regulations 2013, Schedule 4), −18 °C the one for frozen food
// (Directive 89/108/EEC, from memory). Local law may ask for less.
func (c *checker) cold(k *Keep, id string) {
	top := unit.Celsius(8)
	if k.Store.V == "frozen" {
		top = unit.Celsius(-18)
	}
	if k.Temp.V.Kind == unit.AtLeast {
		c.wrong(k.Temp.Pos, "keep", "write it like ≤ 5 °C", "%s: a cold store has a highest temperature, not a lowest", id)
	} else if k.Temp.V.Hi > top {
		c.caution(k.Temp.Pos, "keep", "see what the law asks where you are", "%s is kept at %s, above the usual limit of %s for %s food", id, k.Temp.V, top, k.Store.V)
	}
}

// longUseBy is the longest life with a use-by date that nobody is asked about:
// what is very perishable (Reg. (EU) 1169/2011 Art. 24(1)) keeps for days or
// weeks. The figure is common practice, no source.
const longUseBy = 60

// dated asks about a date of the other kind than its store and life suggest.
func (c *checker) dated(p *Product) {
	k := p.Keep
	switch {
	case k.Date.V == "best-before" && k.Store.V == "chilled":
		c.caution(k.Date.Pos, "keep", "food that must be kept cold to be safe bears a use-by date (Reg. (EU) 1169/2011 Art. 24(1)); have it decided",
			"%s is kept chilled, but its label says best before", p.ID)
	case k.Date.V == "use-by" && k.Life.Set() && lasts(k.Life.V) > longUseBy:
		c.caution(k.Life.Pos, "keep", "see whether the life is right, or whether it bears a best-before date", "%s is to be used by a date, but keeps for %s", p.ID, k.Life.V)
	}
}

// lasts is a life in days, so that lives can be compared; a month is the
// shortest that there is, counted from a first of January.
func lasts(l unit.Life) int {
	from := unit.Date{Year: 2026, Month: 1, Day: 1}
	return int(l.End(from).Time().Sub(from.Time()).Hours() / 24)
}

// stores are where food is kept, from warm to cold.
func stores() []string { return []string{"ambient", "cool", "chilled", "frozen"} }

// together: what holds finished products is kept as the most delicate of them
// asks. A reason does not help: each of them states its own keep.
func (c *checker) together() {
	c.products(func(p *Product) {
		for _, l := range p.Lines() {
			q := c.Products[l.Use.V]
			if q == nil || q == p || !c.whole(p.Pos) || !c.whole(q.Pos) {
				continue
			}
			if gap := warmer(p, &q.Keep); gap != nil {
				c.wrong(gap.pos, "keep", gap.hint, "%s is kept %s, but %s in it %s", p.ID, gap.is, q.ID, gap.wants)
				return
			}
		}
	})
}

// outlive: a product is kept no warmer and no longer than what goes into it
// unbaked, unless somebody writes why it may be.
func (c *checker) outlive() {
	c.products(func(p *Product) {
		if !c.whole(p.Pos) {
			return
		}
		needed := slices.ContainsFunc(p.Lines(), func(l Line) bool { return c.Products[l.Use.V] != nil })
		for _, f := range c.unbaked(p) {
			gap := warmer(p, f.Keep)
			if gap == nil {
				gap = longer(p, f.Keep)
			}
			if gap == nil {
				continue
			}
			needed = true
			if !p.Keep.Because.Set() {
				c.wrong(gap.pos, "keep", gap.hint+"; or write because: under keep, and what makes it safe",
					"%s is kept %s, but %s goes into it unbaked and %s", p.ID, gap.is, f.ID, gap.wants)
			}
		}
		if !needed {
			c.needless(&p.Keep)
		}
	})
}

// needless asks about a reason for nothing.
func (c *checker) needless(k *Keep) {
	if k.Because.Set() {
		c.caution(k.Because.Pos, "keep", "take it out", "because: stands under keep, but nothing in it is kept colder or shorter")
	}
}

// gap is what a part asks for and does not get.
type gap struct {
	pos             diag.Pos
	is, wants, hint string
}

// warmer finds where p is kept warmer than a part of it. What was frozen and
// is sold thawed has a keep of its own.
func warmer(p *Product, part *Keep) *gap {
	k := p.Keep
	switch {
	case part.Store.V == "frozen" && p.Thawed.V, part.Temp.V.Kind == unit.AtLeast:
		return nil
	case slices.Index(stores(), k.Store.V) < slices.Index(stores(), part.Store.V):
		return &gap{k.Store.Pos, k.Store.V, "is kept " + part.Store.V, "write store: " + part.Store.V + " under keep"}
	case part.Temp.Set() && !k.Temp.Set():
		return &gap{k.Store.Pos, "at no stated temperature", "is kept at " + part.Temp.V.String(), "write temp: " + part.Temp.V.String() + " under keep"}
	case part.Temp.Set() && k.Temp.V.Hi > part.Temp.V.Hi:
		return &gap{k.Temp.Pos, "at " + k.Temp.V.String(), "is kept at " + part.Temp.V.String(), "write temp: " + part.Temp.V.String() + " under keep"}
	}
	return nil
}

// longer finds where p keeps longer than a part of it.
func longer(p *Product, part *Keep) *gap {
	if part.Store.V == "frozen" && p.Thawed.V || !part.Life.Set() || !p.Keep.Life.Set() || lasts(p.Keep.Life.V) <= lasts(part.Life.V) {
		return nil
	}
	return &gap{p.Keep.Life.Pos, "for " + p.Keep.Life.V.String(), "keeps for " + part.Life.V.String(), "write life: " + part.Life.V.String() + " under keep"}
}

// unbaked gives the formulas with a keep that are still as they were made when
// the piece is finished: those that come in after the last bake. A formula
// without a keep stands for what goes into it, unless it is cooked.
func (c *checker) unbaked(p *Product) []*Formula {
	var out []*Formula
	seen := map[string]bool{}
	var visit func(lines []Line)
	visit = func(lines []Line) {
		for _, l := range lines {
			f := c.Formulas[l.Use.V]
			if f == nil || seen[f.ID] {
				continue
			}
			seen[f.ID] = true
			switch {
			case f.Keep != nil:
				out = append(out, f)
			case !f.cooked():
				visit(f.Lines)
			}
		}
	}
	last := 0
	for i, st := range p.Parts {
		if st.Stage.V == "bake" {
			last = i + 1
		}
	}
	for _, st := range p.Parts[last:] {
		visit(st.Add)
	}
	return out
}

// cooked reports whether a step of the formula heats all that is in it.
func (f *Formula) cooked() bool {
	return slices.ContainsFunc(f.Steps, func(s Step) bool {
		return slices.Contains([]string{"bake", "boil", "cook", "poach"}, s.Kind.V)
	})
}
