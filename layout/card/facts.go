package card

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// The facts of a step are what it says beside its sentence and its amounts, in
// the languages of the card, whatever form the card has: its temperatures
// (heat), of which one at most is not Side, the figure that the step is done
// at; and its sayings, each of a kind.

// sayKind tells what a saying is about, so that a form can choose.
type sayKind string

// The kinds of sayings, in the order in which they are said.
const (
	sayNever  sayKind = "never"  // what must not be done: never left out
	sayStarts sayKind = "starts" // with which other step it starts
	sayHand   sayKind = "hand"   // who does it
	sayMixer  sayKind = "mixer"
	saySize   sayKind = "size"
	sayPlace  sayKind = "place" // a place without a temperature, or the humidity of one
	sayHold   sayKind = "hold"
	sayInWork sayKind = "in-work"
	sayOr     sayKind = "or"
)

// saying is one fact in words.
type saying struct {
	Kind sayKind
	Said told
}

// sayings are the facts of a step in words, what must not be done first.
func (t *teller) sayings(out *content, at int, s *shop.Step) []saying {
	var all []saying
	say := func(k sayKind, said told) {
		if !said.empty() {
			all = append(all, saying{k, said})
		}
	}
	say(sayNever, t.maybe(s.Never, s.Pos, "the never of step "+s.ID.V))
	say(sayStarts, t.starts(out, at, s))
	if s.Hand.Set() {
		say(sayHand, t.fill("card.hand", "n", func(*words.Lang) string { return s.Hand.V }))
	}
	say(sayMixer, t.mixer(s))
	say(saySize, t.size(out.work.Tasks[at].Formula, s))
	say(sayPlace, t.place(s))
	say(sayHold, t.keptAt(s))
	for _, w := range t.inWork(out.work.Tasks[at].Formula, s) {
		say(sayInWork, w)
	}
	if len(s.Or) > 0 {
		say(sayOr, with(": ", t.word("card.or"), t.own(s.Or, s.Pos, "the other way of step "+s.ID.V)))
	}
	return all
}

// sentence is a text of a step with the amounts that it takes of lines put in:
// of a product that is sold by the piece what one piece takes, else what this
// batch does.
func (t *teller) sentence(out *content, at int, st *step, w shop.Words, pos diag.Pos, what string) told {
	said := t.own(w, pos, what)
	l := &out.Lanes[at]
	for i, s := range said.In {
		said.In[i] = shop.Said(s, func(ref string) (string, bool) { return t.amountIn(l, st, ref) })
	}
	return said
}

// amountIn is the amount of a line as a sentence says it.
func (t *teller) amountIn(l *lane, st *step, ref string) (string, bool) {
	if l.make == nil && t.Product != nil && !t.Product.CutTo.Set() {
		for _, line := range t.Product.Lines() {
			if line.Ref() == ref && line.Take.Set() {
				return t.Lang().Mass(line.Take.V), true
			}
		}
	}
	for _, p := range slices.Concat(st.Puts, l.puts) {
		if p.ref == ref {
			return p.Amount, true
		}
	}
	return "", false
}

// starts says with which other step this one starts.
func (t *teller) starts(out *content, at int, s *shop.Step) told {
	if s.Starts == nil {
		return told{}
	}
	n, ok := numberOf(out, out.work.Tasks[at].Formula, s.Starts.With.V)
	if !ok {
		return told{}
	}
	key := "card.starts-with"
	if s.Starts.At.Set() {
		key = "card.starts-at"
	}
	return t.slots(key, s.Starts.Pos, func(_ int, l *words.Lang) map[string]string {
		v := map[string]string{"n": l.Plain(int64(n), 0)}
		if s.Starts.At.Set() {
			v["temp"] = l.Temp(s.Starts.At.V, true)
		}
		return v
	})
}

// numberOf is the number on the card of a step of the same formula, or of the
// product where that is nil.
func numberOf(out *content, f *shop.Formula, id string) (int, bool) {
	i := slices.IndexFunc(out.work.Tasks, func(k scale.Task) bool { return k.Formula == f && k.Step.ID.V == id })
	if i < 0 {
		return 0, false
	}
	return out.no[i], true
}

