package shop

import (
	"regexp"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// typedAmount is an amount as it is typed in a sentence: "30 g", "1,5 kg",
// "½" and "a pinch" are not.
var typedAmount = regexp.MustCompile(`(?:^|[^\d.,])(\d+(?:[.,]\d+)?)[ \x{a0}\x{202f}\x{2009}]?(mg|g|kg|ml|cl|dl|l)(?:$|[^\pL\d])`)

// sentences: an amount that is typed into the sentence of a step stays as it is
// when the line is changed, and the card says two amounts of one thing. Of a
// product it is one of the amounts of a piece; of a formula, whose batches are
// of any size, none can be right.
func (c *checker) sentences() {
	c.formulas(func(f *Formula) {
		c.typed(f.Steps, nil)
	})
	c.products(func(p *Product) {
		if !c.linked(p) {
			return
		}
		known := append(taken(p.Lines()), p.CutTo.V, c.Made(p), c.Finished(p))
		for _, k := range p.Packs {
			known = append(known, k.Net.V, k.Each.V, k.Portion.V)
		}
		c.typed(p.Steps, known)
	})
}

func taken(lines []Line) []unit.Mass {
	var out []unit.Mass
	for _, l := range lines {
		out = append(out, l.Take.V)
	}
	return out
}

func (c *checker) typed(steps []Step, known []unit.Mass) {
	for _, st := range steps {
		told := map[string]bool{}
		for _, e := range slices.Concat(st.Do, st.Short) {
			for _, m := range typedAmount.FindAllStringSubmatch(e.V.V, -1) {
				amount := strings.ReplaceAll(m[1], ",", ".") + " " + m[2]
				mass, err := unit.ParseMass(amount)
				if err == nil && slices.Contains(known, mass) || told[amount] {
					continue
				}
				told[amount] = true
				what, hint := "which is no amount of its lines", "write {take:} with the id of a line, or take it out of the sentence; the card shows the amounts of the lines and scales them"
				if known == nil {
					what = "whatever the size of the batch"
				}
				c.caution(e.V.Pos, "typed-amount", hint, "step %s says %s, %s", st.ID.V, amount, what)
			}
		}
	}
}

// endWeights: a pan that is weighed loses something that is written down.
func (c *checker) endWeights() {
	c.formulas(func(f *Formula) {
		for i := range f.Steps {
			st := &f.Steps[i]
			if _, ok := f.EndWeight(st); st.EndWeight.V && !ok && c.whole(f.Pos) {
				c.wrong(st.EndWeight.Pos, "end-weight", "write the loss of this stage under losses: ("+strings.Join(stagesOf(st.Kind.V), " or ")+"), and under uses: what goes in; or take end-weight: out",
					"nobody can say what the pan of step %s weighs in the end", st.ID.V)
			}
		}
	})
	c.products(func(p *Product) {
		for _, st := range p.Steps {
			if st.EndWeight.V {
				c.wrong(st.EndWeight.Pos, "end-weight", "write it at the step of the formula", "the end weight is that of a pan, and pieces are in none")
			}
		}
	})
}

// stagesOf are the losses that a kind of step brings about.
func stagesOf(kind string) []string {
	switch kind {
	case "boil", "cook", "poach", "melt":
		return []string{"boil", "dry"}
	case "bake", "toast":
		return []string{"bake", "dry"}
	case "cool", "chill", "freeze", "rest", "set":
		return []string{"cool", "dry"}
	}
	return []string{"drain", "handle"}
}

// EndWeight is what the pan holds at the end of a step of the formula as
// written: what went in at this step and at those that it needs, less the
// losses up to and with the last of its stage. It is false where no loss is of
// its stage, where nothing goes in, or where it stands in a cooking medium.
func (f *Formula) EndWeight(s *Step) (unit.Mass, bool) {
	refs := f.inPan(s)
	if f.CookedIn != nil && refs[f.CookedIn.Use.V] > 0 {
		return 0, false
	}
	var m unit.Mass
	for _, l := range f.Lines {
		m += l.Taken().Of(min(refs[l.Ref()], unit.Whole))
	}
	last := -1
	for i, l := range f.Losses {
		if slices.Contains(stagesOf(s.Kind.V), l.Stage.V) {
			last = i
		}
	}
	for _, l := range f.Losses[:last+1] {
		m -= l.Of(m)
	}
	return m, last >= 0 && m > 0
}

// inPan gives how much of each line went in up to and with a step.
func (f *Formula) inPan(s *Step) map[string]unit.Share {
	refs, seen := map[string]unit.Share{}, map[string]bool{}
	var visit func(s *Step)
	visit = func(s *Step) {
		seen[s.ID.V] = true
		for _, u := range s.Uses {
			refs[u.Line.V] += u.Part()
		}
		for i := range f.Steps {
			if t := &f.Steps[i]; !seen[t.ID.V] && slices.ContainsFunc(s.After(), func(n diag.At[string]) bool { return n.V == t.ID.V }) {
				visit(t)
			}
		}
	}
	visit(s)
	return refs
}
