// Package measured answers: does the kitchen do what its files say?
//
// What the kitchen weighed before and after a stage, and how long its steps took
// (measured.yaml of a shop), is held against what is written: the loss of the
// stage, and the times of the step for a batch of that size. Several measurements
// are taken together. Where they part from what is written by more than a kitchen
// weighs and times by itself, that is a caution at what is written: losses decide
// how much is made, what the label says, and what it costs.
package measured

import (
	"fmt"

	"chablon/labels/diag"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// By how much what was measured may part from what is written. They are our own
// choice, no standard's: a hundredth of the mass, as a kitchen scale and a pan
// that is scraped out give; a fifth of a time, and no less than five minutes.
const (
	apart = unit.Whole / 100
	late  = 5 * unit.Minute
)

// Gap is what was measured of one thing, beside what is written of it.
type Gap struct {
	Of    string   // id of the formula or product
	Where string   // stage or id of the step
	Kind  Kind     // what was measured
	At    diag.Pos // where it is written
	N     int      // measurements
	Last  unit.Date
	Parts bool // they part

	WrittenLoss, MeasuredLoss unit.Share // of what was there before the stage
	WrittenTime, MeasuredTime unit.Span  // means of the batches that were timed
}

// Kind is what was measured.
type Kind int

// The kinds.
const (
	Loss Kind = iota
	Hands
	Waiting
)

// All holds every measurement of a shop against what is written, those of one
// thing together, in the order in which they were first noted.
func All(sh *shop.Shop) []Gap {
	sums := map[key]*sum{}
	var order []key
	add := func(k key, at diag.Pos, on unit.Date, written, got, whole int64) {
		if sums[k] == nil {
			sums[k] = &sum{at: at}
			order = append(order, k)
		}
		s := sums[k]
		s.n, s.written, s.got, s.whole = s.n+1, s.written+written, s.got+got, s.whole+whole
		if s.last.Before(on) {
			s.last = on
		}
	}
	for _, m := range sh.Measured.All {
		if m.Stage.Set() {
			if share, at, ok := written(sh, m.Of.V, m.Stage.V); ok && m.Before.V > 0 {
				add(key{m.Of.V, m.Stage.V, Loss}, at, m.On.V, unit.MulDiv(int64(m.Before.V), int64(share), int64(unit.Whole)), int64(m.Before.V-m.After.V), int64(m.Before.V))
			}
			continue
		}
		t, ok := task(sh, m)
		if ok && m.HandsOn.V > 0 {
			add(key{m.Of.V, m.Step.V, Hands}, t.Step.HandsOn.Pos, m.On.V, int64(t.Hands), int64(m.HandsOn.V), 0)
		}
		if ok && m.Waiting.V > 0 {
			add(key{m.Of.V, m.Step.V, Waiting}, t.Step.Pos, m.On.V, int64(t.Waits()), int64(m.Waiting.V), 0)
		}
	}
	var out []Gap
	for _, k := range order {
		out = append(out, sums[k].gap(k))
	}
	return out
}

// key is one thing that is measured.
type key struct {
	of, where string
	kind      Kind
}

// sum is all that was measured of one thing.
type sum struct {
	at                  diag.Pos
	n                   int
	last                unit.Date
	written, got, whole int64
}

// gap holds a sum against what is written.
func (s *sum) gap(k key) Gap {
	g := Gap{Of: k.of, Where: k.where, Kind: k.kind, At: s.at, N: s.n, Last: s.last}
	if k.kind == Loss {
		g.WrittenLoss = unit.Share(unit.MulDiv(s.written, int64(unit.Whole), s.whole))
		g.MeasuredLoss = unit.Share(unit.MulDiv(s.got, int64(unit.Whole), s.whole))
		g.Parts = distance(int64(g.WrittenLoss), int64(g.MeasuredLoss)) > int64(apart)
		return g
	}
	n := int64(s.n)
	g.WrittenTime, g.MeasuredTime = unit.Span(s.written/n), unit.Span(s.got/n)
	off := distance(int64(g.WrittenTime), int64(g.MeasuredTime))
	g.Parts = off >= int64(late) && off*5 > int64(g.WrittenTime)
	return g
}

func distance(a, b int64) int64 { return max(a-b, b-a) }

// written is the share that is lost at a stage of a formula or product, of what
// is there before it, and where that is written.
func written(sh *shop.Shop, id, stage string) (unit.Share, diag.Pos, bool) {
	var there, before, lost unit.Mass
	var at diag.Pos
	take := func(pos diag.Pos, of unit.Mass) {
		if before == 0 {
			before, at = there, pos
		}
		lost += of
	}
	switch f, p := sh.Formulas[id], sh.Products[id]; {
	case f != nil:
		there = f.In()
		for _, l := range f.Losses {
			off := l.Of(there)
			if l.Stage.V == stage {
				take(l.Pos, off)
			}
			there -= off
		}
	case p != nil:
		for _, st := range p.Parts {
			for _, l := range st.Add {
				there += l.Taken()
			}
			off := st.Off(there)
			if st.Stage.V == stage && off > 0 {
				take(st.WaterLost.Pos, off)
			}
			there -= off
		}
	}
	if before <= 0 {
		return 0, at, false
	}
	return lost.In(before), at, true
}

// task is the step that was timed, in a batch of the size that it had.
func task(sh *shop.Shop, m shop.Measurement) (scale.Task, bool) {
	f, p := sh.Formulas[m.Of.V], sh.Products[m.Of.V]
	var b *scale.Batch
	var err error
	if p != nil {
		b, err = scale.Pieces(sh, p, m.Pieces.V)
	} else {
		b, err = scale.Mass(sh, f, m.Mass.V)
	}
	if err != nil {
		return scale.Task{}, false
	}
	w, err := scale.Order(sh, b)
	if err != nil {
		return scale.Task{}, false
	}
	for _, t := range w.Tasks {
		if t.Formula == f && t.Step.ID.V == m.Step.V {
			return t, true
		}
	}
	return scale.Task{}, false
}

// Check adds a caution for everything that parts from what is written.
func Check(sh *shop.Shop, found *diag.List) {
	for _, g := range All(sh) {
		if g.Parts {
			found.Warnf(g.At, "measured", g.hint(), "%s", g.String())
		}
	}
}

func (g Gap) hint() string {
	if g.Kind == Loss {
		return "find out why; if it is always so, write what was measured here, raise version: and have the labels approved again"
	}
	return "find out why; if it is always so, write what was measured here"
}

// String says it in words: "the stage boil of passion-caramel loses 27.1 %,
// measured 3 times, and 25 % is written".
func (g Gap) String() string {
	times := "once"
	if g.N > 1 {
		times = fmt.Sprintf("%d times", g.N)
	}
	if g.Kind == Loss {
		return fmt.Sprintf("the stage %s of %s loses %s, measured %s, and %s is written", g.Where, g.Of, tenths(g.MeasuredLoss), times, tenths(g.WrittenLoss))
	}
	what := map[Kind]string{Hands: "hands-on", Waiting: "waiting"}[g.Kind]
	return fmt.Sprintf("step %s of %s takes %s %s, measured %s, and %s is written for such a batch", g.Where, g.Of, minutes(g.MeasuredTime), what, times, minutes(g.WrittenTime))
}

// tenths is a share to a tenth of a percent.
func tenths(s unit.Share) unit.Share {
	return unit.Share(unit.MulDiv(int64(s), 10, int64(unit.Percent))) * (unit.Percent / 10)
}

// minutes is a time to the minute.
func minutes(s unit.Span) unit.Span { return (s + unit.Minute/2) / unit.Minute * unit.Minute }