// mixer is "beater, speed 1 4 min, speed 2 6 min".
func (t *teller) mixer(s *shop.Step) told {
	var all []told
	tool := ""
	for _, m := range s.Mixer {
		if m.With.Set() && m.With.V != tool {
			tool = m.With.V
			all = append(all, t.word("card.with."+tool))
		}
		all = append(all, t.each(m.Pos, func(_ int, c *compose.Teller) string {
			return c.Fill("card.speed", map[string]string{"n": c.Lang().Plain(int64(m.Speed.V), 0)}) + ":" + compose.NoBreak + c.Lang().Wait(m.For.V)
		}))
	}
	return with(", ", all...)
}

// place is where the step waits, where no temperature tells it, and how damp
// the air is.
func (t *teller) place(s *shop.Step) told {
	in := s.In
	if in == nil {
		return told{}
	}
	var all []told
	if !in.At.Set() {
		all = append(all, t.word("card.place."+in.Place.V))
	}
	if in.Humidity.Set() {
		all = append(all, t.fill("card.humidity", "share", func(l *words.Lang) string { return humidity(l, in.Humidity.V) }))
	}
	return with(", ", all...)
}

func humidity(l *words.Lang, h shop.Humidity) string {
	switch {
	case h.Lo == 0:
		return "≤" + compose.NoBreak + l.Share(h.Hi)
	case h.Hi == 0:
		return "≥" + compose.NoBreak + l.Share(h.Lo)
	case h.Lo == h.Hi:
		return l.Share(h.Lo)
	}
	return l.Shares(h.Lo, h.Hi)
}

// keptAt is for how long a temperature is held.
func (t *teller) keptAt(s *shop.Step) told {
	if s.Hold == nil || !s.Hold.At.Set() {
		return told{}
	}
	return t.each(s.Hold.Pos, func(_ int, c *compose.Teller) string {
		said := c.Fill("card.keep-at", map[string]string{"temp": c.Lang().Temp(s.Hold.At.V, true)})
		if s.Hold.For.Set() {
			said += ", " + c.Lang().Wait(s.Hold.For.V)
		}
		return said
	})
}

// inWork says with how much is worked, and in how many lots where a batch takes
// more than that.
func (t *teller) inWork(f *shop.Formula, s *shop.Step) []told {
	if !s.InWork.Set() {
		return nil
	}
	much := t.readable(s.InWork.V)
	all := []told{t.fill("card.in-work", "mass", func(*words.Lang) string { return much })}
	if goes := t.taken(f, s); goes > s.InWork.V {
		n := int64((goes + s.InWork.V - 1) / s.InWork.V)
		all = append(all, t.slots("card.in-work-short", s.InWork.Pos, func(_ int, l *words.Lang) map[string]string {
			return map[string]string{"mass": much, "n": l.Plain(n, 0)}
		}))
	}
	return all
}

// taken is how much of its lines goes in at a step in this batch.
func (t *teller) taken(f *shop.Formula, s *shop.Step) unit.Mass {
	lines := t.Batch.Lines
	if f != nil {
		m, ok := t.Batch.Make(f)
		if !ok {
			return 0
		}
		lines = m.Lines
	}
	var sum unit.Mass
	for _, u := range s.Uses {
		for _, a := range lines {
			if a.Line.Ref() == u.Line.V {
				sum += a.Exact.Of(u.Part())
			}
		}
	}
	return sum
}

// size is how thick, how wide, how often; of a frame also how many of it the
// batch fills.
func (t *teller) size(f *shop.Formula, s *shop.Step) told {
	z := s.Size
	if z == nil {
		return told{}
	}
	all := t.turns(z.Turns)
	length := func(key string, v diag.At[unit.Length]) {
		if v.Set() {
			all = append(all, t.fill(key, "size", func(l *words.Lang) string { return l.Length(v.V) }))
		}
	}
	extent := func(key string, v diag.At[unit.Extent]) {
		if v.Set() {
			all = append(all, t.fill(key, "size", func(l *words.Lang) string { return l.Extent(v.V) }))
		}
	}
	length("card.thickness", z.Thickness)
	if z.Diameter.Set() {
		all = append(all, numbered("Ø"+compose.NoBreak+t.Lang().Length(z.Diameter.V), z.Diameter.Pos))
	}
	length("card.nozzle", z.Nozzle)
	extent("card.cut", z.Cut)
	extent("card.frame", z.Frame)
	if n, ok := t.frames(f); ok && z.Frame.Set() {
		all = append(all, t.fill("card.frames", "n", func(l *words.Lang) string { return l.Plain(n, 1) }))
	}
	return with(", ", all...)
}

