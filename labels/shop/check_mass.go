package shop

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
)

// takes: every line says how much, in the way that fits what it uses.
func (c *checker) takes() {
	c.formulas(func(f *Formula) {
		for _, l := range f.Lines {
			c.take(l, false)
		}
		if m := f.CookedIn; m != nil {
			c.amount(m.SoakedUp, "what is taken up", true)
			c.amount(m.Make, "what is made", false)
		}
	})
	c.products(func(p *Product) {
		for _, l := range p.Lines() {
			c.take(l, c.Products[l.Use.V] != nil)
		}
		c.amount(p.CutTo, "the mass of a piece", false)
		if p.CutTo.Set() && c.linked(p) && p.CutTo.V > c.Made(p) {
			c.wrong(p.CutTo.Pos, "mass", "look at the parts: it is the whole slab", "a piece of %s cannot be cut from a slab of %s", p.CutTo.V, c.Made(p))
		}
	})
}

// lefts: no more is left of what evaporates than goes in.
func (c *checker) lefts() {
	look := func(lines []Line) {
		for _, l := range lines {
			if l.Left.Set() && l.Take.Set() && l.Left.V.Of(l.Take.V) > l.Take.V {
				c.wrong(l.Left.Pos, "left", "write what was measured to be left in the finished food", "%s of %s are left, but only %s go in", l.Left.V.Of(l.Take.V), l.Use.V, l.Take.V)
			}
		}
	}
	c.formulas(func(f *Formula) { look(f.Lines) })
	c.products(func(p *Product) { look(p.Lines()) })
}

// take checks one line; pieces are counted, everything else is weighed.
func (c *checker) take(l Line, counted bool) {
	switch {
	case counted && l.Take.Set():
		c.wrong(l.Take.Pos, "take", "write pieces: and how many", "%s is a product; it is counted, not weighed", l.Use.V)
	case !counted && l.Pieces.Set():
		c.wrong(l.Pieces.Pos, "take", "write take: and a mass, such as 120 g", "only products are counted; this is weighed")
	case counted && !l.Pieces.Set() && c.whole(l.Pos):
		c.wrong(l.Pos, "take", "write pieces: and how many", "this line does not say how many")
	case !counted && !l.Take.Set() && c.whole(l.Pos):
		c.wrong(l.Pos, "take", "write take: and a mass, such as 120 g", "this line does not say how much")
	}
	c.amount(l.Take, "an amount", false)
	c.pieces(l.Pieces, "a number of pieces")
}

// amount: a mass is more than nothing (or no less) and no more than MaxMass.
func (c *checker) amount(m diag.At[unit.Mass], what string, orNone bool) {
	switch {
	case !m.Set() || orNone && m.V == 0:
	case m.V <= 0:
		c.wrong(m.Pos, "mass", "write a mass such as 120 g, or take the line out", "%s cannot be %s", what, m.V)
	case m.V > MaxMass:
		c.wrong(m.Pos, "mass", "see whether kg was written for g", "%s is %s, more than %s", what, m.V, MaxMass)
	}
}

func (c *checker) pieces(n diag.At[unit.Count], what string) {
	switch {
	case !n.Set():
	case n.V <= 0:
		c.wrong(n.Pos, "count", "write 1 or more", "%s cannot be %d", what, n.V)
	case n.V > MaxPieces:
		c.wrong(n.Pos, "count", "see whether there is a digit too many", "%s is %d, more than %d", what, n.V, MaxPieces)
	}
}

