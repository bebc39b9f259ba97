package shop

import (
	"fmt"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// Oven is the name of the tool that steps need which bake or toast.
const Oven = "oven"

// ToolsOf gives the tools that a step needs for itself, by name.
func ToolsOf(st *Step) []string {
	var all []string
	if st.Kind.V == "bake" || st.Kind.V == "toast" {
		all = append(all, Oven)
	}
	for _, t := range st.Tools {
		if !slices.Contains(all, t.V) {
			all = append(all, t.V)
		}
	}
	return all
}

// tools: steps need tools that the shop has, and a tool has a name on cards.
func (c *checker) tools() {
	known := []string{Oven}
	for _, e := range c.Profile.Tools {
		known = append(known, e.Key.V)
		c.named(e.V.Name, e.V.Pos, "the tool "+e.Key.V, c.cards())
		c.pieces(e.V.Count, "a number of tools")
	}
	c.sheets(func(s sheet) {
		for _, st := range s.steps {
			for _, t := range st.Tools {
				if !slices.Contains(known, t.V) && c.whole(c.Profile.Pos) {
					c.wrong(t.Pos, "tool", meant(t.V, known, "tools here are "+list(known)+"; write it under tools: in shop.yaml"), "there is no tool %q", t.V)
				}
			}
		}
	})
}

// bowls: a bowl has room, and its smallest fill is below its largest.
func (c *checker) bowls() {
	c.formulas(func(f *Formula) {
		b := f.Bowl
		if b == nil {
			return
		}
		c.named(b.Name, b.Pos, "the bowl", c.cards())
		c.amount(b.Most, "the largest fill", false)
		c.amount(b.Least, "the smallest fill", true)
		if b.Most.Set() && b.Least.V > b.Most.V {
			c.wrong(b.Least.Pos, "bowl", "see which of the two is wrong", "the smallest fill is %s, above the largest, %s", b.Least.V, b.Most.V)
		}
		// Two bowls of one largest fill and a bit need half of it each.
		if b.Most.Set() && b.Least.V <= b.Most.V && b.Least.V > b.Most.V/2 {
			c.caution(b.Least.Pos, "bowl", "some batches will not split into equal bowls; take a smaller bowl for them",
				"the smallest fill, %s, is more than half of the largest, %s", b.Least.V, b.Most.V)
		}
	})
}

// bases: a base names lines of its formula.
func (c *checker) bases() {
	c.formulas(func(f *Formula) {
		var refs []string
		for _, l := range f.Lines {
			refs = append(refs, l.Ref())
		}
		for _, b := range f.Base {
			if !slices.Contains(refs, b.V) && c.whole(f.Pos) {
				c.wrong(b.Pos, "base", meant(b.V, refs, "lines here are "+list(refs)), "%s has no line %q", f.ID, b.V)
			}
		}
	})
}

// doughs: a dough is wanted at a temperature that it can have, and its
// preferment is one of its lines.
func (c *checker) doughs() {
	c.formulas(func(f *Formula) {
		d := f.Dough
		if d == nil {
			return
		}
		if w := d.Wanted; w.Set() && (w.V < 0 || w.V > unit.Celsius(45)) {
			c.wrong(w.Pos, "range", "look at the figure and its unit", "a dough is not wanted at %s", degrees(w.V))
		}
		if k := d.Friction; k.Set() && (k.V < 0 || k.V > 40*unit.DegC) {
			c.wrong(k.Pos, "range", "write by how much the dough gets warmer, such as 6 °C", "mixing does not warm a dough by %s", k.V)
		}
		var refs []string
		for _, l := range f.Lines {
			refs = append(refs, l.Ref())
		}
		if p := d.Preferment; p.Set() && !slices.Contains(refs, p.V) && c.whole(f.Pos) {
			c.wrong(p.Pos, "base", meant(p.V, refs, "lines here are "+list(refs)), "%s has no line %q", f.ID, p.V)
		}
	})
}

// portions: what is lost in portioning is a share of a line of a make-up;
// formulas have losses, and products are counted.
func (c *checker) portions() {
	c.formulas(func(f *Formula) {
		for _, l := range f.Lines {
			if l.LostInHandling.Set() {
				c.wrong(l.LostInHandling.Pos, "loss", "write a loss under losses: of the formula", "lost-in-handling stands among the parts of a product, not in a formula")
			}
		}
	})
	c.products(func(p *Product) {
		for _, l := range p.Lines() {
			switch h := l.LostInHandling; {
			case !h.Set():
			case c.Products[l.Use.V] != nil:
				c.wrong(h.Pos, "loss", "take it out, or write lost-in-handling: of the product", "%s is counted; nothing is lost as it is portioned", l.Use.V)
			case h.V < 0 || h.V >= unit.Whole:
				c.wrong(h.Pos, "loss", "write what is lost in handling, such as 3 %", "a handling loss of %s leaves nothing", h.V)
			}
		}
	})
}

// reviews: a line that does not grow in proportion says from where on.
func (c *checker) reviews() {
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			if l.Review.Set() && l.Review.V < One {
				c.wrong(l.Review.Pos, "range", "write a factor of 1 or more, such as 3", "a look is asked for from %s times on, less than once", l.Review.V)
			}
		}
	})
	c.products(func(p *Product) {
		for _, l := range p.Lines() {
			if l.Review.Set() {
				c.wrong(l.Review.Pos, "review", "write it at the line of the formula", "parts are for one piece, which does not grow")
			}
		}
	})
}

// heights: the height and the boiling point of a kitchen are possible.
func (c *checker) heights() {
	if a := c.Profile.Altitude; a.Set() && (a.V < -500*1000*unit.MM || a.V > 6000*1000*unit.MM) {
		c.wrong(a.Pos, "range", "write the height above the sea, such as 300 m", "a kitchen at %d m is not possible", a.V/(1000*unit.MM))
	}
	b := c.Profile.Boils
	if b.Set() && (b.V < unit.Celsius(80) || b.V > unit.Celsius(103)) {
		c.wrong(b.Pos, "range", "write what the probe shows in boiling water, such as 99 °C", "water does not boil at %s", degrees(b.V))
	}
	c.ingredients(func(i *Ingredient) { c.amount(i.OrderPack, "a pack", false) })
}

// inputTemps: what goes in has a temperature that food can have.
func (c *checker) inputTemps() {
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			c.warm(l.At, "a line")
		}
		for _, st := range s.steps {
			for _, r := range st.Readings {
				c.warm(r.After, "a mix")
				c.warm(r.Expected, "a mix")
				c.warm(r.Room, "a room")
			}
		}
	})
}

func (c *checker) warm(t diag.At[unit.Temp], what string) {
	if t.Set() && (t.V < unit.Celsius(-45) || t.V > unit.Celsius(210)) {
		c.wrong(t.Pos, "range", "look at the figure and its unit", "%s", fmt.Sprintf("%s at %s is not possible in a kitchen", what, degrees(t.V)))
	}
}
