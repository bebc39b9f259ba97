package card

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/text"
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
	No       int // by the clock
	Do       told
	Short    told // in few words
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
	Says     []saying
	Picture  *shown
	Range    string // from when to when it waits, where that is not one time
	Advice   []advice
	Latest   string // the latest start, as a time of day; not part of the check word
	Total    string // the sum of the lane, at the last step that something goes in
	TotalOf  told   // its letter
	Keep     told   // at the last step of the lane
	Src      diag.Pos

	task int // index into the tasks of the work
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
				named = append(named, u.Line.V)
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
	st := &step{No: out.no[i], task: i, Src: s.Pos, Oven: ovenKind(s.Kind.V),
		Tool: t.maybe(s.Tool, s.Pos, "the tool of "+name),
		Look: t.maybe(s.Look, s.Pos, "the look of "+name)}
	t.use(out, st, i, at)
	st.Do = t.sentence(out, at, st, s.Do, s.Pos, name)
	st.Short = t.short(out, at, st, s)
	st.Says = t.sayings(out, i, s)
	st.Picture = t.picture(s)
	st.Heats = t.heats(s)
	if m, ok := t.Batch.EndWeight(task.Formula, s); ok && s.EndWeight.V {
		st.Weight = &weight{t.word("card.pan"), "+" + compose.NoBreak + t.readable(m), s.EndWeight.Pos}
	}
	st.Hands, st.Wait = t.timing(task.Timing)
	if w := s.Waits(); w.Ranges() {
		st.Range = t.Lang().Wait(w)
	}
	if task.Slack > 0 {
		st.CanWait = t.fill("card.can-wait", "time", func(l *words.Lang) string { return l.Span(task.Slack) })
	}
	if s.Limit != nil {
		st.Limit = t.limit(s)
	}
	for _, p := range st.Puts {
		if !p.Advice.empty() {
			st.Advice = append(st.Advice, advice{Icon: flow.Scale, Said: p.Advice, Hang: p.water})
		}
	}
	st.Advice = append(st.Advice, t.warmth(out, task.Formula, s)...)
	st.Advice = append(st.Advice, t.height(s)...)
	for _, c := range s.Cautions {
		st.Cautions = append(st.Cautions, t.word("brief."+c.V))
	}
	return st
}

// short says a step in few words, in each language that has them so; in the
// others as it is said anyway.
func (t *teller) short(out *content, at int, st *step, s *shop.Step) told {
	said := told{slices.Clone(st.Do.In), st.Do.Src}
	for i, l := range t.Card.Langs {
		if v, ok := shop.In(s.Short, l.Code()); ok && v.V != "" {
			said.In[i] = shop.Said(v.V, func(ref string) (string, bool) { return t.amountIn(&out.Lanes[at], st, ref) })
		}
	}
	return said
}

// use gives the step the amounts of its lane that it names. What an earlier
// step has used up is named without its amount, so that nobody weighs it again.
func (t *teller) use(out *content, st *step, i, at int) {
	task, l := out.work.Tasks[i], &out.Lanes[at]
	if l.placed == nil {
		l.placed = make([]unit.Share, len(l.puts))
	}
	for _, u := range task.Step.Uses {
		if u.Step.Set() {
			if p, ok := t.fromStep(out, at, u, task.Formula); ok {
				st.Puts = append(st.Puts, p)
			}
		}
		for j, p := range l.puts {
			switch {
			case p.ref != u.Line.V:
			case l.placed[j] >= unit.Whole:
				p.Amount, p.Hints, p.Small, p.Share = "", nil, false, ""
				st.Later = append(st.Later, p)
			default:
				st.Puts = append(st.Puts, t.shareOf(p, &l.placed[j], u.Part()))
			}
		}
	}
}

