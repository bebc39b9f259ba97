package plan

import (
	"slices"

	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

const day = 24 * unit.Hour

// Kitchen is what there is to work with. One that says nothing of its hours is
// open day and night, and has as many people as it takes.
type Kitchen struct {
	Opens, Closes unit.Span // times of day; both 0 for always
	People        int       // 0 for as many as it takes
	Tools         map[string]Tool
}

// Tool is how many of a tool there are, and whether it is taken only while
// somebody works at it.
type Tool struct {
	There     int
	HandsOnly bool
}

// Of gives the kitchen of a shop.
func Of(sh *shop.Shop) Kitchen {
	k := Kitchen{Tools: map[string]Tool{shop.Oven: {There: 1}}}
	if of := sh.Profile.Kitchen; of != nil && of.Opens.V < of.Closes.V {
		k.Opens, k.Closes, k.People = of.Opens.V.Span(), of.Closes.V.Span(), int(of.People.V)
	}
	for _, t := range sh.Profile.Tools {
		k.Tools[t.Key.V] = Tool{There: max(1, int(t.V.Count.V)), HandsOnly: t.V.Busy.V == "hands-on"}
	}
	return k
}

// midnight is the beginning of the day of a time.
func midnight(s unit.Span) unit.Span {
	if r := s % day; r < 0 {
		return s - r - day
	}
	return s - s%day
}

// piece is a person or a tool that a task needs, from when to when from its
// start.
type piece struct {
	by       string
	from, to unit.Span
}

// pieces are all that a task needs: a person in each round, its tools for as
// long as they are busy.
func pieces(k Kitchen, t scale.Task) []piece {
	var all []piece
	var at unit.Span
	long := length(t)
	for r := range max(t.Rounds, 1) {
		if h := whole(t.Round(r)); h > 0 {
			all = append(all, piece{Person, at, at + h})
			for _, name := range shop.ToolsOf(t.Step) {
				if k.Tools[name].HandsOnly {
					all = append(all, piece{name, at, at + h})
				}
			}
		}
		at += whole(t.Round(r)) + whole(t.Wait)
	}
	for _, name := range shop.ToolsOf(t.Step) {
		if !k.Tools[name].HandsOnly && long > 0 {
			all = append(all, piece{name, 0, long})
		}
	}
	return slices.Clip(all)
}

// length is how long a task takes in whole minutes.
func length(t scale.Task) unit.Span {
	var sum unit.Span
	for r := range max(t.Rounds, 1) {
		sum += whole(t.Round(r)) + whole(t.Wait)
	}
	return sum
}

// whole rounds up to whole minutes.
func whole(s unit.Span) unit.Span { return (s + unit.Minute - 1) / unit.Minute * unit.Minute }
