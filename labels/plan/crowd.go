package plan

import (
	"cmp"
	"math"
	"slices"

	"chablon/labels/unit"
)

// Crowd is a time at which more people, or more of a tool, are wanted than
// there are, if every job is done by itself at the latest.
type Crowd struct {
	By       string
	Wanted   int // at the worst moment
	There    int
	From, To unit.Span
	Held     []Held // who wants it at the worst moment
}

// Alone lays the jobs out as if each had the kitchen for itself, day and night.
func Alone(k Kitchen, jobs []Job) *Plan {
	free := Kitchen{Tools: map[string]Tool{}}
	for name, t := range k.Tools {
		free.Tools[name] = Tool{math.MaxInt16, t.HandsOnly}
	}
	all := make([]int, len(jobs))
	for i := range all {
		all[i] = i
	}
	p := inOrder(free, jobs, all)
	p.hold()
	return p
}

// Crowds lists where the jobs, each done by itself, would be in each other's
// way, in order of time.
func Crowds(k Kitchen, jobs []Job) []Crowd {
	p := Alone(k, jobs)
	by := map[string][]Held{}
	for _, h := range p.Held {
		by[h.By] = append(by[h.By], h)
	}
	var all []Crowd
	for name, held := range by {
		there := max(1, k.Tools[name].There)
		if name == Person {
			there = k.People
		}
		if there > 0 {
			all = append(all, crowds(name, there, held)...)
		}
	}
	slices.SortFunc(all, func(a, b Crowd) int { return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.By, b.By)) })
	return all
}

// crowds sweeps over the moments at which something is taken or given back.
func crowds(by string, there int, held []Held) (out []Crowd) {
	var moments []unit.Span
	for _, h := range held {
		moments = append(moments, h.From, h.To)
	}
	slices.Sort(moments)
	moments = slices.Compact(moments)
	for i := 0; i+1 < len(moments); i++ {
		var at []Held
		for _, h := range held {
			if h.From <= moments[i] && h.To > moments[i] {
				at = append(at, h)
			}
		}
		if len(at) <= there {
			continue
		}
		if n := len(out); n > 0 && out[n-1].To == moments[i] {
			out[n-1].To = moments[i+1]
			if len(at) > out[n-1].Wanted {
				out[n-1].Wanted, out[n-1].Held = len(at), at
			}
			continue
		}
		out = append(out, Crowd{by, len(at), there, moments[i], moments[i+1], at})
	}
	return out
}
