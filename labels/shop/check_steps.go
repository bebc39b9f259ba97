package shop

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// A sheet is a list of steps with the lines that they may use.
type sheet struct {
	pos   diag.Pos
	name  string
	steps []Step
	lines []Line
	// medium is the formula it is cooked in, or empty.
	medium Text
}

// sheets calls do for every formula and product.
func (c *checker) sheets(do func(sheet)) {
	c.formulas(func(f *Formula) {
		s := sheet{f.Pos, f.ID, f.Steps, f.Lines, Text{}}
		if f.CookedIn != nil {
			s.medium = f.CookedIn.Use
		}
		do(s)
	})
	c.products(func(p *Product) { do(sheet{p.Pos, p.ID, p.Steps, p.Lines(), Text{}}) })
}

func (s sheet) ids() []string {
	var ids []string
	for _, st := range s.steps {
		ids = append(ids, st.ID.V)
	}
	return ids
}

func (s sheet) refs() []string {
	var refs []string
	for _, l := range s.lines {
		refs = append(refs, l.Ref())
	}
	if s.medium.Set() {
		refs = append(refs, s.medium.V)
	}
	return refs
}

// twice reports whether two steps bear one name; then nobody can say which of
// them another step needs.
func (s sheet) twice() bool {
	ids := slices.DeleteFunc(s.ids(), func(id string) bool { return id == "" })
	slices.Sort(ids)
	return len(slices.Compact(slices.Clone(ids))) < len(ids)
}

// stepIDs: each step of a sheet has a name of its own.
func (c *checker) stepIDs() {
	c.sheets(func(s sheet) {
		first := map[string]diag.Pos{}
		for _, st := range s.steps {
			if !st.ID.Set() {
				continue
			}
			if at, twice := first[st.ID.V]; twice {
				c.wrong(st.ID.Pos, "step", "give each step a name of its own", "there are two steps %q, the first at %s", st.ID.V, at)
				continue
			}
			first[st.ID.V] = st.ID.Pos
		}
	})
}

// stepNeeds: needs name steps of the same sheet, and lead in no circle.
func (c *checker) stepNeeds() {
	c.sheets(func(s sheet) {
		if s.twice() {
			return
		}
		ids := s.ids()
		for _, st := range s.steps {
			for _, n := range st.follows() {
				switch {
				case n.V == st.ID.V:
					c.wrong(n.Pos, "circle", "take it out", "step %s needs itself", n.V)
				case !slices.Contains(ids, n.V) && c.whole(s.pos):
					c.wrong(n.Pos, "step", meant(n.V, ids, "steps here are "+list(ids)+"; steps of a formula are needed by using the formula"),
						"there is no step %q in %s", n.V, s.name)
				}
			}
		}
		c.stepCircle(s)
	})
}

// stepCircle reports steps that wait for each other, by name.
func (c *checker) stepCircle(s sheet) {
	at := map[string]*Step{}
	for i := range s.steps {
		at[s.steps[i].ID.V] = &s.steps[i]
	}
	state := map[string]int{}
	var above []string
	var visit func(st *Step)
	visit = func(st *Step) {
		id := st.ID.V
		state[id] = 1
		above = append(above, id)
		for _, n := range st.follows() {
			switch next := at[n.V]; {
			case next == nil || n.V == id:
			case state[n.V] == 0:
				visit(next)
			case state[n.V] == 1:
				round := append(slices.Clone(above[slices.Index(above, n.V):]), n.V)
				c.wrong(n.Pos, "circle", "take one of the needs out", "steps wait for each other: %s", strings.Join(round, " needs "))
			}
		}
		above = above[:len(above)-1]
		state[id] = 2
	}
	for i := range s.steps {
		if state[s.steps[i].ID.V] == 0 {
			visit(&s.steps[i])
		}
	}
}

// Cautions are the cautions that a step may bear.
func Cautions() []string { return []string{"hot-sugar", "raw-egg", "hot-oven"} }

// stepValues: times are not negative, cautions are known, a limit limits
// something.
func (c *checker) stepValues() {
	c.sheets(func(s sheet) {
		for _, st := range s.steps {
			c.time(st.HandsOn.V, st.HandsOn.Pos)
			c.time(st.Waiting.V.Most, st.Waiting.Pos)
			for _, x := range st.Cautions {
				if !slices.Contains(Cautions(), x.V) {
					c.wrong(x.Pos, "caution", meant(x.V, Cautions(), "cautions are "+list(Cautions())), "there is no caution %q", x.V)
				}
			}
			if m := st.Limit; m != nil {
				positive(c, m.Within, "a time limit", "write it like 2 h")
				positive(c, m.Hold, "a time to hold", "write it like 2 min")
				if !m.Reach.Set() && !m.Within.Set() && !m.Hold.Set() && c.whole(m.Pos) {
					c.wrong(m.Pos, "limit", "write reach:, within: or hold:", "this limit limits nothing")
				}
				if m.From.Set() && !m.Within.Set() && c.whole(m.Pos) {
					c.wrong(m.From.Pos, "limit", "write within: too, such as within: 2 h; from: says from when that time counts", "this limit counts from %s, and says no time", bothScales(m.From.V))
				}
			}
		}
	})
}

func (c *checker) time(t unit.Span, pos diag.Pos) {
	if t < 0 || t > 60*24*unit.Hour {
		c.wrong(pos, "range", "write a time such as 20 min or 12 h", "a step cannot take %s", t)
	}
}
