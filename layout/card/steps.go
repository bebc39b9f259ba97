package card

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// row is one row of the steps table: the head of a lane, or a step.
type row struct {
	Lane  int
	Again bool  // the lane was left and is taken up again
	Step  *step // nil for the head of a lane
}

// step is one step of work. A lane without steps is shown as one without a
// number, so that its amounts stand somewhere.
type step struct {
	No       int
	Do       told
	Tool     told
	Look     told
	Puts     []put
	Later    []put // used before: named, but not weighed again
	Heats    []heat
	Weight   *weight
	Hands    string
	Wait     string
	Oven     bool
	CanWait  told
	Limit    *limit
	Cautions []told
	Advice   []advice
	Latest   string // the latest start, as a time of day; not part of the check word
	Total    string // the sum of the lane, at the last step that something goes in
	TotalOf  told   // its letter
	Keep     told   // at the last step of the lane
	Src      diag.Pos
}

// rows puts the steps in their order of work, with the head of a lane wherever
// the work changes to it.
func (t *teller) rows(out *content) {
	t.stepless(out)
	now := -1
	begun := map[int]bool{}
	for i, task := range out.work.Tasks {
		at := laneOf(out, task.Formula)
		if at < 0 {
			continue
		}
		if at != now && len(out.Lanes) > 1 {
			out.Rows = append(out.Rows, row{Lane: at, Again: begun[at]})
		}
		st := t.step(out, i, at)
		if !begun[at] {
			st.Puts = append(st.Puts, unused(&out.Lanes[at], out.work)...)
		}
		now, begun[at] = at, true
		out.Rows = append(out.Rows, row{Lane: at, Step: st})
	}
	for i := range out.Lanes {
		out.end(i)
	}
}

// stepless shows the lanes that no step belongs to.
func (t *teller) stepless(out *content) {
	for i := range out.Lanes {
		l := &out.Lanes[i]
		if slices.ContainsFunc(out.work.Tasks, func(k scale.Task) bool { return k.Formula == l.formula() }) {
			continue
		}
		if len(out.Lanes) > 1 {
			out.Rows = append(out.Rows, row{Lane: i})
		}
		out.Rows = append(out.Rows, row{Lane: i, Step: &step{Puts: l.puts, Src: l.Src}})
	}
}

func (l *lane) formula() *shop.Formula {
	if l.make == nil {
		return nil
	}
	return l.make.Formula
}

// end gives the sum of a lane to its last step that something goes in, and how
// it is kept to its last step.
func (c *content) end(at int) {
	l, sum, keep := &c.Lanes[at], true, true
	for i := len(c.Rows) - 1; i >= 0; i-- {
		st := c.Rows[i].Step
		if st == nil || c.Rows[i].Lane != at {
			continue
		}
		if keep {
			st.Keep, keep = l.Keep, false
		}
		if sum && len(st.Puts) > 0 {
			st.Total, sum = l.Total, false
			if l.Letter != "" {
				st.TotalOf = numbered(l.Letter, l.Src)
			}
		}
	}
}

func laneOf(out *content, f *shop.Formula) int {
	return slices.IndexFunc(out.Lanes, func(l lane) bool { return l.formula() == f })
}

// unused gives the amounts of a lane that none of its steps names.
func unused(l *lane, w *scale.Work) []put {
	var named []string
	for _, task := range w.Tasks {
		if task.Formula == l.formula() {
			for _, u := range task.Step.Uses {
				named = append(named, u.V)
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(l.puts), func(p put) bool { return slices.Contains(named, p.ref) })
}

// step says task i, which belongs to the lane at.
func (t *teller) step(out *content, i, at int) *step {
	task := out.work.Tasks[i]
	s := task.Step
	name := "step " + s.ID.V
	st := &step{No: i + 1, Src: s.Pos, Oven: ovenKind(s.Kind.V),
		Do:   t.own(s.Do, s.Pos, name),
		Tool: t.maybe(s.Tool, s.Pos, "the tool of "+name),
		Look: t.maybe(s.Look, s.Pos, "the look of "+name)}
	t.use(out, st, s, at)
	st.Heats = t.heats(s)
	if s.EndWeight.V && task.Formula != nil {
		if m, ok := t.Batch.Make(task.Formula); ok {
			st.Weight = &weight{t.word("card.pan"), "+" + compose.NoBreak + t.readable(m.Out), s.EndWeight.Pos}
		}
	}
	if h := s.HandsOn.V; h > 0 {
		st.Hands = t.Lang().Span(h)
	}
	if w := s.Waiting.V; w > 0 {
		st.Wait = t.Lang().Span(w)
	}
	if task.Slack > 0 {
		st.CanWait = t.fill("card.can-wait", "time", func(l *words.Lang) string { return l.Span(task.Slack) })
	}
	if s.Limit != nil {
		st.Limit = t.limit(s)
	}
	for _, p := range st.Puts {
		if !p.Advice.empty() {
			st.Advice = append(st.Advice, advice{flow.Scale, p.Advice})
		}
	}
	st.Advice = append(st.Advice, t.warmth(task.Formula, s)...)
	st.Advice = append(st.Advice, t.height(s)...)
	for _, c := range s.Cautions {
		st.Cautions = append(st.Cautions, t.word("brief."+c.V))
	}
	return st
}

// use gives the step the amounts of its lane that it names. What an earlier
// step has used up is named without its amount, so that nobody weighs it again.
func (t *teller) use(out *content, st *step, s *shop.Step, at int) {
	l := &out.Lanes[at]
	if l.placed == nil {
		l.placed = make([]bool, len(l.puts))
	}
	for _, u := range s.Uses {
		for j, p := range l.puts {
			switch {
			case p.ref != u.V:
			case l.placed[j]:
				p.Amount, p.Hints, p.Small, p.Share = "", nil, false, ""
				st.Later = append(st.Later, p)
			default:
				l.placed[j] = true
				st.Puts = append(st.Puts, p)
			}
		}
	}
}
