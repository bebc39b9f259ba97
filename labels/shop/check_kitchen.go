package shop

import (
	"fmt"
	"slices"
	"strings"

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

// reviews: a line that does not grow in proportion says from where on.
func (c *checker) reviews() {
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			if l.Review.Set() && l.Review.V < One {
				c.wrong(l.Review.Pos, "range", "write a factor of 1 or more, such as 3", "a look is asked for from %s times on, less than once", l.Review.V)
			}
		}
	})
}

// strengths: gelatine has a strength to convert from and to.
func (c *checker) strengths() {
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			if l.Strength == nil {
				continue
			}
			if b := l.Strength.Bloom; b.Set() && !isBloom(int64(b.V)) {
				c.wrong(b.Pos, "bloom", "write it like 200", "gelatine has 50 to 325 Bloom, not %d", b.V)
			}
			if i := c.Ingredients[l.Use.V]; i != nil && !isBloom(i.Bloom()) {
				c.wrong(l.Strength.Pos, "bloom", "write traits: bloom: and the strength in its file", "%s does not say how strong it is", l.Use.V)
			}
		}
	})
}

// isBloom reports whether gelatine can have that strength; the trade sells 50
// to 325 Bloom (common practice, no source).
func isBloom(n int64) bool { return n >= 50 && n <= 325 }

// Bloom is the strength of a gelatine, or 0.
func (i *Ingredient) Bloom() int64 {
	t, _ := i.Traits.Get("bloom")
	v, _ := number(t.V)
	return v / 1e7
}

// asked: an ingredient has the traits that a line asks for.
func (c *checker) asked() {
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			i := c.Ingredients[l.Use.V]
			for _, e := range l.Asks {
				if i == nil {
					c.wrong(e.Key.Pos, "asks", "ask it of an ingredient", "%q is no ingredient; it has no traits", l.Use.V)
					break
				}
				c.ask(i, e.Key, e.V)
			}
		}
	})
}

func (c *checker) ask(i *Ingredient, trait, want Text) {
	w, ok := parseAsk(want.V)
	if !ok {
		c.wrong(want.Pos, "asks", `write it like "35 ± 1 %", "≥ 60 %" or "40"`, "%q asks for nothing that can be compared", want.V)
		return
	}
	has, ok := i.Traits.Get(trait.V)
	if !ok {
		c.caution(want.Pos, "asks", "write it under traits: in the file of "+i.ID, "%s does not say its %s; %s is asked for", i.ID, trait.V, want.V)
		return
	}
	v, ok := number(has.V)
	if !ok || v < w.lo || v > w.hi || strings.HasSuffix(has.V, "%") != w.percent {
		c.caution(want.Pos, "asks", "weigh the formula anew for what is on the shelf, or order the other", "%s has %s %s; this line asks for %s", i.ID, trait.V, has.V, want.V)
	}
}

// An ask is a range for a trait, in parts per billion of 100.
type ask struct {
	lo, hi  int64
	percent bool
}

// parseAsk reads "35 ± 1 %", "33 to 37 %", "≥ 60 %", "≤ 5 %", "40".
func parseAsk(s string) (a ask, ok bool) {
	body, percent := strings.CutSuffix(strings.TrimSpace(s), "%")
	a.percent = percent
	for _, sign := range []string{"≥", "≤"} {
		if rest, cut := strings.CutPrefix(body, sign); cut {
			v, ok := number(rest)
			if sign == "≥" {
				return ask{v, 1 << 62, percent}, ok
			}
			return ask{0, v, percent}, ok
		}
	}
	if l, r, cut := strings.Cut(body, "±"); cut {
		mid, ok1 := number(l)
		tol, ok2 := number(r)
		return ask{mid - tol, mid + tol, percent}, ok1 && ok2
	}
	if l, r, cut := strings.Cut(body, " to "); cut {
		lo, ok1 := number(l)
		hi, ok2 := number(r)
		return ask{lo, hi, percent}, ok1 && ok2 && lo <= hi
	}
	a.lo, ok = number(body)
	a.hi = a.lo
	return a, ok
}

// number reads a trait, with or without the sign of per cent: 1 is 1e7.
func number(s string) (int64, bool) {
	v, err := unit.ParseShare(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%")) + " %")
	return int64(v), err == nil && v >= 0
}

// Trait gives a share that is a trait of the ingredient, such as its cocoa.
func (i *Ingredient) Trait(name string) (unit.Share, bool) {
	t, ok := i.Traits.Get(name)
	if !ok || !strings.HasSuffix(t.V, "%") {
		return 0, false
	}
	v, ok := number(t.V)
	return unit.Share(v), ok && unit.Share(v) <= unit.Whole
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
	c.ingredients(func(i *Ingredient) { c.amount(i.Pack, "a pack", false) })
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
				c.warm(r.Mixed, "a mix")
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
