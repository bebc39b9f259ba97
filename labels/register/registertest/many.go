package registertest

import (
	"fmt"
	"maps"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/register"
)

// given gathers numbers and finds the ones given twice.
type given struct {
	mu  sync.Mutex
	who map[int64]string
}

func (g *given) add(tb testing.TB, from, to int64, who string) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.who == nil {
		g.who = map[int64]string{}
	}
	for n := from; n <= to; n++ {
		if other, twice := g.who[n]; twice {
			tb.Errorf("number %d was given to %s and to %s", n, other, who)
		}
		g.who[n] = who
	}
}

func testGoroutinesTake(t *testing.T, s Suite) {
	b := s.open(t)
	const workers, takes = 8, 40
	var all given
	var wg sync.WaitGroup
	for i := range workers {
		wg.Go(func() {
			for k := range takes {
				got, err := b.Take(b.ctx, want("labels", int64(1+(i+k)%7), 1))
				if err != nil {
					t.Error(err)
					return
				}
				all.add(t, got.From, got.To, fmt.Sprint("goroutine ", i))
			}
		})
	}
	wg.Wait()
	blocks := b.taken("labels")
	same(t, "blocks", len(blocks), workers*takes)
	same(t, "no gap", blocks[len(blocks)-1].To, int64(len(all.who)))
}

// Of many that hang the same copy at the same place, one hangs in the end.
func testGoroutinesPost(t *testing.T, s Suite) {
	b := s.open(t)
	const workers = 8
	var wg sync.WaitGroup
	for i := range workers {
		wg.Go(func() {
			for k := range 10 {
				if _, err := b.Post(b.ctx, card("tartlet", fmt.Sprint(i*10+k), "bench")); err != nil {
					t.Error(err)
				}
			}
		})
	}
	wg.Wait()
	hangs := b.posted()
	same(t, "hangs", len(hangs), 1)
	same(t, "the last", hangs[0].Number, workers*10)
	for i, c := range b.history("tartlet")[:workers*10-1] {
		same(t, "replaced by the next", c.By, int64(i+2))
	}
}

// testRandom makes random calls and holds the answers against plain sets.
func testRandom(t *testing.T, s Suite) {
	rapid.Check(t, func(rt *rapid.T) {
		m := &model{book: s.open(t), given: map[string]map[int64]bool{}, last: map[string]int64{}, printed: map[string]map[int64]bool{}}
		rt.Cleanup(func() { _ = m.Close() }) // one register for each try
		rt.Repeat(map[string]func(*rapid.T){"take": m.take, "claim": m.claim, "post": m.post, "take down": m.down, "record": m.record, "": m.check})
	})
}

// model is what a register should hold, kept in the plainest way.
type model struct {
	*book
	given, printed map[string]map[int64]bool
	last           map[string]int64
	hangs          []register.Copy
	posts          int64
}

func (m *model) series(t *rapid.T) string {
	return rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "series")
}

func (m *model) take(t *rapid.T) {
	name := m.series(t)
	n, first := rapid.Int64Range(1, 30).Draw(t, "n"), rapid.Int64Range(0, 60).Draw(t, "first")
	got, err := m.Take(m.ctx, want(name, n, first))
	if m.last[name] == 0 && first == 0 {
		refused(t, "not begun", err, register.NotBegun)
		return
	}
	if err != nil || got.To-got.From+1 != n || got.From != max(first, m.last[name]+1) {
		t.Fatalf("took %d of %s from %d after %d: %+v, %v", n, name, first, m.last[name], got, err)
	}
	if m.given[name] == nil {
		m.given[name], m.printed[name] = map[int64]bool{}, map[int64]bool{}
	}
	for i := got.From; i <= got.To; i++ {
		m.given[name][i] = true
	}
	m.last[name] = got.To
}

