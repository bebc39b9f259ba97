package shop

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// kitchen: it is open before it closes, and somebody works in it.
func (c *checker) kitchen() {
	k := c.Profile.Kitchen
	if k == nil {
		return
	}
	if k.Opens.Set() && k.Closes.Set() && k.Opens.V >= k.Closes.V {
		c.wrong(k.Closes.Pos, "kitchen", "write hours of one day, such as opens: 05:00 and closes: 18:00", "the kitchen opens at %s and closes at %s", k.Opens.V, k.Closes.V)
	}
	if n := k.People; n.Set() && (n.V < 1 || n.V > maxPeople) {
		c.wrong(n.Pos, "range", "write how many work at once, such as 3", "%d people do not work in a kitchen", n.V)
	}
}

const (
	maxPeople = 99
	maxAhead  = 14 // days
)

// handled are the kinds of work that go through the hands piece by piece.
func handled() []string { return []string{"shape", "fill", "finish", "pack"} }

// timedFor: what a time is for can be counted where the step stands, and the
// time of work that every piece goes through says what it is for.
func (c *checker) timedFor() {
	c.formulas(func(f *Formula) {
		for i := range f.Steps {
			c.timedOf(&f.Steps[i], "a formula is made by mass: write it like per: 1.5 kg, or per: bowl", map[Timed]bool{ByMass: true, ByBowl: f.Bowl != nil})
		}
	})
	c.products(func(p *Product) {
		loads := p.Tray != nil && p.Tray.Oven.V > 0
		for i := range p.Steps {
			st := &p.Steps[i]
			c.timedOf(st, "a product is made by pieces: write it like per: 48 pieces; trays and loads need tray: with holds: and oven-takes:",
				map[Timed]bool{ByPiece: true, ByTray: p.Tray != nil, ByLoad: loads})
			if !st.Per.Set() {
				c.untimed(p, st, loads)
			}
		}
	})
}

func (c *checker) timedOf(st *Step, hint string, can map[Timed]bool) {
	if of := st.Per.V.Of; st.Per.Set() && of != ByBatch && !can[of] && c.whole(st.Pos) {
		c.wrong(st.Per.Pos, "time", hint, "nobody knows how many of what step %s is timed for there are", st.ID.V)
	}
}

// untimed cautions where one time cannot be right for every batch.
func (c *checker) untimed(p *Product, st *Step, loads bool) {
	switch {
	case st.HandsOn.V > 0 && slices.Contains(handled(), st.Kind.V) && c.whole(p.Pos):
		c.caution(st.HandsOn.Pos, "time", "write below it for how many that is, such as per: 48 pieces, or per: batch where it is always the same",
			"step %s of %s takes %s for 24 pieces as for 480", st.ID.V, p.ID, st.HandsOn.V)
	case st.Kind.V == "bake" && !loads && p.Tray != nil && c.whole(p.Pos):
		c.caution(st.Pos, "time", "write oven-takes: under tray:, or per: batch at the step where the oven takes all there can be",
			"step %s of %s bakes any number of trays in one load", st.ID.V, p.ID)
	}
}

// ahead: what is made on a day before is made no later than what needs it.
func (c *checker) ahead() {
	c.formulas(func(f *Formula) { c.early(f.Day) })
	c.sheets(func(s sheet) {
		if s.twice() {
			return
		}
		for _, st := range s.steps {
			c.early(st.Day)
			for _, n := range st.Needs {
				i := slices.Index(s.ids(), n.V)
				if i >= 0 && st.Day.Set() && s.steps[i].Day.Set() && s.steps[i].Day.V > st.Day.V {
					c.wrong(s.steps[i].Day.Pos, "day", "see which of the two is wrong", "step %s is done on day %d, and %s, which needs it, on day %d",
						n.V, s.steps[i].Day.V, st.ID.V, st.Day.V)
				}
			}
		}
	})
}

func (c *checker) early(d diag.At[int]) {
	if d.Set() && (d.V > 0 || d.V < -maxAhead) {
		c.wrong(d.Pos, "day", "write 0 for the day itself, -1 for the day before", "day %d is not a day of this work", d.V)
	}
}

// readies: what is to be ready on a day is to be ready while the kitchen is
// open.
func (c *checker) readies() {
	k := c.Profile.Kitchen
	if k == nil || k.Closes.V == 0 {
		return
	}
	within := func(r diag.At[unit.Clock]) {
		if r.Set() && (r.V <= k.Opens.V || r.V > k.Closes.V) {
			c.caution(r.Pos, "kitchen", "write a time at which somebody is there", "the kitchen is open from %s to %s, and this is to be ready at %s", k.Opens.V, k.Closes.V, r.V)
		}
	}
	for _, p := range c.Plans {
		within(p.Ready)
	}
	c.eachRun(func(_ *Plan, r Run) { within(r.Ready) })
}
