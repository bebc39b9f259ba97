package register

import (
	"context"
	"maps"
	"slices"
	"sync"
	"time"
)

// Memory is a register that lasts as long as the program: for trying things
// out and for tests. Its zero value is empty and ready.
type Memory struct {
	mu     sync.Mutex
	closed bool
	copies []Copy // copy with number n at n-1
	blocks map[string][]Block
	prints []Print
	ends   []End
	sent   []Sending
}

var _ Register = (*Memory)(nil)

// enter locks the register; the caller unlocks it unless there is an error.
func (m *Memory) enter(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	m.mu.Lock()
	if m.closed {
		m.mu.Unlock()
		return ErrClosed()
	}
	return nil
}

// Post implements [Register].
func (m *Memory) Post(ctx context.Context, c Copy) (Posting, error) {
	c, err := c.Clean()
	if err != nil {
		return Posting{}, err
	}
	if err := m.enter(ctx); err != nil {
		return Posting{}, err
	}
	defer m.mu.Unlock()
	c.Number = int64(len(m.copies)) + 1
	out := Posting{Copy: c.clone()}
	for i, d := range m.copies {
		switch {
		case !d.Hangs() || !c.Beside(d):
		case c.SameAs(d):
			m.copies[i].Down, m.copies[i].By = c.At, c.Number
			out.Replaced = append(out.Replaced, m.copies[i].clone())
		default:
			out.Beside = append(out.Beside, d.clone())
		}
	}
	m.copies = append(m.copies, c)
	return out, nil
}

// clone is c without a part shared with c.
func (c Copy) clone() Copy {
	c.Langs = slices.Clone(c.Langs)
	return c
}

// TakeDown implements [Register].
func (m *Memory) TakeDown(ctx context.Context, number int64, at time.Time) (Copy, error) {
	at, err := Moment(at)
	if err != nil {
		return Copy{}, err
	}
	if err := m.enter(ctx); err != nil {
		return Copy{}, err
	}
	defer m.mu.Unlock()
	if number < 1 || number > int64(len(m.copies)) {
		return Copy{}, UnknownCopyError(number)
	}
	c := &m.copies[number-1]
	if !c.Hangs() {
		return Copy{}, c.DownError()
	}
	c.Down = at
	return c.clone(), nil
}

// UnknownCopyError refuses to take down a copy that was never posted.
func UnknownCopyError(number int64) *Error {
	return Refuse(NotPosted, "list the copies on the wall for their numbers", "there is no copy number %d", number)
}

// DownError refuses to take down c twice.
func (c Copy) DownError() *Error {
	return Refuse(NotPosted, "nothing is left to do", "copy number %d of %s was noted as taken down on %s",
		c.Number, c.ID, c.Down.Format(time.DateOnly))
}

// Posted implements [Register].
func (m *Memory) Posted(ctx context.Context) ([]Copy, error) {
	all, err := m.pick(ctx, Copy.Hangs)
	SortCopies(all)
	return all, err
}

// History implements [Register].
func (m *Memory) History(ctx context.Context, id string) ([]Copy, error) {
	return m.pick(ctx, func(c Copy) bool { return id == "" || c.ID == id })
}

// pick lists the copies that want accepts.
func (m *Memory) pick(ctx context.Context, want func(Copy) bool) ([]Copy, error) {
	if err := m.enter(ctx); err != nil {
		return nil, err
	}
	defer m.mu.Unlock()
	var out []Copy
	for _, c := range m.copies {
		if want(c) {
			out = append(out, c.clone())
		}
	}
	return out, nil
}

// Take implements [Register].
func (m *Memory) Take(ctx context.Context, w Want) (Block, error) {
	w, err := w.Clean()
	if err != nil {
		return Block{}, err
	}
	if err := m.enter(ctx); err != nil {
		return Block{}, err
	}
	defer m.mu.Unlock()
	all := m.blocks[w.Series.Name]
	var last int64
	if len(all) > 0 {
		last = all[len(all)-1].To
	}
	b, err := w.Next(last)
	if err != nil {
		return Block{}, err
	}
	if m.blocks == nil {
		m.blocks = map[string][]Block{}
	}
	m.blocks[w.Series.Name] = append(all, b)
	return b, nil
}

// Taken implements [Register].
func (m *Memory) Taken(ctx context.Context, series string) ([]Block, error) {
	if err := m.enter(ctx); err != nil {
		return nil, err
	}
	defer m.mu.Unlock()
	return slices.Clone(m.blocks[series]), nil
}

// Record implements [Register].
func (m *Memory) Record(ctx context.Context, p Print) (Print, error) {
	p, err := p.Clean()
	if err != nil {
		return Print{}, err
	}
	if err := m.enter(ctx); err != nil {
		return Print{}, err
	}
	defer m.mu.Unlock()
	if err := m.asked([]Print{p}); err != nil {
		return Print{}, err
	}
	if p.Series != "" && !Covers(m.blocks[p.Series], p.From, p.To) {
		return Print{}, p.NotTakenError()
	}
	if err := p.VoidError(m.ends); err != nil {
		return Print{}, err
	}
	if old := m.bearing(p); p.Again == "" && len(old) > 0 {
		return Print{}, p.BeforeError(old[0])
	}
	return m.keep(p), nil
}