// turns lists the turns of a laminated dough, alike ones counted.
func (t *teller) turns(turns []shop.Text) []told {
	var all []told
	for i := 0; i < len(turns); {
		n := i
		for n < len(turns) && turns[n].V == turns[i].V {
			n++
		}
		said := t.word("card.turn." + turns[i].V)
		if n-i > 1 {
			said = with("", numbered(t.times(int64(n-i)), turns[i].Pos), said)
		}
		all = append(all, said)
		i = n
	}
	return all
}

// frames is how many tenths of a frame the batch fills; the formula as written
// fills one. Nothing is said of exactly one.
func (t *teller) frames(f *shop.Formula) (tenths int64, ok bool) {
	if f == nil || f.Out() <= 0 {
		return 0, false
	}
	m, ok := t.Batch.Make(f)
	if !ok {
		return 0, false
	}
	tenths = unit.MulDiv(int64(m.Out), 10, int64(f.Out()))
	return tenths, tenths != 10
}

// phase is what one phase of the oven says beside its temperature.
func (t *teller) phase(p shop.Phase) told {
	all := []told{numbered(t.Lang().Wait(p.For.V), p.For.Pos)}
	for _, w := range []struct {
		key string
		v   shop.Text
	}{{"card.door.", p.Door}, {"card.vent.", p.Vent}, {"card.fan.", p.Fan}} {
		if w.v.Set() {
			all = append(all, t.word(w.key+w.v.V))
		}
	}
	if p.Steam.Set() {
		all = append(all, t.fill("card.steam", "time", func(l *words.Lang) string { return l.Span(p.Steam.V) }))
	}
	return with(", ", all...)
}

// fromStep is the product of an earlier step among what goes in: named, with
// what is in it, and its mass in brackets, for it was weighed there.
func (t *teller) fromStep(out *content, at int, u shop.Use, f *shop.Formula) (put, bool) {
	n, ok := numberOf(out, f, u.Step.V)
	if !ok {
		return put{}, false
	}
	in := out.Lanes[at].madeAt(out.work, f, u.Step.V)
	var names []told
	var sum, step unit.Mass
	for _, p := range in {
		names = append(names, p.Name)
		sum += p.mass
		if step == 0 || p.step > 0 && p.step < step {
			step = p.step
		}
	}
	p := put{Aside: true, Src: u.Pos, Name: t.slots("card.from-step", u.Pos, func(i int, l *words.Lang) map[string]string {
		var list []string
		for _, name := range names {
			list = append(list, name.In[min(i, len(name.In)-1)])
		}
		if len(list) > 2 {
			list = []string{list[0], "…"}
		}
		return map[string]string{"n": l.Plain(int64(n), 0), "list": strings.Join(list, " + ")}
	})}
	if sum > 0 {
		p.Amount = t.grams(sum.Of(u.Part()).Round(max(step, 1)), step)
	}
	return p, true
}

// madeAt gives the amounts that went in at a step and at those before it.
func (l *lane) madeAt(w *scale.Work, f *shop.Formula, id string) []put {
	var refs []string
	seen := map[string]bool{}
	var visit func(id string)
	visit = func(id string) {
		for _, task := range w.Tasks {
			if task.Formula != f || task.Step.ID.V != id || seen[id] {
				continue
			}
			seen[id] = true
			for _, u := range task.Step.Uses {
				refs = append(refs, u.Line.V)
			}
			for _, n := range task.Step.After() {
				visit(n.V)
			}
		}
	}
	visit(id)
	return slices.DeleteFunc(slices.Clone(l.puts), func(p put) bool { return !slices.Contains(refs, p.ref) })
}

// said are the sayings of a step as they stand under it.
func (s *step) said() []advice {
	var all []advice
	for _, x := range s.Says {
		all = append(all, advice{Icon: x.Kind.icon(), Said: x.Said, Bold: x.Kind == sayNever})
	}
	return all
}

// icon is the drawing before a saying.
func (k sayKind) icon() flow.Icon {
	switch k {
	case sayNever:
		return flow.Warning
	case sayHold, sayPlace:
		return flow.Probe
	case sayInWork:
		return flow.Scale
	case sayStarts:
		return flow.Clock
	}
	return flow.Arrow
}
