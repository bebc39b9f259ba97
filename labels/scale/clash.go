package scale

import (
	"cmp"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Job is the work of one card in the plan of a day. Start counts from any
// common time, such as midnight.
type Job struct {
	Name  string
	Work  *Work
	Start unit.Span
	Alone bool // laid out for one pair of hands
}

// ReadyBy gives the latest start of a job that is to be ready at a time.
func ReadyBy(w *Work, ready unit.Span) unit.Span { return ready - w.Elapsed }

// LatestStarts gives, for each task, when it must begin at the latest so that
// all is ready at a time; what is done on a day before, at the same time of that
// day.
func (w *Work) LatestStarts(ready unit.Span) []unit.Span {
	var all []unit.Span
	for _, t := range w.Tasks {
		all = append(all, ReadyBy(w, ready)+t.Latest()+24*unit.Hour*unit.Span(t.Day))
	}
	return all
}

// Held is a task that has a tool for a while.
type Held struct {
	Job, Task int // indices into the jobs and into the tasks of that one's work
	From, To  unit.Span
}

// Clash is a time in which more tasks want a tool than there are of it. It is
// told, not solved: who goes first is for the kitchen to say.
type Clash struct {
	Tool     string
	There    unit.Count
	From, To unit.Span
	Tasks    []Held
}

// Clashes lists where the jobs get in each other's way, and each in its own,
// over the tools that steps need for themselves, in order of time.
func Clashes(sh *shop.Shop, jobs ...Job) []Clash {
	by := map[string][]Held{}
	var names []string
	for j, job := range jobs {
		for i, t := range job.Work.Tasks {
			for _, tool := range shop.ToolsOf(t.Step) {
				h, ok := held(sh, job, j, i, tool)
				if !ok {
					continue
				}
				if by[tool] == nil {
					names = append(names, tool)
				}
				by[tool] = append(by[tool], h)
			}
		}
	}
	var all []Clash
	slices.Sort(names)
	for _, tool := range names {
		all = append(all, clashes(tool, there(sh, tool), by[tool])...)
	}
	slices.SortStableFunc(all, func(a, b Clash) int { return cmp.Compare(a.From, b.From) })
	return all
}

// held gives the time for which a task has a tool; false for none at all.
func held(sh *shop.Shop, job Job, j, i int, tool string) (Held, bool) {
	t := job.Work.Tasks[i]
	start := t.Start
	if job.Alone {
		start = t.Alone
	}
	long := t.long()
	if e, ok := sh.Profile.Tools.Get(tool); ok && e.Busy.V == "hands-on" {
		long = t.Hands
	}
	return Held{j, i, job.Start + start, job.Start + start + long}, long > 0
}

// there is how many of a tool the shop has.
func there(sh *shop.Shop, tool string) unit.Count {
	if e, ok := sh.Profile.Tools.Get(tool); ok && e.Count.V > 0 {
		return e.Count.V
	}
	return 1
}

// clashes sweeps over the times at which a tool is taken or given back.
func clashes(tool string, there unit.Count, all []Held) []Clash {
	var times []unit.Span
	for _, h := range all {
		times = append(times, h.From, h.To)
	}
	slices.Sort(times)
	times = slices.Compact(times)
	var out []Clash
	for k := 0; k+1 < len(times); k++ {
		var at []Held
		for _, h := range all {
			if h.From <= times[k] && h.To > times[k] {
				at = append(at, h)
			}
		}
		if unit.Count(len(at)) <= there {
			continue
		}
		if n := len(out); n > 0 && out[n-1].To == times[k] && slices.Equal(out[n-1].Tasks, at) {
			out[n-1].To = times[k+1]
			continue
		}
		out = append(out, Clash{tool, there, times[k], times[k+1], at})
	}
	return out
}
