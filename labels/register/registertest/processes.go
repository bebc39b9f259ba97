package registertest

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os/exec"
	"sync"
	"testing"

	"chablon/labels/register"
)

// Work is what a process of [Crowd] and [Crash] does: it takes blocks of 1 to 9
// numbers from the series "crowd" and writes each as a line "first last" after
// it was given; takes blocks, or without end when takes is 0.
func Work(ctx context.Context, r register.Register, w io.Writer, takes int) error {
	for i := 0; takes == 0 || i < takes; i++ {
		b, err := r.Take(ctx, want("crowd", int64(1+i%9), 1))
		if err != nil {
			return err
		}
		if _, err := fmt.Fprintf(w, "%d %d\n", b.From, b.To); err != nil {
			return err
		}
	}
	return nil
}

// Crowd starts several processes that work at once until each is done. start
// makes the command of a process that calls [Work] on the register that open
// opens.
func Crowd(t *testing.T, start func() *exec.Cmd, open func() register.Register, processes, takes int) {
	var all given
	var wg sync.WaitGroup
	for i := range processes {
		wg.Go(func() {
			if n := all.watch(t, start(), fmt.Sprint("process ", i), 0); n != takes {
				t.Errorf("process %d took %d blocks, want %d", i, n, takes)
			}
		})
	}
	wg.Wait()
	all.kept(t, open(), true)
}

// Crash starts several processes that work without end, kills each after a
// random number of blocks, and does so again on the same register. No number
// that a process was given may be given again, to whomever.
func Crash(t *testing.T, start func() *exec.Cmd, open func() register.Register, processes, rounds int) {
	var all given
	rnd := rand.New(rand.NewPCG(1, 2)) // the same kills in each run
	for round := range rounds {
		var wg sync.WaitGroup
		for i := range processes {
			kill := 1 + rnd.IntN(40)
			wg.Go(func() {
				all.watch(t, start(), fmt.Sprintf("process %d of round %d", i, round), kill)
			})
		}
		wg.Wait()
		all.kept(t, open(), false)
	}
	if len(all.who) < processes*rounds {
		t.Errorf("only %d numbers were given", len(all.who))
	}
}

// watch runs a process and gathers the blocks that it reports, until its end or
// until it has reported kill blocks and is killed. It returns the number of
// blocks.
func (g *given) watch(t *testing.T, cmd *exec.Cmd, who string, kill int) (blocks int) {
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		t.Error(err)
		return 0
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		var from, to int64
		if _, err := fmt.Sscanf(lines.Text(), "%d %d", &from, &to); err != nil {
			t.Errorf("%s wrote %q", who, lines.Text())
			continue
		}
		g.add(t, from, to, who)
		if blocks++; blocks == kill {
			_ = cmd.Process.Kill() // lines that it wrote before are still read
		}
	}
	if err := cmd.Wait(); err != nil && kill == 0 {
		t.Errorf("%s: %v", who, err)
	}
	return blocks
}

// kept holds what was reported against the register, and closes it. Whole
// means that nothing else may have been given.
func (g *given) kept(t *testing.T, r register.Register, whole bool) {
	t.Helper()
	blocks, err := r.Taken(context.Background(), "crowd")
	if err != nil {
		t.Fatal(err)
	}
	kept := map[int64]bool{}
	for _, b := range blocks {
		for n := b.From; n <= b.To; n++ {
			if kept[n] {
				t.Errorf("number %d is kept twice", n)
			}
			kept[n] = true
		}
	}
	for n, who := range g.who {
		if !kept[n] {
			t.Errorf("number %d, given to %s, was forgotten", n, who)
		}
	}
	if whole && len(kept) != len(g.who) {
		t.Errorf("%d numbers are kept, %d were given", len(kept), len(g.who))
	}
	if err := r.Close(); err != nil {
		t.Error(err)
	}
}
