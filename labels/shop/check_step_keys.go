package shop

import (
	"fmt"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// stepKeys: what a step says of its oven, mixer, place and sizes fits together.
func (c *checker) stepKeys() {
	c.sheets(func(s sheet) {
		for i := range s.steps {
			st := &s.steps[i]
			c.phases(st)
			c.mixed(st)
			c.climate(st)
			c.sizes(st)
			c.started(s, st)
			c.inWork(s, st)
			if st.Hold != nil {
				c.time(st.Hold.For.V.Most, st.Hold.For.Pos)
			}
		}
	})
}

// phases: only an oven has phases; they take as long as the step waits, and are
// not said in another place too.
func (c *checker) phases(st *Step) {
	if len(st.Phases) == 0 {
		return
	}
	first := st.Phases[0].Pos
	sum := st.phased()
	switch {
	case st.Kind.Set() && st.Kind.V != "bake" && st.Kind.V != "toast":
		c.wrong(first, "phases", "write set:, reach: or in:, or kind: bake", "a step that is to %s has no phases of an oven", st.Kind.V)
	case len(st.Set) > 0:
		c.wrong(st.Set[0].Pos, "phases", "take set: out, the phases say it", "the oven of step %s is set twice", st.ID.V)
	case st.Waiting.Set() && (sum.Most < st.Waiting.V.Least || sum.Least > st.Waiting.V.Most):
		c.wrong(st.Waiting.Pos, "phases", fmt.Sprintf("write waiting: %s, or take it out", sum), "step %s waits %s, its phases take %s", st.ID.V, st.Waiting.V, sum)
	}
	for _, p := range st.Phases {
		c.time(p.For.V.Most, p.For.Pos)
		positive(c, p.Steam, "steam", "write it like 3 s, or take it out")
		if p.Steam.Set() && p.For.Set() && p.Steam.V > p.For.V.Least {
			c.wrong(p.Steam.Pos, "phases", "write it like 3 s", "steam for %s is longer than the phase of %s", p.Steam.V, p.For.V)
		}
	}
}

// mixed: the speeds of the mixer take no longer than the step.
func (c *checker) mixed(st *Step) {
	var sum unit.Wait
	for _, m := range st.Mixer {
		sum = sum.Plus(m.For.V)
		if m.Speed.Set() && (m.Speed.V < 1 || m.Speed.V > 20) {
			c.wrong(m.Speed.Pos, "range", "write a whole number from 1 to 20", "a mixer has no speed %d", m.Speed.V)
		}
		c.time(m.For.V.Most, m.For.Pos)
	}
	if len(st.Mixer) > 0 && st.HandsOn.Set() && sum.Least > st.HandsOn.V+st.Waits().Most {
		c.wrong(st.Mixer[0].Pos, "mixer", fmt.Sprintf("write hands-on: %s or more", sum.Least), "the mixer of step %s runs %s, longer than the step", st.ID.V, sum)
	}
}

// climate: a place is as cold as it is called.
func (c *checker) climate(st *Step) {
	in := st.In
	if in == nil || !in.At.Set() || !in.Place.Set() {
		return
	}
	lo, hi := unit.Celsius(-60), unit.Celsius(100)
	switch in.Place.V {
	case "room":
		lo, hi = unit.Celsius(5), unit.Celsius(40)
	case "cold-room":
		lo, hi = unit.Celsius(-2), unit.Celsius(14)
	case "freezer":
		hi = unit.Celsius(-5)
	case "blast-chiller":
		hi = unit.Celsius(8)
	case "proofer":
		lo, hi = unit.Celsius(15), unit.Celsius(45)
	case "water-bath":
		lo = unit.Celsius(10)
	}
	if t := in.At.V; t.Kind != unit.AtMost && t.Lo < lo || t.Kind != unit.AtLeast && t.Hi > hi {
		c.wrong(in.At.Pos, "place", fmt.Sprintf("look at the figure, its unit and the place; a %s has %s (common practice)", in.Place.V, span(lo, hi, t.InF)),
			"a %s of %s is none", in.Place.V, bothScales(t))
	}
}

// sizes: nothing is of no size.
func (c *checker) sizes(st *Step) {
	z := st.Size
	if z == nil {
		return
	}
	for _, l := range []diag.At[unit.Length]{z.Thickness, z.Diameter, z.Nozzle} {
		positive(c, l, "a size", "write it like 2.5 mm")
	}
	if len(z.Turns) > 0 && st.Of.Set() && st.Of.V != "laminated-dough" {
		c.caution(z.Turns[0].Pos, "size", "look at of: and at turns:", "turns are of a laminated dough, and step %s works on %s", st.ID.V, st.Of.V)
	}
}

// started: a step starts with another one, at a temperature that this one comes
// through.
func (c *checker) started(s sheet, st *Step) {
	w := st.Starts
	if w == nil || !w.With.Set() {
		return
	}
	if slices.ContainsFunc(st.After(), func(n Text) bool { return n.V == w.With.V }) {
		c.wrong(w.With.Pos, "starts", "take it out of needs: or of starts:", "step %s cannot start during %s and after it", st.ID.V, w.With.V)
	}
	i := slices.IndexFunc(s.steps, func(o Step) bool { return o.ID.V == w.With.V })
	if i < 0 || !w.At.Set() {
		return // the first is told among the needs
	}
	end, ok := s.steps[i].hottest()
	if ok && w.At.V.Kind != unit.AtMost && w.At.V.Lo > end {
		c.wrong(w.At.Pos, "starts", "look at both figures and their units", "step %s never comes to %s: its highest is %s", w.With.V, bothScales(w.At.V), degrees(end))
	}
}

// hottest is the highest temperature that a step reaches; false where it says
// none.
func (s *Step) hottest() (unit.Temp, bool) {
	var all []unit.Temp
	for _, r := range s.Reach {
		all = append(all, r.To.V.Hi)
	}
	if s.Limit != nil && s.Limit.Reach.Set() {
		all = append(all, s.Limit.Reach.V.Hi)
	}
	if len(all) == 0 {
		return 0, false
	}
	return slices.Max(all), true
}

// inWork: what is worked with holds at least what the formula as written takes
// of it.
func (c *checker) inWork(s sheet, st *Step) {
	positive(c, st.InWork, "a mass in work", "write it like 3 kg")
	if !st.InWork.Set() {
		return
	}
	if len(st.Uses) == 0 && len(st.Needs) == 0 && c.whole(s.pos) {
		c.wrong(st.InWork.Pos, "in-work", "write under uses: what is worked, or under needs: the step before", "nobody can say of what step %s works %s", st.ID.V, st.InWork.V)
	}
	var takes unit.Mass
	for _, u := range st.Uses {
		for _, l := range s.lines {
			if l.Ref() == u.Line.V {
				takes += l.Taken().Of(u.Part())
			}
		}
	}
	if takes > st.InWork.V && st.InWork.V > 0 {
		c.wrong(st.InWork.Pos, "in-work", "write more, or take in-work: out", "step %s works with %s, and %s of it goes in", st.ID.V, st.InWork.V, takes)
	}
}
