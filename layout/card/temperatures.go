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
	"chablon/layout/compose"
	"chablon/layout/flow"
)

// heat is a temperature to set or to reach: the scale that was written leads.
// Without figures it is only where the step happens.
type heat struct {
	Icon  flow.Icon
	What  told // the icon's word
	Lead  string
	Other string
	Side  bool // not what the step is done at: set in smaller letters
	Named bool // says of what or where, so that its word may not be left out
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
	From    told // from which temperature the time counts
	Record  bool // it is written down each time
	Within  told
	Hold    told
	Measure told
	IfNot   told
	Hours   string // an example: from when to when; not part of the check word
	Src     diag.Pos
}

// heats are the temperatures of a step but for its limit, in order.
func (t *teller) heats(s *shop.Step) []heat {
	var out []heat
	var named shop.Words
	icon, word := kindIcon(s.Kind.V)
	add := func(target diag.At[unit.Target], icon flow.Icon, word string) {
		if !target.Set() {
			return
		}
		if len(named) > 0 {
			h := heatOf(target, t.Lang().Limit)
			h.Named, h.Icon, h.What = true, flow.Probe, t.own(named, target.Pos, "what a temperature of step "+s.ID.V+" is of")
			out = append(out, h)
			return
		}
		if icon == flow.Cold && target.V.Hi > cold {
			icon, word = flow.Probe, "card.probe"
		}
		h := heatOf(target, t.Lang().Limit) // whoever works in °F keeps to the range too
		h.Icon, h.What, h.Named = icon, t.word(word), word == "card.core" || icon == flow.Oven
		out = append(out, h)
	}
	for _, r := range s.Set {
		add(r, icon, word)
	}
	for _, p := range s.Phases {
		h := heatOf(p.Set, t.Lang().Limit)
		h.Named, h.Icon, h.What = true, icon, t.phase(p)
		out = append(out, h)
	}
	if s.In != nil && s.In.At.Set() {
		h := heatOf(s.In.At, t.Lang().Limit)
		h.Named, h.Icon, h.What = true, flow.Cold, t.word("card.place."+s.In.Place.V)
		if s.In.At.V.Hi > cold {
			h.Icon = flow.Probe
		}
		out = append(out, h)
	}
	reach, _ := scale.Reach(&t.Shop.Profile, s)
	for i, r := range s.Reach {
		if i > 0 || len(s.Settings()) > 0 {
			icon, word = flow.Probe, "card.probe"
		}
		r.To.V, named = reach[i], r.Of
		add(r.To, icon, word)
	}
	named = nil
	add(s.Core, flow.Probe, "card.core")
	if len(out) == 0 && s.Limit == nil && (s.Kind.V == "chill" || s.Kind.V == "freeze") {
		out = append(out, heat{Icon: flow.Cold, What: t.word("card.cold"), Src: s.Kind.Pos})
	}
	side(out, s)
	return out
}

// side marks the temperatures that a step is not done at: where it has an end
// or a limit, all others.
func side(all []heat, s *shop.Step) {
	end, ok := s.End()
	phase := func(src diag.Pos) bool {
		return slices.ContainsFunc(s.Phases, func(p shop.Phase) bool { return p.Set.Pos == src })
	}
	for i := range all {
		src := all[i].Src
		all[i].Side = ok && src != end.Pos || len(s.Phases) > 1 && phase(src) || s.In != nil && src == s.In.At.Pos
	}
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

// heatOf says a target in both scales, as Temp or Limit of a language does.
func heatOf(target diag.At[unit.Target], say func(unit.Target, bool) string) heat {
	h := heat{Lead: say(target.V, false), Src: target.Pos}
	h.Other = strings.Trim(strings.TrimPrefix(say(target.V, true), h.Lead), compose.NoBreak+"()")
	return h
}

func (t *teller) limit(s *shop.Step) *limit {
	in := s.Limit
	name := fmt.Sprintf("the limit of step %s", s.ID.V)
	out := &limit{Src: in.Pos,
		Measure: t.own(in.Measure, in.Pos, "how to measure "+name),
		IfNot:   t.own(in.IfNot, in.Pos, "what to do when it is missed, for "+name)}
	if in.Reach.Set() {
		h := heatOf(in.Reach, t.Lang().Limit)
		out.Heat = &h
	}
	out.Record = in.Record.V
	if in.From.Set() {
		out.From = t.fill("card.limit-from", "temp", func(l *words.Lang) string { return l.Temp(in.From.V, true) })
	}
	if in.Within.Set() {
		out.Within = t.fill("card.within", "time", func(l *words.Lang) string { return l.Span(in.Within.V) })
	}
	if in.Hold.Set() {
		out.Hold = t.fill("card.hold", "time", func(l *words.Lang) string { return l.Span(in.Hold.V) })
	}
	return out
}
