package shop

import (
	"fmt"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/practice"
	"chablon/labels/unit"
)

// temps: the temperatures of a step are in the usual ranges, or a reason is
// written. A range that must be kept and a reason leave a caution behind.
func (c *checker) temps() {
	c.sheets(func(s sheet) {
		for i := range s.steps {
			st := &s.steps[i]
			c.ranged(st)
			for _, r := range st.Reach {
				c.sane(st, practice.AtReach, r.To)
			}
			for _, t := range st.Settings() {
				c.sane(st, practice.AtSet, t)
			}
			c.sane(st, practice.AtCore, st.Core)
			if st.In != nil {
				c.sane(st, practice.AtReach, st.In.At)
			}
			if st.Hold != nil {
				c.sane(st, practice.AtReach, st.Hold.At)
			}
			if st.Limit != nil {
				c.sane(st, practice.AtLimit, st.Limit.Reach)
				c.held(st)
				c.cooled(s, st)
			}
		}
	})
}

// ranged: where a step says what it works on, there is something to hold its
// temperatures against; otherwise the cook would trust a check that is none.
func (c *checker) ranged(st *Step) {
	if !st.Of.Set() || !st.Kind.Set() || len(st.Reach) == 0 && len(st.Settings()) == 0 && !st.Core.Set() && st.Limit == nil {
		return
	}
	for _, p := range []practice.Part{practice.AtSet, practice.AtReach, practice.AtCore, practice.AtLimit} {
		if _, own := practice.For(st.Kind.V, st.Of.V, p); len(own) > 0 {
			return
		}
	}
	c.caution(st.Of.Pos, "of", "look at kind: and of:, or take of: out", "no usual temperature is known here for %s of %s; nothing is checked", st.Kind.V, st.Of.V)
}

func (c *checker) sane(st *Step, part practice.Part, t diag.At[unit.Target]) {
	if !t.Set() || !st.Kind.Set() {
		return
	}
	b, ok := practice.Sanity(st.Kind.V, st.Of.V, part, t.V)
	if ok {
		return
	}
	c.outside(st, t.Pos, b.Must, saneHint(st, part, t.V),
		"%s at step %s: %s is usually at %s; source: %s", bothScales(t.V), st.ID.V, b.What, span(b.Lo, b.Hi, t.V.InF), b.Source)
}

// outside reports what must be kept as an error, or as a caution where a
// reason is written; the rest is a caution, silent with a reason.
func (c *checker) outside(st *Step, pos diag.Pos, must bool, hint, format string, args ...any) {
	msg := fmt.Sprintf(format, args...)
	switch {
	case st.Because.Set() && must:
		c.caution(pos, "temperature", "let somebody who knows look at it again", "%s; the reason given is: %s", msg, st.Because.V)
	case st.Because.Set():
	case must:
		c.wrong(pos, "temperature", hint, "%s", msg)
	default:
		c.caution(pos, "temperature", hint, "%s", msg)
	}
}

// saneHint asks whether the other scale was meant where that would fit.
func saneHint(st *Step, part practice.Part, t unit.Target) string {
	if u, ok := practice.OtherScale(t); ok {
		if _, fits := practice.Sanity(st.Kind.V, st.Of.V, part, u); fits {
			return fmt.Sprintf("did you mean %s? if not, write under because: why it is so", written(u))
		}
	}
	return "look at the figure and its unit; if it is meant, write under because: why"
}

// held: a limit that is worth nothing without a time names one.
func (c *checker) held(st *Step) {
	m := st.Limit
	if !m.Reach.Set() {
		return
	}
	_, own := practice.For(st.Kind.V, st.Of.V, practice.AtLimit)
	var short *practice.Band
	for _, b := range own {
		if !b.Holds(m.Reach.V) {
			continue
		}
		if m.Hold.V >= b.Hold {
			return
		}
		short = &b
	}
	if short != nil {
		c.outside(st, m.Reach.Pos, short.Must, "write hold: "+short.Hold.String()+", or why not under because:",
			"step %s does not hold %s for %s: %s (%s)", st.ID.V, bothScales(m.Reach.V), short.Hold, short.What, short.Source)
	}
}

// cooled holds the limit of a cooling step against the markets of the shop:
// how cold and how soon in the end, and by the first stage where there is one.
func (c *checker) cooled(s sheet, st *Step) {
	m := st.Limit
	if !cools(st) {
		return
	}
	for _, code := range c.Profile.Markets {
		kept, known := market.Get(code.V)
		if !known {
			continue
		}
		first, whole, ok := kept.CoolingIn(c.Profile.Country.V)
		done := func(l market.Limit) bool {
			return slices.ContainsFunc(s.steps, func(o Step) bool { return cools(&o) && inTime(o.Limit, l) })
		}
		switch {
		case !ok || inTime(m, first) && done(whole):
		case !inTime(m, whole):
			c.outside(st, m.Reach.Pos, true, fmt.Sprintf("write reach: ≤ %s and within: %s, or less", inC(whole.To.C), whole.Within),
				"step %s cools to %s within %s; %s asks for %s within %s (%s)", st.ID.V, bothScales(m.Reach.V), m.Within.V, code.V, degrees(whole.To.C), whole.Within, whole.Cite)
		case !done(first):
			c.outside(st, m.Reach.Pos, false, fmt.Sprintf("write a step before it with a limit of ≤ %s within: %s, or shorten this one to %s", inC(first.To.C), first.Within, first.Within),
				"step %s does not tell the first stage of cooling: %s asks for %s within %s (%s)", st.ID.V, code.V, degrees(first.To.C), first.Within, first.Cite)
		}
	}
}

// cools reports whether a step has a limit of cooling.
func cools(st *Step) bool {
	m := st.Limit
	return (st.Kind.V == "cool" || st.Kind.V == "chill") && m != nil && m.Reach.Set() && m.Within.Set() && m.Reach.V.Kind != unit.AtLeast
}

// inTime reports whether a limit is as cold and as soon as a rule asks, in the
// unit that it is written in.
func inTime(m *Limit, l market.Limit) bool { return l.Met(m.Reach.V.Hi, m.Reach.V.InF, m.Within.V) }

// coldStores: what is kept chilled is as cold as each market of the shop asks.
func (c *checker) coldStores() {
	look := func(k *Keep, id string) {
		if k.Store.V != "chilled" || !k.Temp.Set() || k.Temp.V.Kind == unit.AtLeast || k.Temp.V.Hi > unit.Celsius(8) {
			return // the last is told elsewhere
		}
		for _, code := range c.Profile.Markets {
			m, ok := market.Get(code.V)
			if !ok {
				continue
			}
			for _, l := range m.Limits(market.Cold) {
				if l.InForce(c.Profile.Country.V) && !l.Met(k.Temp.V.Hi, k.Temp.V.InF, 0) {
					c.caution(k.Temp.Pos, "keep", "write temp: ≤ "+degrees(l.To.C)+", or see what the law asks where you are",
						"%s is kept at %s; %s asks for %s (%s)", id, bothScales(k.Temp.V), code.V, degrees(l.To.C), l.Cite)
				}
			}
		}
	}
	c.formulas(func(f *Formula) {
		if f.Keep != nil {
			look(f.Keep, f.ID)
		}
	})
	c.products(func(p *Product) { look(&p.Keep, p.ID) })
}
