package plan

import (
	"chablon/labels/scale"
	"chablon/labels/unit"
)

// A book says of every minute how many people and tools are taken.
type book struct {
	Kitchen
	taken map[string][]int16 // by minute from first
	needs map[*Job][]need    // of each task
	fine  bool               // moves jobs in small steps
}

// need is what a task needs, worked out once.
type need struct {
	long   unit.Span
	pieces []piece
	rows   [][]int16 // of each piece
}

// of gives what the tasks of a job need.
func (b *book) of(j *Job) []need {
	if all := b.needs[j]; all != nil {
		return all
	}
	all := make([]need, len(j.Work.Tasks))
	for i, t := range j.Work.Tasks {
		all[i] = need{long: length(t), pieces: pieces(b.Kitchen, t)}
		for _, s := range all[i].pieces {
			all[i].rows = append(all[i].rows, b.row(s.by))
		}
	}
	b.needs[j] = all
	return all
}

const (
	first   = -15 * day // no job begins before
	minutes = (17 * day) / unit.Minute
)

func newBook(k Kitchen, fine bool) *book {
	return &book{k, map[string][]int16{}, map[*Job][]need{}, fine}
}

func minute(s unit.Span) int { return int((s - first) / unit.Minute) }

func (b *book) row(by string) []int16 {
	if b.taken[by] == nil {
		b.taken[by] = make([]int16, int(minutes))
	}
	return b.taken[by]
}

// there is how many there are of something; -1 for as many as it takes.
func (b *book) there(by string) int16 {
	if by != Person {
		return int16(max(1, b.Tools[by].There))
	}
	if b.People == 0 {
		return -1
	}
	return int16(b.People)
}

// busy finds the last minute of a time at which all of something are taken.
func (b *book) busy(by string, row []int16, from, to unit.Span) (unit.Span, bool) {
	there := b.there(by)
	if there < 0 {
		return 0, false
	}
	for m := minute(to) - 1; m >= minute(from); m-- {
		if row[m] >= there {
			return first + unit.Span(m)*unit.Minute, true
		}
	}
	return 0, false
}

// take notes that a task has what it needs from a time on, or gives it back.
func (n need) take(at unit.Span, times int16) {
	for i, s := range n.pieces {
		row := n.rows[i]
		for m := minute(at + s.from); m < minute(at+s.to); m++ {
			row[m] += times
		}
	}
}

// steps are those in which a job is moved later: first coarsely, then finely
// between.
func (b *book) steps() (coarse, fine unit.Span) {
	if b.fine {
		return 30 * unit.Minute, 5 * unit.Minute
	}
	return 2 * unit.Hour, unit.Hour
}

// nearest places a job at the time it is asked for, or as little later as it
// can be on the same day. Nil starts tell that it cannot.
func (b *book) nearest(j *Job) (late unit.Span, starts []unit.Span) {
	if starts = b.place(j, 0); starts != nil {
		return 0, starts
	}
	coarse, fine := b.steps()
	end := day
	if b.Closes > 0 {
		end = b.Closes
	}
	for late = coarse; j.last()+late-coarse < end; late += coarse {
		if j.last()+late > end {
			late = end - j.last()
		}
		if starts = b.place(j, late); starts == nil {
			continue
		}
		for less := late - coarse + fine; less < late; less += fine {
			b.again(j, starts, -1)
			if finer := b.place(j, less); finer != nil {
				return less, finer
			}
			b.again(j, starts, 1)
		}
		return late, starts
	}
	return 0, nil
}

// last is when the last run of the job is to be ready.
func (j *Job) last() unit.Span {
	last := j.Ready
	for _, d := range j.Due {
		last = max(last, d)
	}
	return last
}