// losses: each stage loses one thing, and something is left.
func (c *checker) losses() {
	c.formulas(func(f *Formula) {
		m := f.In()
		for _, l := range f.Losses {
			water, left := l.WaterLost.Set(), l.LeftBehind.Set()
			switch {
			case water && left:
				c.wrong(l.LeftBehind.Pos, "loss", "write two losses, one after the other", "a loss is either water-lost or left-behind, not both")
				continue
			case !water && !left && c.whole(l.Pos):
				c.wrong(l.Pos, "loss", "write water-lost: for what evaporates, left-behind: for what is not used", "this loss does not say what is lost")
			case water:
				c.loss(l.WaterLost, m)
			case left:
				c.loss(l.LeftBehind, m)
			}
			m -= l.Of(m)
		}
	})
	c.products(func(p *Product) {
		var m unit.Mass
		for _, st := range p.Parts {
			m = min(m+c.added(st), MaxMass)
			if st.WaterLost.Set() {
				c.loss(st.WaterLost, m)
			}
			m -= st.Off(m)
		}
		h := p.LostInHandling
		if h.Set() && h.V < 0 {
			c.wrong(h.Pos, "loss", "take the minus sign out", "a handling loss cannot be %s", h.V)
		}
		if h.Set() && h.V >= unit.Whole {
			c.wrong(h.Pos, "loss", "write what is lost in handling, such as 3 %", "a handling loss of %s leaves nothing", h.V)
		}
	})
}

// added is the mass that a stage adds.
func (c *checker) added(st Stage) unit.Mass {
	w := &weigher{c.Shop, map[*Product]unit.Mass{}}
	var m unit.Mass
	for _, l := range st.Add {
		m = min(m+w.line(l), MaxMass)
	}
	return m
}

// loss: what is lost of m is not negative and leaves something.
func (c *checker) loss(p diag.At[Portion], m unit.Mass) {
	const hint = "write what goes, not what stays: a mass such as 253 g, or a share such as 12.5 %"
	before := c.found.Errors()
	switch {
	case p.V.Share >= unit.Whole:
		c.wrong(p.Pos, "loss", hint, "a loss of %s leaves nothing", p.V.Share)
	case m > 0 && p.V.Mass >= m:
		c.wrong(p.Pos, "loss", hint, "a loss of %s leaves nothing of %s", p.V.Mass, m)
	}
	if c.found.Errors() > before {
		c.unsound[p.Pos.File] = true
	}
}

// nets: a pack holds what it says, and not much more.
func (c *checker) nets() {
	c.products(func(p *Product) {
		each := c.Finished(p)
		if !c.linked(p) || each <= 0 {
			return
		}
		for _, k := range p.Packs {
			if !k.Net.Set() || k.Net.V <= 0 || k.Pieces.V <= 0 || k.Pieces.V > 9_000 {
				continue
			}
			holds := each * unit.Mass(k.Pieces.V)
			switch {
			case k.Net.V > holds:
				c.wrong(k.Net.Pos, "net", "declare no more than the pieces weigh, or look at the parts and the losses",
					"the label says %s, but %d of %s weigh %s", k.Net.V, k.Pieces.V, each, holds)
			case k.Net.V < holds.Mul(85, 100):
				c.caution(k.Net.Pos, "net", "see whether pieces, net and parts belong together",
					"the label says %s, but %d of %s weigh %s", k.Net.V, k.Pieces.V, each, holds)
			}
		}
	})
}

// linked reports whether the make-up of a product is there to be weighed.
func (c *checker) linked(p *Product) bool { return c.sound(p, map[*Product]bool{}) }

// sound is linked; seen holds what was asked before, false while in a circle.
func (c *checker) sound(p *Product, seen map[*Product]bool) bool {
	ok, known := seen[p]
	if !known {
		seen[p] = false
		ok = c.weighable(p, seen)
		seen[p] = ok
	}
	return ok
}

func (c *checker) weighable(p *Product, seen map[*Product]bool) bool {
	if !c.whole(p.Pos) || c.unsound[p.Pos.File] {
		return false
	}
	for _, l := range p.Lines() {
		q := c.Products[l.Use.V]
		if q == nil && (c.Ingredients[l.Use.V] == nil && c.Formulas[l.Use.V] == nil || !l.Take.Set()) {
			return false
		}
		if q != nil && (!c.sound(q, seen) || !l.Pieces.Set()) {
			return false
		}
	}
	return true
}