// shareOf takes a share of an amount out of what is left of it: rounded so that
// the shares of one amount add up to it as it is shown.
func (t *teller) shareOf(p put, placed *unit.Share, share unit.Share) put {
	before := *placed
	*placed = min(before+share, unit.Whole)
	p.whole = *placed >= unit.Whole
	if share >= unit.Whole {
		return p
	}
	at := func(s unit.Share) unit.Mass { return p.mass.Of(s).Round(max(p.step, 1)) }
	p.Amount = t.grams(at(*placed)-at(before), p.step)
	p.Hints = append([]told{t.slots("card.share-of", p.Src, func(_ int, l *words.Lang) map[string]string {
		return map[string]string{"share": l.Share(share), "mass": t.grams(p.mass, p.step)}
	})}, p.Hints...)
	return p
}

// stopping sets when a step is done: temperatures large, the other scale under
// them, the weight of the pan, the look, the time. It returns where it ends.
func (s *sheet) stopping(h *setter, base unit.Length, st *step) unit.Length {
	c, y := s.cols.stop, base-h.up(s.z.key)
	switch {
	case len(st.Heats) > 0 && st.Heats[0].Lead != "":
	case st.Weight != nil:
		y = base - h.up(s.z.body)
	default:
		y = base - h.up(s.z.small)
	}
	for _, t := range st.Heats {
		y += s.heat(h, c, y, t)
	}
	if w := st.Weight; w != nil {
		y += h.groups(c.X, y, c.W, s.z.small/3, []group{
			{{kind: isIcon, icon: flow.Scale, look: s.z.note()}, say(w.Pan.joined(), role.Note, w.Src, s.z.note())},
			{say(w.More, role.Amount, w.Src, s.z.strong())}})
	}
	y += h.told(c.X, y, c.W, role.Step, st.Look, s.z.note())
	return y + s.clock(h, c, y, st)
}

// heat sets one temperature behind its icon, and below it the icon's word and
// the other scale. It returns the height. Where the key size is too wide for
// the column, the size of amounts is still what the distance asks.
func (s *sheet) heat(h *setter, c span, y unit.Length, t heat) unit.Length {
	if t.Lead == "" {
		g := group{{kind: isIcon, icon: t.Icon, look: s.z.note()}, say(t.What.joined(), role.Note, t.Src, s.z.note())}
		return h.groups(c.X, y, c.W, s.z.gap, []group{g})
	}
	big := s.z.big()
	if t.Side {
		big = s.z.strong()
	}
	in := s.z.small * 5 / 4
	if h.width(t.Lead, big) > c.W-in {
		big = s.z.strong()
	}
	used := h.lead(big.size)
	h.bit(c.X, y+h.up(big.size), bit{kind: isIcon, icon: t.Icon, look: s.z.note(), role: role.Note})
	used = max(used, h.words(c.X+in, y, c.W-in, role.Heat, t.Src, t.Lead, big))
	second := []group{{say(t.What.joined(), role.Note, t.Src, s.z.faint())}, {say(t.Other, role.Heat, t.Src, s.z.plain())}}
	return used + h.groups(c.X+in, y+used, c.W-in, s.z.small/2, second)
}

// clock sets the hands-on and the waiting time behind their marks.
func (s *sheet) clock(h *setter, c span, y unit.Length, st *step) unit.Length {
	var all []group
	l := s.z.note()
	if st.Hands != "" {
		all = append(all, group{{kind: isSolid, look: l}, say(st.Hands, role.Note, diag.Pos{}, l)})
	}
	if st.Wait != "" {
		mark := isOutline
		if st.Oven {
			mark = isHatch
		}
		all = append(all, group{{kind: mark, look: l}, say(st.Wait, role.Note, diag.Pos{}, l)})
	}
	if len(all) == 0 {
		return 0
	}
	return h.groups(c.X, y, c.W, s.z.gap, all)
}