// bearing lists the prints that bear numbers of p.
func (m *Memory) bearing(p Print) (out []Print) {
	for _, old := range m.prints {
		if old.Bears(p.Series, p.From, p.To) {
			out = append(out, old)
		}
	}
	return out
}

// keep writes p down.
func (m *Memory) keep(p Print) Print {
	p.Number = int64(len(m.prints)) + 1
	m.prints = append(m.prints, p)
	return p
}

// ClaimAll implements [Register].
func (m *Memory) ClaimAll(ctx context.Context, claims []Print) ([]Print, error) {
	out, order, err := Claims(claims)
	if err != nil {
		return nil, err
	}
	if err := m.enter(ctx); err != nil {
		return nil, err
	}
	defer m.mu.Unlock()
	if err := m.asked(out); err != nil {
		return nil, err
	}
	blocks, prints := maps.Clone(m.blocks), slices.Clone(m.prints)
	for _, i := range order {
		if out[i], err = m.claim(out[i]); err != nil {
			m.blocks, m.prints = blocks, prints
			return nil, err
		}
	}
	return out, nil
}

// asked refuses claims of an asking that was printed already.
func (m *Memory) asked(claims []Print) error {
	for _, once := range Askings(claims) {
		if i := slices.IndexFunc(m.prints, func(p Print) bool { return p.Once == once }); i >= 0 {
			return TwiceError(m.prints[i])
		}
	}
	return nil
}

// claim takes the numbers of p where they are due, and writes p down.
func (m *Memory) claim(p Print) (Print, error) {
	all := m.blocks[p.Series]
	var last int64
	if len(all) > 0 {
		last = all[len(all)-1].To
	}
	take, err := p.Due(last, all, m.bearing(p), m.ends)
	if err != nil {
		return Print{}, err
	}
	if take && m.blocks == nil {
		m.blocks = map[string][]Block{}
	}
	if take {
		m.blocks[p.Series] = append(slices.Clip(all), p.Block())
	}
	return m.keep(p), nil
}

// Prints implements [Register].
func (m *Memory) Prints(ctx context.Context, q Query) ([]Print, error) {
	if err := m.enter(ctx); err != nil {
		return nil, err
	}
	defer m.mu.Unlock()
	var out []Print
	for _, p := range m.prints {
		if q.Matches(p) {
			out = append(out, p)
		}
	}
	return out, nil
}

// Wrote implements [Register].
func (m *Memory) Wrote(ctx context.Context, numbers []int64, at time.Time) error {
	if _, err := Moment(at); err != nil {
		return err
	}
	if err := m.enter(ctx); err != nil {
		return err
	}
	defer m.mu.Unlock()
	for _, n := range numbers {
		if n < 1 || n > int64(len(m.prints)) {
			return NoPrintError(n)
		}
	}
	for _, n := range numbers {
		m.prints[n-1].Written = true
	}
	return nil
}

// End implements [Register].
func (m *Memory) End(ctx context.Context, list ...End) error {
	list, err := Ends(list)
	if err != nil {
		return err
	}
	if err := m.enter(ctx); err != nil {
		return err
	}
	defer m.mu.Unlock()
	before := len(m.ends)
	for _, e := range list {
		if err := e.May(m.blocks[e.Series], m.bearing(Print{Series: e.Series, From: e.From, To: e.To}), m.ends); err != nil {
			m.ends = m.ends[:before]
			return err
		}
		m.ends = append(m.ends, e)
	}
	return nil
}

// Ended implements [Register].
func (m *Memory) Ended(ctx context.Context, series string) (out []End, err error) {
	if err := m.enter(ctx); err != nil {
		return nil, err
	}
	defer m.mu.Unlock()
	for _, e := range m.ends {
		if e.Series == series {
			out = append(out, e)
		}
	}
	return out, nil
}

// Sent implements [Register].
func (m *Memory) Sent(ctx context.Context, s Sending) error {
	s, err := s.Clean()
	if err != nil {
		return err
	}
	if err := m.enter(ctx); err != nil {
		return err
	}
	defer m.mu.Unlock()
	var before []Sending
	for _, old := range m.sent {
		if old.Mark == s.Mark {
			before = append(before, old)
		}
	}
	if err := s.May(before); err != nil {
		return err
	}
	m.sent = append(m.sent, s)
	return nil
}

// Sendings implements [Register].
func (m *Memory) Sendings(ctx context.Context) ([]Sending, error) {
	if err := m.enter(ctx); err != nil {
		return nil, err
	}
	defer m.mu.Unlock()
	return slices.Clone(m.sent), nil
}

// Close implements [Register].
func (m *Memory) Close() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.closed = true
	return nil
}
