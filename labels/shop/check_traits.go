package shop

import (
	"strings"

	"chablon/labels/unit"
)

// strengths: gelatine has a strength to convert from and to.
func (c *checker) strengths() {
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			if l.WeighedFor == nil {
				continue
			}
			if b := l.WeighedFor.Bloom; b.Set() && !isBloom(int64(b.V)) {
				c.wrong(b.Pos, "bloom", "write it like 200", "gelatine has 50 to 325 Bloom, not %d", b.V)
			}
			if i := c.Ingredients[l.Use.V]; i != nil && !isBloom(i.Bloom()) {
				c.wrong(l.WeighedFor.Pos, "bloom", "write strength: bloom: and the strength in its file", "%s does not say how strong it is", l.Use.V)
			}
		}
	})
}

// isBloom reports whether gelatine can have that strength; the trade sells 50
// to 325 Bloom (common practice, no source).
func isBloom(n int64) bool { return n >= 50 && n <= 325 }

// Bloom is the strength of a gelatine, or 0.
func (i *Ingredient) Bloom() int64 {
	t, _ := i.Strength.Get("bloom")
	v, _ := number(t.V)
	return v / 1e7
}

// asked: an ingredient has the traits that a line asks for.
func (c *checker) asked() {
	c.sheets(func(s sheet) {
		for _, l := range s.lines {
			i := c.Ingredients[l.Use.V]
			for _, e := range l.MustHave {
				if c.loose(l) {
					break
				}
				if i == nil {
					c.wrong(e.Key.Pos, "must-have", "ask it of an ingredient", "%q is no ingredient; it has no strength to compare", l.Use.V)
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
		c.wrong(want.Pos, "must-have", `write it like "35 ± 1 %", "≥ 60 %" or "40"`, "%q asks for nothing that can be compared", want.V)
		return
	}
	has, ok := i.Strength.Get(trait.V)
	if !ok {
		c.caution(want.Pos, "must-have", "write it under strength: in the file of "+i.ID, "%s does not say its %s; %s is asked for", i.ID, trait.V, want.V)
		return
	}
	v, ok := number(has.V)
	if !ok || v < w.lo || v > w.hi || strings.HasSuffix(has.V, "%") != w.percent {
		c.caution(want.Pos, "must-have", "weigh the formula anew for what is on the shelf, or order the other", "%s has %s %s; this line asks for %s", i.ID, trait.V, has.V, want.V)
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
	t, ok := i.Strength.Get(name)
	if !ok || !strings.HasSuffix(t.V, "%") {
		return 0, false
	}
	v, ok := number(t.V)
	return unit.Share(v), ok && unit.Share(v) <= unit.Whole
}

// Strengths are the usual keys of strength and must-have; a shop may have
// others.
func Strengths() []string {
	return []string{"bloom", "dextrose-equivalent", "fat", "cocoa", "cocoa-butter", "milk-fat", "milk-solids"}
}
