package trace

import (
	"context"
	"slices"
	"sync"
)

// Memory keeps events for as long as the program runs. The zero value is empty
// and ready for use.
type Memory struct {
	mu     sync.Mutex
	all    []Event
	undone map[int64]bool
	at     map[Side]map[Thing][]int // which events, by their place in all
}

var _ Book = (*Memory)(nil)

// Note implements [Book].
func (m *Memory) Note(ctx context.Context, list ...Event) ([]Event, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	before := len(m.all)
	var out []Event
	for i, e := range list {
		e, err := e.Clean()
		if err == nil {
			err = Check(ctx, (*unlocked)(m), e)
		}
		if err != nil {
			m.forget(before)
			return nil, Which(i, len(list), err)
		}
		e.Number = int64(len(m.all)) + 1
		m.keep(e)
		out = append(out, e)
	}
	return out, nil
}

// forget drops the events from place n on.
func (m *Memory) forget(n int) {
	all := m.all[:n:n]
	m.all, m.undone, m.at = nil, nil, nil
	for _, e := range all {
		m.keep(e)
	}
}

func (m *Memory) keep(e Event) {
	if m.at == nil {
		m.at, m.undone = map[Side]map[Thing][]int{In: {}, Out: {}}, map[int64]bool{}
	}
	for _, s := range []Side{In, Out} {
		for _, p := range e.side(s) {
			m.at[s][p.Thing] = append(m.at[s][p.Thing], len(m.all))
		}
	}
	if e.Kind == Undo {
		m.undone[e.Undoes] = true
	}
	m.all = append(m.all, e)
}

// Events implements [Book].
func (m *Memory) Events(context.Context) ([]Event, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return slices.Clone(m.all), nil
}

// With implements [Reader].
func (m *Memory) With(ctx context.Context, side Side, list []Thing, kinds ...EventKind) ([]Event, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return (*unlocked)(m).With(ctx, side, list, kinds...)
}

// Event implements [Reader].
func (m *Memory) Event(ctx context.Context, number int64) (Event, bool, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return (*unlocked)(m).Event(ctx, number)
}

// Named implements [Reader].
func (m *Memory) Named(ctx context.Context, code string) ([]Thing, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	return (*unlocked)(m).Named(ctx, code)
}

// unlocked reads a Memory whose lock is held.
type unlocked Memory

func (m *unlocked) With(_ context.Context, side Side, list []Thing, kinds ...EventKind) ([]Event, error) {
	seen := map[int]bool{}
	var at []int
	for _, t := range list {
		for _, i := range m.at[side][t] {
			if !seen[i] && !m.undone[m.all[i].Number] && (len(kinds) == 0 || slices.Contains(kinds, m.all[i].Kind)) {
				seen[i] = true
				at = append(at, i)
			}
		}
	}
	slices.Sort(at)
	out := make([]Event, len(at))
	for i, n := range at {
		out[i] = m.all[n]
	}
	return out, nil
}

func (m *unlocked) Event(_ context.Context, number int64) (Event, bool, error) {
	if number < 1 || number > int64(len(m.all)) {
		return Event{}, false, NoEvent(number)
	}
	return m.all[number-1], m.undone[number], nil
}

func (m *unlocked) Named(_ context.Context, code string) ([]Thing, error) {
	var out []Thing
	for _, e := range m.all {
		for _, p := range e.Out {
			if p.Code == code && !m.undone[e.Number] && !slices.Contains(out, p.Thing) {
				out = append(out, p.Thing)
			}
		}
	}
	return out, nil
}
