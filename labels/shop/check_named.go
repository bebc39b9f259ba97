package shop

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
)

// End is the temperature at which a step is done: that of its limit, else the
// core, else the last that it reaches, else what is held. Side tells the others
// that it reaches, each with what it is of. False where a step is done at none.
func (s *Step) End() (end diag.At[unit.Target], ok bool) {
	switch n := len(s.Reach); {
	case s.Limit != nil && s.Limit.Reach.Set():
		return s.Limit.Reach, true
	case s.Core.Set():
		return s.Core, true
	case n > 0:
		return s.Reach[n-1].To, true
	case s.Hold != nil && s.Hold.At.Set():
		return s.Hold.At, true
	}
	return diag.At[unit.Target]{}, false
}

// namedTemps: where a step has more than one temperature, each says of what;
// the largest figure on a card would else be anybody's.
func (c *checker) namedTemps() {
	c.sheets(func(s sheet) {
		for _, st := range s.steps {
			others := len(st.Reach)
			if st.Limit != nil && st.Limit.Reach.Set() {
				others++
			}
			if others < 2 {
				continue
			}
			for _, r := range st.Reach {
				if len(r.Of) == 0 && r.To.Set() {
					c.wrong(r.To.Pos, "unnamed", "say of what it is, such as {to: "+written(r.To.V)+", of: {en: sugar}}, or make two steps of it",
						"step %s reaches %d temperatures, and nobody can say what %s is of", st.ID.V, others, bothScales(r.To.V))
				}
			}
		}
	})
}
