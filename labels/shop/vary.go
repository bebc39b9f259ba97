package shop

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Instead is what goes into one batch in the place of something else.
type Instead struct {
	Pos     diag.Pos
	Of      Text `key:"of" must:"yes" help:"Id of what is not there: an ingredient or a formula."`
	Use     Text `key:"use" must:"yes" help:"Id of what goes in in its place, as much of it."`
	In      Text `key:"in" help:"Id of the formula or product in which it is replaced; wherever it goes in when left out."`
	Because Text `key:"because" must:"yes" help:"Why, such as: almonds did not come."`
}

// Rework is what is left of an earlier batch and goes into this one.
type Rework struct {
	Pos   diag.Pos
	Use   Text               `key:"use" must:"yes" help:"Id of the formula that is left, such as offcuts of a dough."`
	Batch Text               `key:"batch" must:"yes" help:"Its batch code."`
	Made  diag.At[unit.Date] `key:"made" must:"yes" help:"Day on which it was made; the product keeps no longer than it would have from that day on."`
	Take  diag.At[unit.Mass] `key:"take" must:"yes" help:"How much of it goes into the whole batch."`
	In    Text               `key:"in" must:"yes" help:"Id of the formula that it goes into."`
}

// Earlier is a formula of which an earlier batch is used, so that none is made.
type Earlier struct {
	Pos   diag.Pos
	Use   Text               `key:"use" must:"yes" help:"Id of the formula."`
	Batch Text               `key:"batch" must:"yes" help:"Its batch code."`
	Made  diag.At[unit.Date] `key:"made" must:"yes" help:"Day on which it was made."`
}

// Varies reports whether the run is made of something else, or of something
// older, than the files of its product say.
func (r Run) Varies() bool { return len(r.Instead)+len(r.Rework)+len(r.MadeBefore) > 0 }

// There reports whether a formula is there from an earlier day, so that none is
// made for the run: by its id, or by that under which it went into the batch.
func (r Run) There(id string) bool {
	for _, w := range r.Rework {
		if id == w.Use.V+Suffix(w.Batch.V) {
			return true
		}
	}
	return slices.ContainsFunc(r.MadeBefore, func(e Earlier) bool { return id == e.Use.V || id == e.Use.V+Suffix(e.Batch.V) })
}

// Suffix ends the id of a formula as it was made for an earlier batch, in a shop
// that was derived.
func Suffix(batch string) string { return "." + strings.ToLower(batch) }

// Older is what an earlier day made and this batch uses: what the product keeps
// is counted from that day. It stands in a product that was derived for a batch.
type Older struct {
	Of   string // id of the formula
	Made unit.Date
	Life unit.Life // how long it keeps, and with it all that it goes into
	Pos  diag.Pos
}

// Check looks for all that is wrong with a shop that was derived from one that
// was read, such as for a batch that varies.
func (s *Shop) Check(found *diag.List) { s.check(found) }

// varies: what a run says of its own batch can be.
func (c *checker) varies() {
	c.eachRun(func(p *Plan, r Run) {
		if c.Products[r.Product.V] == nil {
			return
		}
		parts := c.MadeOf(r.Product.V)
		for _, i := range r.Instead {
			c.goesInto(i.Of, r, parts)
			c.there(i.Use)
			if i.In.Set() {
				c.goesInto(i.In, r, parts)
			}
			if i.Of.Set() && i.Of.V == i.Use.V {
				c.wrong(i.Use.Pos, "instead", "name what goes in", "%s cannot take its own place", i.Of.V)
			}
		}
		for _, w := range r.Rework {
			c.formulaOf(w.Use)
			c.goesInto(w.In, r, parts)
			c.formulaOf(w.In)
			c.before(p, r, w.Made, w.Batch)
			positive(c, w.Take, "what goes in again", "write how much, such as 200 g")
		}
		for _, e := range r.MadeBefore {
			c.goesInto(e.Use, r, parts)
			c.formulaOf(e.Use)
			c.before(p, r, e.Made, e.Batch)
			c.stillGood(p, e)
		}
	})
}

// goesInto finds what is no part of a run's product.
func (c *checker) goesInto(t Text, r Run, parts []string) {
	if t.Set() && !slices.Contains(parts, t.V) {
		c.wrong(t.Pos, "instead", meant(t.V, parts, "it is made of "+list(parts[1:])), "%s is no part of %s", t.V, r.Product.V)
	}
}

// there finds an id that nothing bears, or a product, which is no ingredient.
func (c *checker) there(t Text) {
	if t.Set() && c.Ingredients[t.V] == nil && c.Formulas[t.V] == nil {
		c.wrong(t.Pos, "instead", meant(t.V, slices.Concat(c.IngredientIDs, c.FormulaIDs), "write its file first"), "there is no ingredient or formula %q", t.V)
	}
}

func (c *checker) formulaOf(t Text) {
	if t.Set() && c.Formulas[t.V] == nil {
		c.wrong(t.Pos, "instead", meant(t.V, c.FormulaIDs, "name the formula that it is made by"), "there is no formula %q", t.V)
	}
}

// before: an earlier batch is of an earlier day, and can be named.
func (c *checker) before(p *Plan, r Run, made diag.At[unit.Date], batch Text) {
	switch {
	case !made.Set() || !p.Day.Set():
	case p.Day.V.Every:
		c.wrong(made.Pos, "instead", "write it into the plan of that day", "the plan of every day cannot use what was made on one day")
	case p.Day.V.Date.Before(made.V):
		c.wrong(made.Pos, "instead", "look at the day", "%s is still to come on %s", made.V, p.Day.V.Date)
	}
	if batch.Set() {
		c.batchCode(batch.V, batch.Pos)
	}
}

// stillGood: what was made before has not passed its time on the day of the plan.
func (c *checker) stillGood(p *Plan, e Earlier) {
	f := c.Formulas[e.Use.V]
	if f == nil || !e.Made.Set() || !p.Day.Set() || p.Day.V.Every || p.Day.V.Date == e.Made.V {
		return
	}
	if f.Keep == nil || !f.Keep.Life.Set() {
		c.wrong(e.Use.Pos, "instead", "write keep: into the formula", "nobody says how long %s keeps, so it cannot be used on another day", f.ID)
		return
	}
	if end := f.Keep.Life.V.End(e.Made.V); end.Before(p.Day.V.Date) {
		c.wrong(e.Made.Pos, "instead", "make it anew", "%s of %s keeps until %s, and is not to be used on %s", f.ID, e.Made.V, end, p.Day.V.Date)
	}
}

// Lasts is the last day until which the product keeps that is made of something
// older: no older part is past its own time by then.
func (p *Product) Lasts(made unit.Date) (end unit.Date, by *Older) {
	end = p.Keep.Life.V.End(made)
	for i, o := range p.Older {
		if e := o.Life.End(o.Made); e.Before(end) {
			end, by = e, &p.Older[i]
		}
	}
	return end, by
}

// LifeOf is how long a formula limits what it goes into: what it goes into is
// neither baked after it, nor is the formula without a life of its own.
func (s *Shop) LifeOf(p *Product, id string) (unit.Life, bool) {
	f := s.Formulas[id]
	if f == nil || f.Keep == nil || !f.Keep.Life.Set() {
		return unit.Life{}, false
	}
	last := 0
	for i, st := range p.Parts {
		if st.Stage.V == "bake" {
			last = i + 1
		}
	}
	for _, st := range p.Parts[last:] {
		for _, l := range st.Add {
			if slices.Contains(s.MadeOf(l.Use.V), id) {
				return f.Keep.Life.V, true
			}
		}
	}
	return unit.Life{}, false
}