// place puts every task of a job at the latest moment at which all it needs is
// free, from the end backwards, and notes it. It gives nil, and notes nothing,
// where one finds no place.
func (b *book) place(j *Job, late unit.Span) []unit.Span {
	w, needs := j.Work, b.of(j)
	starts := make([]unit.Span, len(w.Tasks))
	limits := b.limits(j, late)
	for i := len(w.Tasks) - 1; i >= 0; i-- {
		t := w.Tasks[i]
		at, ok := b.latest(t, needs[i], limits[i])
		if !ok {
			for k := i + 1; k < len(w.Tasks); k++ {
				needs[k].take(starts[k], -1)
			}
			return nil
		}
		starts[i] = at
		needs[i].take(at, 1)
		b.pass(w, i, at, limits)
	}
	return starts
}

// again notes a job that was placed once more, or gives its places back.
func (b *book) again(j *Job, starts []unit.Span, times int16) {
	for i, n := range b.of(j) {
		n.take(starts[i], times)
	}
}

// limit is between what times a task must end, and by when it must begin.
type limit struct{ least, most, begin unit.Span }

// limits are those that follow from when the job is to be ready.
func (b *book) limits(j *Job, late unit.Span) []limit {
	all := make([]limit, len(j.Work.Tasks))
	for i, t := range j.Work.Tasks {
		due := j.due(t, late)
		if t.Day < 0 && b.Closes > 0 {
			due = min(due, unit.Span(t.Day)*day+day) // by midnight; hands keep to the hours
		} else if t.Day < 0 {
			due += unit.Span(t.Day) * day
		}
		all[i] = limit{first, due, due}
	}
	return all
}

// pass hands the start of a task on to what must be done before it: no later
// than this, and no earlier than what has waited may wait.
func (b *book) pass(w *scale.Work, i int, at unit.Span, limits []limit) {
	t := w.Tasks[i]
	for _, n := range t.Needs {
		l, need := &limits[n], w.Tasks[n]
		l.most = min(l.most, at)
		switch {
		case need.Day < t.Day:
		case need.Step.Waits().Ranges():
			l.least = max(l.least, at-need.Over)
		case b.Closes > 0:
			l.least = max(l.least, midnight(at)+b.Opens) // nothing waits over night that does not say so
		}
	}
	for _, n := range t.With {
		l := &limits[n]
		l.begin = min(l.begin, at)
		l.least = max(l.least, at)
	}
}

// latest finds the latest start of a task within its limits at which all it
// needs is free.
func (b *book) latest(t scale.Task, n need, l limit) (unit.Span, bool) {
	at := min(l.most-n.long, l.begin) / unit.Minute * unit.Minute
	for at+n.long >= l.least && at >= first+day {
		next, free := b.free(t, n, at)
		if free {
			return at, true
		}
		at = next
	}
	return 0, false
}

// free reports whether a task can begin at a time; where not, the next earlier
// time at which it might.
func (b *book) free(t scale.Task, n need, at unit.Span) (unit.Span, bool) {
	for i, s := range n.pieces {
		from, to := at+s.from, at+s.to
		if back, ok := b.within(t, s, from, to); !ok {
			return at - back, false
		}
		if m, busy := b.busy(s.by, n.rows[i], from, to); busy {
			return at - (to - m), false
		}
	}
	return at, true
}

// within reports whether somebody is there: all the time for hands, and at the
// end of what a tool does. Where not, by how much earlier it must be.
func (b *book) within(t scale.Task, s piece, from, to unit.Span) (back unit.Span, ok bool) {
	if b.Closes == 0 {
		return 0, true
	}
	if s.by != Person {
		from = to - unit.Minute
	}
	at := midnight(from)
	close := at + b.Closes
	on := unit.Span(t.Day) * day
	switch {
	case t.Day < 0 && at > on:
		return to - (on + b.Closes), false
	case t.Day < 0 && at < on:
		return minutes * unit.Minute, false // too late for its day: nowhere
	case from < at+b.Opens: // before it opens: end when it closed the day before
		return to - (close - day), false
	case to > close:
		return to - close, false
	}
	return 0, true
}