// limit sets a critical limit in its box: the word and a shape, what must be
// reached, how it is measured, what to do if it is missed, and, where a time
// counts, lines to write on. It returns the height.
func (s *sheet) limit(h *setter, r page.Rect, l *limit) unit.Length {
	return h.Boxed(r, s.z.pad, s.z.thick, func(set *compose.Setter, r page.Rect) unit.Length {
		in, y := &setter{set, s.z, h.hung}, r.Y
		y += s.limitHead(in, r.X, y, r.W, l)
		y += s.pair(in, r.X, y, r.W, "card.measure", l.Measure)
		y += s.pair(in, r.X, y, r.W, "card.if-not", l.IfNot)
		if !l.Within.empty() || l.Record {
			y += s.writeOn(in, r.X, y, r.W, l)
		}
		return y - r.Y
	})
}

// limitHead is what must be reached.
func (s *sheet) limitHead(h *setter, x, y, w unit.Length, l *limit) unit.Length {
	big := s.z.big()
	words := func(t string, l look) bit { return say(t, role.Limit, diag.Pos{}, l) }
	all := []group{{{kind: isIcon, icon: flow.Limit, look: big, role: role.Limit}, words(s.said.teller.both("card.limit"), s.z.strong())}}
	if l.Heat != nil {
		all = append(all, group{say(l.Heat.Lead, role.Limit, l.Heat.Src, big), say(l.Heat.Other, role.Limit, l.Heat.Src, s.z.plain())})
	}
	second := group{}
	for _, t := range []told{l.From, l.Within, l.Hold} {
		if t.empty() {
			continue
		}
		all = append(all, group{words(t.In[0], big)})
		if len(t.In) > 1 && t.In[1] != t.In[0] {
			second = append(second, words(t.In[1], s.z.plain()))
		}
	}
	if len(second) > 0 {
		all = append(all, second)
	}
	return h.groups(x, y, w, s.z.gap, all)
}

// pair is a word and what it stands for, in each language; on one line where
// it has room.
func (s *sheet) pair(h *setter, x, y, w unit.Length, key string, t told) unit.Length {
	var all []text.Para
	var wide unit.Length
	for i, word := range s.said.teller.word(key).In {
		all = append(all, text.Para{Role: role.Limit, Src: t.Src, Spans: []text.Span{{Text: word + ": ", Bold: true}, {Text: t.In[i]}}})
		wide += h.width(word+": ", s.z.strong()) + h.width(t.In[i], s.z.plain()) + s.z.gap
	}
	if len(all) == 2 && wide < w {
		half := h.width(all[0].Spans[0].Text, s.z.strong()) + h.width(t.In[0], s.z.plain()) + s.z.gap
		h.para(x+half, y, w-half, all[1], look{size: s.z.body, gray: soft})
		return h.para(x, y, half, all[0], s.z.plain())
	}
	var used unit.Length
	for i, p := range all {
		l := s.z.plain()
		if i > 0 {
			l.gray = soft
		}
		used += h.para(x, y+used, w, p, l)
	}
	return used
}

// writeOn is where the times are written: from when to when.
func (s *sheet) writeOn(h *setter, x, y, w unit.Length, l *limit) unit.Length {
	note := s.z.note()
	words := func(t string) bit { return say(t, role.Note, diag.Pos{}, note) }
	blank := bit{kind: isBlank, look: note, wide: s.z.small * 7}
	reach := group{{kind: isIcon, icon: flow.Arrow, look: note}}
	if l.Heat != nil {
		reach = append(reach, say(l.Heat.Lead, role.Limit, l.Heat.Src, s.z.strong()))
	}
	reach = append(reach, words(s.said.teller.both("card.done-by")), blank)
	all := []group{{words(s.said.teller.both("card.start-at")), blank}, reach}
	if l.Within.empty() {
		all = []group{{words(s.said.teller.both("card.record")), blank}, {words(s.said.teller.both("card.clock")), blank}, {words("°C"), blank}}
	}
	if l.Hours != "" {
		all = append(all, group{{kind: isIcon, icon: flow.Clock, look: note}, words(s.said.teller.both("card.clock")), say(l.Hours, role.Note, l.Src, s.z.faint())})
	}
	return h.groups(x, y, w, 2*s.z.gap, all)
}
