package registertest

import (
	"fmt"
	"sync"
	"testing"

	"chablon/labels/register"
)

func (b *book) claim(claims ...register.Print) []register.Print {
	b.Helper()
	out, err := b.ClaimAll(b.ctx, claims)
	if err != nil {
		b.Fatal(err)
	}
	return out
}

// A claim takes exactly its numbers and records what bears them.
func testClaim(t *testing.T, s Suite) {
	b := s.open(t)
	same(t, "nothing", len(b.claim()), 0)
	// Out of order, with paper that has no numbers between them.
	got := b.claim(numbered("cartons", 5, 6), label("tartlet", "L26076A"), numbered("cartons", 1, 2), numbered("others", 9, 9))
	for i, from := range []int64{5, 0, 1, 9} {
		same(t, "order", got[i].From, from)
		if got[i].Number < 1 {
			t.Fatalf("%+v has no number", got[i])
		}
	}
	same(t, "prints", len(b.prints(register.Query{})), 4)
	blocks := b.taken("cartons")
	same(t, "blocks", len(blocks), 2)
	same(t, "first block", [2]int64{blocks[0].From, blocks[0].To}, [2]int64{1, 2})
	same(t, "second block", [2]int64{blocks[1].From, blocks[1].To}, [2]int64{5, 6})
	same(t, "what for", blocks[0].For, "label of pear-hazelnut-tartlet, batch L26076A")
	same(t, "the next number", b.take("cartons", 1, 0).From, 7)
}

// What a claim refuses, and that it then has taken and recorded nothing.
func testClaimRefused(t *testing.T, s Suite) {
	b := s.open(t)
	b.claim(numbered("cartons", 11, 20))
	b.take("cartons", 5, 0) // 21 to 25, taken and never printed
	again := func(from, to int64) register.Print {
		p := numbered("cartons", from, to)
		p.Again = "jam"
		return p
	}
	no := numbered("cartons", 30, 31)
	no.Digest = ""
	for _, c := range []struct {
		name string
		last register.Print
		rule register.Rule
	}{
		{"on paper", numbered("cartons", 11, 20), register.Before},
		{"one of them on paper", numbered("cartons", 20, 21), register.Before},
		{"twice in the request", numbered("cartons", 40, 45), register.Before},
		{"passed over", numbered("cartons", 9, 9), register.Passed},
		{"half given", numbered("cartons", 25, 26), register.Passed},
		{"again, and never taken", again(60, 61), register.NotTaken},
		{"no digest", no, register.Input},
	} {
		prints, blocks := b.prints(register.Query{}), b.taken("cartons")
		_, err := b.ClaimAll(b.ctx, []register.Print{numbered("cartons", 40, 41), label("tartlet", "L26076A"), c.last})
		refused(t, c.name, err, c.rule)
		same(t, c.name+": prints", b.prints(register.Query{}), prints)
		same(t, c.name+": blocks", b.taken("cartons"), blocks)
	}
	// Numbers that a crash left taken do not block the day.
	same(t, "taken and never printed", b.claim(numbered("cartons", 21, 25))[0].From, 21)
	same(t, "again", b.claim(again(11, 20))[0].Again, "jam")
	same(t, "nothing new was taken", len(b.taken("cartons")), 2)
}

// What came of one asking is claimed once, whoever asks and however often; other
// askings, and prints that came of none, are not in its way.
func testAskedOnce(t *testing.T, s Suite) {
	b := s.open(t)
	of := func(once string, p register.Print) register.Print {
		p.Once = once
		return p
	}
	b.claim(of("k7", numbered("cartons", 1, 2)), of("k7", label("tartlet", "L26076A")))
	for _, p := range []register.Print{of("k7", numbered("cartons", 3, 4)), of("k7", label("bar", ""))} {
		_, err := b.ClaimAll(b.ctx, []register.Print{numbered("others", 1, 1), p})
		refused(t, "the same asking", err, register.Twice)
		_, err = b.Record(b.ctx, p)
		refused(t, "the same asking, recorded", err, register.Twice)
	}
	same(t, "nothing was taken", len(b.taken("others")), 0)
	b.claim(of("k8", numbered("cartons", 3, 4)))
	b.claim(label("bar", ""), label("bar", ""))
	same(t, "what came of it", len(b.prints(register.Query{Once: "k7"})), 2)
	var wg sync.WaitGroup
	done := make(chan bool, 20)
	for i := range int64(20) {
		wg.Go(func() {
			_, err := b.ClaimAll(b.ctx, []register.Print{of("k9", numbered("cartons", 100*i+100, 100*i+101))})
			if err != nil && register.RuleOf(err) != register.Twice && register.RuleOf(err) != register.Passed {
				t.Error(err)
			}
			done <- err == nil
		})
	}
	wg.Wait()
	close(done)
	n := 0
	for ok := range done {
		if ok {
			n++
		}
	}
	same(t, "of twenty at once", n, 1)
}

// Of many that claim the same numbers at once one gets them, and nobody is in
// the way of those who claim others.
func testGoroutinesClaim(t *testing.T, s Suite) {
	b := s.open(t)
	const workers = 8
	for round := range int64(10) {
		var mu sync.Mutex
		var wg sync.WaitGroup
		won := 0
		for i := range workers {
			wg.Go(func() {
				p := numbered("cartons", 10*round+1, 10*round+4)
				p.Batch = fmt.Sprint("W", i)
				_, err := b.ClaimAll(b.ctx, []register.Print{p, numbered(fmt.Sprint("own ", i), round+1, round+1)})
				mu.Lock()
				defer mu.Unlock()
				if err == nil {
					won++
				} else if register.RuleOf(err) != register.Before {
					t.Errorf("refused by %s: %v", register.RuleOf(err), err)
				}
			})
		}
		wg.Wait()
		same(t, "winners", won, 1)
	}
	same(t, "prints", len(b.prints(register.Query{Series: "cartons"})), 10)
}
