package card

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
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
	Total    string // the sum of the lane, at the last step that something goes in
	TotalOf  told   // its letter
	Keep     told   // at the last step of the lane
	Src      diag.Pos
}

// put is one amount that goes in.
type put struct {
	Letter string // of the lane that it comes from
	Name   told
	Amount string
	Small  bool // weighed on the small scale
	Aside  bool // a cooking medium, which is not part of the sum
	Hints  []told
	Src    diag.Pos

	ref     string
	formula *shop.Formula
}

// heat is a temperature to set or to reach: the scale that was written leads.
// Without figures it is only where the step happens.
type heat struct {
	Icon  flow.Icon
	What  told // the icon's word
	Lead  string
	Other string
	Src   diag.Pos
}

// weight is what the pan weighs in the end: itself and so much more.
type weight struct {
	Pan  told
	More string
	Src  diag.Pos
}

// limit is a critical limit.
type limit struct {
	Heat    *heat
	Within  told
	Hold    told
	Measure told
	IfNot   told
	Src     diag.Pos
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
			st.Weight = &weight{t.word("card.pan"), "+" + noBreak + t.readable(m.Out), s.EndWeight.Pos}
		}
	}
	if h := s.Hands.V; h > 0 {
		st.Hands = t.Langs[0].Span(h)
	}
	if w := s.Wait.V; w > 0 {
		st.Wait = t.Langs[0].Span(w)
	}
	if task.Slack > 0 {
		st.CanWait = t.fill("card.can-wait", "time", func(l *words.Lang) string { return l.Span(task.Slack) })
	}
	if s.Limit != nil {
		st.Limit = t.limit(s)
	}
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
				p.Amount, p.Hints, p.Small = "", nil, false
				st.Later = append(st.Later, p)
			default:
				l.placed[j] = true
				st.Puts = append(st.Puts, p)
			}
		}
	}
}

// puts says the amounts of a column.
func (t *teller) puts(amounts []scale.Amount) []put {
	var out []put
	for _, a := range amounts {
		out = append(out, t.put(a))
	}
	return out
}

func (t *teller) put(a scale.Amount) put {
	p := put{ref: a.Line.Ref(), formula: a.Formula, Src: a.Line.Pos, Small: a.Small,
		Amount: t.grams(a.Shown, a.Step), Name: t.nameOf(a)}
	if a.Formula != nil {
		p.Small = false
		return p
	}
	l := t.Langs[0]
	if a.Halves > 0 && a.Ingredient.Piece != nil {
		piece := t.own(a.Ingredient.Piece.Name, a.Ingredient.Piece.Pos, "the piece of "+a.Ingredient.ID)
		p.Hints = append(p.Hints, numbered("≈"+noBreak+halves(l, a.Halves)+noBreak+"×"+noBreak+piece.joined(), p.Src))
	}
	if a.Buy > 0 {
		buy := t.grams(a.Buy, a.Step)
		p.Hints = append(p.Hints, once(t.fill("card.as-bought", "mass", func(*words.Lang) string { return buy }), buy))
	}
	if a.Coarse {
		p.Hints = append(p.Hints, t.word("card.premix"))
	}
	return p
}

// nameOf is what the card calls an amount.
func (t *teller) nameOf(a scale.Amount) told {
	switch {
	case len(a.Line.Name) > 0:
		return t.own(a.Line.Name, a.Line.Pos, "the line "+a.Line.Ref())
	case a.Formula != nil:
		return t.own(a.Formula.Name, a.Formula.Pos, "the name of "+a.Formula.ID)
	case a.Ingredient != nil:
		return t.own(a.Ingredient.Name, a.Ingredient.Pos, "the name of "+a.Ingredient.ID)
	}
	t.found.Errorf(a.Line.Pos, "dangling", "see check", "nothing is known of %q", a.Line.Use.V)
	return told{}
}