// claim claims two runs of numbers at once: both or neither.
func (m *model) claim(t *rapid.T) {
	name := m.series(t)
	from := rapid.Int64Range(1, 80).Draw(t, "from")
	one := numbered(name, from, from+rapid.Int64Range(0, 5).Draw(t, "more"))
	two := numbered(name, one.To+rapid.Int64Range(0, 3).Draw(t, "gap"), one.To+rapid.Int64Range(3, 9).Draw(t, "end"))
	given, printed := maps.Clone(m.given[name]), maps.Clone(m.printed[name])
	last, fits := m.last[name], true
	for _, p := range []register.Print{one, two} {
		fresh, old := p.From > last, true
		for n := p.From; n <= p.To; n++ {
			old = old && given[n]
			fits = fits && !printed[n]
		}
		fits = fits && (fresh || old)
		if given == nil {
			given, printed = map[int64]bool{}, map[int64]bool{}
		}
		for n := p.From; n <= p.To; n++ {
			given[n], printed[n] = true, true
		}
		last = max(last, p.To)
	}
	_, err := m.ClaimAll(m.ctx, []register.Print{two, one})
	if !fits {
		if rule := register.RuleOf(err); rule != register.Before && rule != register.Passed {
			t.Fatalf("%+v and %+v: %v", one, two, err)
		}
		return
	}
	if err != nil {
		t.Fatalf("%+v and %+v: %v", one, two, err)
	}
	m.given[name], m.printed[name], m.last[name] = given, printed, last
}

func (m *model) record(t *rapid.T) {
	name := m.series(t)
	from := rapid.Int64Range(1, 80).Draw(t, "from")
	p := numbered(name, from, from+rapid.Int64Range(0, 20).Draw(t, "more"))
	p.Again = rapid.SampledFrom([]string{"", "", "jam"}).Draw(t, "again")
	var rule register.Rule
	for n := p.From; n <= p.To; n++ {
		switch {
		case !m.given[name][n]:
			rule = register.NotTaken
		case m.printed[name][n] && p.Again == "" && rule == "":
			rule = register.Before
		}
	}
	_, err := m.Record(m.ctx, p)
	if rule != "" {
		refused(t, fmt.Sprintf("%+v", p), err, rule)
		return
	}
	if err != nil {
		t.Fatalf("%+v: %v", p, err)
	}
	for n := p.From; n <= p.To; n++ {
		m.printed[name][n] = true
	}
}

func (m *model) post(t *rapid.T) {
	c := card(rapid.SampledFrom([]string{"x", "y"}).Draw(t, "card"), "1", rapid.SampledFrom([]string{"p", "q"}).Draw(t, "place"))
	c.N = rapid.IntRange(1, 2).Draw(t, "copy")
	got, err := m.Post(m.ctx, c)
	if err != nil {
		t.Fatal(err)
	}
	m.posts++
	c.Number = m.posts
	same(t, "posted", got.Copy, c)
	var rest []register.Copy
	for _, d := range m.hangs {
		if d.ID != c.ID || d.Place != c.Place || d.N != c.N {
			rest = append(rest, d)
		}
	}
	same(t, "replaced", len(got.Replaced), len(m.hangs)-len(rest))
	m.hangs = append(rest, c)
}

func (m *model) down(t *rapid.T) {
	n := rapid.Int64Range(0, m.posts+1).Draw(t, "number")
	_, err := m.TakeDown(m.ctx, n, start)
	for i, c := range m.hangs {
		if c.Number == n {
			m.hangs = append(m.hangs[:i:i], m.hangs[i+1:]...)
			if err != nil {
				t.Fatal(err)
			}
			return
		}
	}
	refused(t, fmt.Sprint("taking down ", n), err, register.NotPosted)
}

// check compares everything after each call.
func (m *model) check(t *rapid.T) {
	want := append([]register.Copy(nil), m.hangs...)
	register.SortCopies(want)
	same(t, "what hangs", m.posted(), want)
	same(t, "history", int64(len(m.history(""))), m.posts)
	for name, set := range m.given {
		n := int64(0)
		for _, b := range m.taken(name) {
			n += b.To - b.From + 1
			if !set[b.From] || !set[b.To] {
				t.Fatalf("block %+v was not given", b)
			}
		}
		same(t, "numbers given of "+name, n, int64(len(set)))
	}
}
