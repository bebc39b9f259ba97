package register

import (
	"cmp"
	"fmt"
	"slices"
	"time"
)

// State is how far a number has come. It never goes back.
type State string

// The states, in their order.
const (
	Taken   State = "taken"   // given to somebody; no paper bears it yet
	Written State = "written" // its paper is on the disk under its final name
	Applied State = "applied" // it is on the pack or carton
	Void    State = "void"    // spoilt, or no longer wanted: nothing bears it, and nothing ever will
)

// End is what became of numbers in the end: they are applied, or void.
type End struct {
	Series   string
	From, To int64
	State    State     // Applied or Void
	Why      string    // of void numbers: "torn"
	At       time.Time // UTC, whole seconds
}

// Clean is e as a register keeps it. The error is an [*Error].
func (e End) Clean() (End, error) {
	var f fields
	e.Series, e.Why = f.must("the series", e.Series), f.text("why", e.Why)
	if e.From < 1 || e.To < e.From {
		f.refuse("say the first and the last number", "numbers %d to %d cannot end", e.From, e.To)
	}
	if e.State != Applied && e.State != Void {
		f.refuse("say that they are applied, or void", "numbers cannot end %q", e.State)
	}
	if e.State == Void && e.Why == "" {
		f.refuse("say why", "numbers are void for a reason only")
	}
	e.At = f.moment(e.At)
	return e, f.done()
}

// Ends are the ends as a register keeps them; for implementations. The error is
// an [*Error].
func Ends(list []End) (out []End, err error) {
	for _, e := range list {
		if e, err = e.Clean(); err != nil {
			return nil, err
		}
		out = append(out, e)
	}
	return out, nil
}

// May refuses an end that cannot be: of numbers that nobody was given, of
// numbers applied that are on no paper, and of numbers that have ended so
// before. What is applied may still become void; what is void stays void. given,
// printed and ended are those of the series that touch the numbers, given in
// rising order. It is the one rule, for all implementations. The error is an
// [*Error].
func (e End) May(given []Block, printed []Print, ended []End) error {
	if !Covers(given, e.From, e.To) {
		return Refuse(NotTaken, "look at the numbers on the labels", "numbers %d to %d of the series %s were not all given", e.From, e.To, e.Series)
	}
	for _, old := range ended {
		if old.touches(e) && (old.State == Void || old.State == e.State) {
			return Refuse(Ended, "look at the numbers; what was noted stays", "numbers %d to %d of the series %s were noted as %s on %s",
				max(e.From, old.From), min(e.To, old.To), e.Series, old.State, old.At.Format(time.DateOnly))
		}
	}
	var wrote []Block
	for _, p := range printed {
		if p.Written {
			wrote = append(wrote, Block{From: p.From, To: p.To})
		}
	}
	slices.SortFunc(wrote, func(a, b Block) int { return cmp.Compare(a.From, b.From) })
	if e.State == Applied && !Covers(wrote, e.From, e.To) {
		return Refuse(NotTaken, "look at the numbers on the labels", "numbers %d to %d of the series %s are not all on paper", e.From, e.To, e.Series)
	}
	return nil
}

func (e End) touches(d End) bool { return e.Series == d.Series && e.From <= d.To && d.From <= e.To }

// VoidError refuses a print of numbers that are void; nil where none is.
func (p Print) VoidError(ended []End) error {
	for _, e := range ended {
		if e.State == Void && p.Bears(e.Series, e.From, e.To) {
			return Refuse(Ended, "take the next numbers instead: a void number is on nothing any more",
				"numbers %d to %d of the series %s are void since %s: %s", max(p.From, e.From), min(p.To, e.To), p.Series, e.At.Format(time.DateOnly), e.Why)
		}
	}
	return nil
}

// Span is numbers of one state.
type Span struct {
	From, To int64
	State    State
}

// Count is how many numbers it has.
func (s Span) Count() int64 { return s.To - s.From + 1 }

// String is the span as labels write it: 0007-0009.
func (s Span) String() string {
	if s.From == s.To {
		return fmt.Sprintf("%04d", s.From)
	}
	return fmt.Sprintf("%04d-%04d", s.From, s.To)
}

// Spans says of every number given of a series how far it has come, in rising
// order; neighbours of one state are one span.
func Spans(given []Block, printed []Print, ended []End) (out []Span) {
	type step struct {
		at    int64
		state State
		by    int
	}
	var steps []step
	mark := func(from, to int64, s State) { steps = append(steps, step{from, s, 1}, step{to + 1, s, -1}) }
	for _, b := range given {
		mark(b.From, b.To, Taken)
	}
	for _, p := range printed {
		if p.Written {
			mark(p.From, p.To, Written)
		}
	}
	for _, e := range ended {
		mark(e.From, e.To, e.State)
	}
	slices.SortFunc(steps, func(a, b step) int { return cmp.Compare(a.at, b.at) })
	depth := map[State]int{}
	for i, s := range steps {
		depth[s.state] += s.by
		if i+1 == len(steps) || steps[i+1].at == s.at || depth[Taken] == 0 {
			continue
		}
		now := Span{s.at, steps[i+1].at - 1, furthest(depth)}
		if n := len(out); n > 0 && out[n-1].To+1 == now.From && out[n-1].State == now.State {
			out[n-1].To = now.To
			continue
		}
		out = append(out, now)
	}
	return out
}

// furthest is the furthest of the states that hold.
func furthest(depth map[State]int) State {
	for _, s := range []State{Void, Applied, Written} {
		if depth[s] > 0 {
			return s
		}
	}
	return Taken
}