// part says a product of an assortment.
func (t *teller) part(p scale.Part) put {
	name := t.own(p.Product.Name, p.Product.Pos, "the name of "+p.Product.ID)
	return put{ref: p.Line.Ref(), Src: p.Line.Pos, Name: name, Amount: t.Langs[0].Plain(int64(p.Pieces), 0) + noBreak + "×"}
}

// halves writes a number of halves: 5 is "2½".
func halves(l *words.Lang, n int64) string {
	s := l.Plain(n/2, 0)
	if n%2 == 0 {
		return s
	}
	if n == 1 {
		s = ""
	}
	return s + "½"
}

// grams is an amount as the scale shows it; a column is never in two units.
func (t *teller) grams(m, step unit.Mass) string {
	decimals := 0
	for at := unit.Gram; step > 0 && step%at != 0 && decimals < 3; at /= 10 {
		decimals++
	}
	return t.Langs[0].MassIn(m, "g", decimals)
}

// finest is the smallest step that any of the amounts is weighed in.
func finest(amounts []scale.Amount) unit.Mass {
	least := amounts[0].Step
	for _, a := range amounts {
		if a.Step > 0 {
			least = min(least, a.Step)
		}
	}
	return least
}

// heats are the temperatures of a step but for its limit, in order.
func (t *teller) heats(s *shop.Step) []heat {
	var out []heat
	icon, word := kindIcon(s.Kind.V)
	add := func(target diag.At[unit.Target], icon flow.Icon, word string) {
		if !target.Set() {
			return
		}
		if icon == flow.Cold && target.V.Hi > cold {
			icon, word = flow.Probe, "card.probe"
		}
		h := t.heat(target)
		h.Icon, h.What = icon, t.word(word)
		out = append(out, h)
	}
	add(s.Set, icon, word)
	for i, r := range s.Reach {
		if i > 0 || s.Set.Set() {
			icon, word = flow.Probe, "card.probe"
		}
		add(r, icon, word)
	}
	add(s.Core, flow.Probe, "card.core")
	if len(out) == 0 && s.Limit == nil && (s.Kind.V == "chill" || s.Kind.V == "freeze") {
		out = append(out, heat{Icon: flow.Cold, What: t.word("card.cold"), Src: s.Kind.Pos})
	}
	return out
}

// cold is what a step in the cold reaches at most; the crystal beside 100 °C
// would say the wrong thing.
const cold = 10 * unit.Temp(unit.DegC)

// kindIcon is the drawing and the word for where a step happens.
func kindIcon(kind string) (icon flow.Icon, word string) {
	switch {
	case ovenKind(kind):
		return flow.Oven, "card.oven"
	case slices.Contains([]string{"boil", "poach", "cook", "melt"}, kind):
		return flow.Pan, "card.pan"
	case slices.Contains([]string{"chill", "freeze", "cool", "rest"}, kind):
		return flow.Cold, "card.cold"
	}
	return flow.Probe, "card.probe"
}

func ovenKind(kind string) bool { return kind == "bake" || kind == "toast" }

func (t *teller) heat(target diag.At[unit.Target]) heat {
	l := t.Langs[0]
	h := heat{Lead: l.Temp(target.V, false), Src: target.Pos}
	h.Other = strings.Trim(strings.TrimPrefix(l.Temp(target.V, true), h.Lead), noBreak+"()")
	return h
}

func (t *teller) limit(s *shop.Step) *limit {
	in := s.Limit
	name := fmt.Sprintf("the limit of step %s", s.ID.V)
	out := &limit{Src: in.Pos,
		Measure: t.own(in.Measure, in.Pos, "how to measure "+name),
		IfNot:   t.own(in.IfNot, in.Pos, "what to do when it is missed, for "+name)}
	if in.Reach.Set() {
		h := t.heat(in.Reach)
		out.Heat = &h
	}
	if in.Within.Set() {
		out.Within = t.fill("card.within", "time", func(l *words.Lang) string { return l.Span(in.Within.V) })
	}
	if in.Hold.Set() {
		out.Hold = t.fill("card.hold", "time", func(l *words.Lang) string { return l.Span(in.Hold.V) })
	}
	return out
}
