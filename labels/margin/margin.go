// Package margin answers: how far may a figure be off before the label says
// something else?
//
// A loss is weighed on one day and assumed on the next, and no bowl holds just
// what is written. [Of] takes every loss, every mass that goes in and all else
// that is written in grams or percent behind one label, and finds how far each
// may go, alone, with the label still saying the same, and what it says beyond.
// It asks the declaration itself ([declare.Of]) and its words, so every rule
// counts, whoever adds one later.
//
// Each thing that a label prints changes at one value at most on either side:
// masses and shares rise or fall with a figure all the way, and what is printed
// of them goes in steps. So the figures at which the label is the same lie
// together, and an end of them is found by halving.
package margin

import (
	"cmp"
	"slices"
	"sync"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// Question asks about the label of a product in a pack for a market, in one
// language, as it is made on a day.
type Question struct {
	Shop    *shop.Shop
	Product *shop.Product
	Pack    *shop.Pack
	Market  *market.Market
	Made    unit.Date
	Lang    *words.Lang
}

// Kind is what a figure is.
type Kind string

// The kinds.
const (
	WaterLost  Kind = "water-lost"
	LeftBehind Kind = "left-behind"
	Take       Kind = "take"      // of a line of a formula
	Part       Kind = "part"      // of a piece of the product
	SoakedUp   Kind = "soaked-up" // of what it is cooked in
	Remains    Kind = "left"      // of what evaporates
	CutTo      Kind = "cut-to"
)

// Figure is one figure of the shop's files that the label follows from.
type Figure struct {
	Kind  Kind
	Of    string // id of the formula or product that it stands in
	What  string // stage of a loss, or id of what goes in; "" for CutTo
	Share bool   // Value is a share of what is there ([unit.Share]); else a mass ([unit.Mass])
	Value int64
	At    diag.Pos
}

// Loss reports whether the figure is something that goes missing.
func (f Figure) Loss() bool { return f.Kind == WaterLost || f.Kind == LeftBehind }

// Margin is a figure with how far it may go, for each thing that was watched.
type Margin struct {
	Figure
	Spans []Span // one for each watch
}

// Span is where something stays the same. An end is nil where it does as far as
// the figure can go.
type Span struct{ Low, High *End }

// Open reports whether it stays the same whatever the figure is.
func (s Span) Open() bool { return s.Low == nil && s.High == nil }

// End is one end: the last value at which all was found to be the same, the
// first beyond it at which it was not, and what is said there. The two are apart
// by no more than a hundredth of their distance from the figure.
type End struct {
	Same, Other int64
	Changes     []Change
}

// Off is how far the nearer end is from a figure of that value, as a share of it;
// false where there is none.
func (s Span) Off(value int64) (unit.Share, bool) {
	best, found := unit.Share(0), false
	for _, e := range []*End{s.Low, s.High} {
		if e == nil {
			continue
		}
		off := unit.Share(unit.MulDiv(abs(e.Other-value), int64(unit.Whole), max(1, value)))
		if !found || off < best {
			best, found = off, true
		}
	}
	return best, found
}

// Of gives the margin of every figure behind the label on which something that
// is watched depends, the tightest for the first watch first, and then for the
// next. It gives none where the label cannot be made at all.
func Of(q Question, watch ...Watch) []Margin {
	t, ok := begin(q, watch)
	if !ok {
		return nil
	}
	out := t.margins()
	out = slices.DeleteFunc(out, func(m Margin) bool {
		return !slices.ContainsFunc(m.Spans, func(s Span) bool { return !s.Open() })
	})
	slices.SortStableFunc(out, byOff)
	return out
}

// hands is how many figures are tried at a time.
const hands = 4

// margins tries all figures, some at a time, each by a trial with a shop of its
// own.
func (t *trial) margins() []Margin {
	out := make([]Margin, len(t.knobs()))
	var all sync.WaitGroup
	for hand := range hands {
		all.Go(func() {
			own := *t
			own.own()
			for i, k := range own.knobs() {
				if i%hands == hand {
					out[i] = own.margin(k)
				}
			}
		})
	}
	all.Wait()
	return out
}

// byOff sorts by the first watch; what never changes it comes last.
func byOff(a, b Margin) int {
	for i := range a.Spans {
		x, some := a.Spans[i].Off(a.Value)
		y, other := b.Spans[i].Off(b.Value)
		switch {
		case some && other && x != y:
			return cmp.Compare(x, y)
		case some != other && some:
			return -1
		case some != other:
			return 1
		}
	}
	return 0
}

// trial is one label under trial, with a shop of its own that figures are changed
// in.
type trial struct {
	Question
	watch []Watch
	base  state
	says  []string // what is watched, as it is
	seen  map[int64][]string
}

// state is what a label says with some figure changed; refused is the first
// finding where it cannot be printed.
type state struct {
	facts   *declare.Facts
	label   *words.Label
	refused *diag.Diag
}

func begin(q Question, watch []Watch) (*trial, bool) {
	t := &trial{Question: q, watch: watch}
	t.own()
	t.base = t.state(true)
	if t.base.refused != nil {
		return nil, false
	}
	t.says = t.watched(t.base)
	return t, true
}

// state makes the label as the shop of the trial is now, its words too where
// they are wanted: they take as long as all else.
func (t *trial) state(said bool) (s state) {
	var found diag.List
	s.facts = declare.Of(t.Shop, t.Product, t.Pack, t.Market, t.Made, &found)
	if said && found.Errors() == 0 {
		s.label = words.Tell(s.facts, t.Shop, t.Lang, &found)
	}
	for _, d := range found.All() {
		if !d.Warning {
			s.refused = &d
			break
		}
	}
	return s
}

// refused is what every watch sees where nothing can be printed.
const refused = "\x00"

// watched is what each watch sees.
func (t *trial) watched(s state) (out []string) {
	for _, w := range t.watch {
		if s.refused != nil {
			out = append(out, refused)
			continue
		}
		out = append(out, w.See(t.base.facts, s.facts))
	}
	return out
}

// with makes the label with a figure changed.
func (t *trial) with(k knob, v int64, said bool) state {
	defer k.set(k.Value)
	k.set(v)
	return t.state(said)
}

// margin finds both ends of each watch.
func (t *trial) margin(k knob) Margin {
	m := Margin{Figure: k.Figure}
	t.seen = map[int64][]string{k.Value: t.says}
	for i := range t.watch {
		m.Spans = append(m.Spans, Span{t.end(k, i, -1), t.end(k, i, +1)})
	}
	return m
}

// alike reports whether a watch sees the same with a figure changed.
func (t *trial) alike(k knob, watch int, v int64) bool {
	says, ok := t.seen[v]
	if !ok {
		says = t.watched(t.with(k, v, false))
		t.seen[v] = says
	}
	return says[watch] == t.says[watch]
}

// saysSame is alike by the words themselves, where the watch has some.
func (t *trial) saysSame(watch int, s state) bool {
	w := t.watch[watch]
	switch {
	case s.refused != nil:
		return false
	case w.Said == nil:
		return w.See(t.base.facts, s.facts) == t.says[watch]
	}
	return w.Said(s.label) == w.Said(t.base.label)
}

func abs(n int64) int64 { return max(n, -n) }
