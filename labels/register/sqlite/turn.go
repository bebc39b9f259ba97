package sqlite

import (
	"context"
	"errors"
	"os"
	"sync"

	"chablon/labels/register"
)

// errPatience is why a call gives up waiting.
var errPatience = errors.New("waited too long")

// turn gives one writer at a time its turn: first among the goroutines of this
// program, then among programs, by a lock on a file beside the register. It is
// for fairness alone; SQLite's own locks keep the file sound without it.
type turn struct {
	path string
	one  chan struct{} // holds a token while nobody writes
	end  chan struct{} // closed by shut
	shut func()
}

func newTurn(path string) *turn {
	t := &turn{path: path, one: make(chan struct{}, 1), end: make(chan struct{})}
	t.one <- struct{}{}
	t.shut = sync.OnceFunc(func() { close(t.end) })
	return t
}

// take waits for the turn; release ends it.
func (t *turn) take(ctx context.Context) (release func(), err error) {
	if t.over() {
		return nil, register.ErrClosed()
	}
	select {
	case <-t.end:
		return nil, register.ErrClosed()
	case <-ctx.Done():
		return nil, context.Cause(ctx)
	case <-t.one:
	}
	unlock, err := t.lockFile(ctx)
	if err != nil {
		t.one <- struct{}{}
		return nil, err
	}
	return func() {
		unlock()
		t.one <- struct{}{}
	}, nil
}

// over reports whether the register was closed.
func (t *turn) over() bool {
	select {
	case <-t.end:
		return true
	default:
		return false
	}
}

// lockFile waits for the lock on the file. The lock is of an open file, so a
// program that dies lets go of it.
func (t *turn) lockFile(ctx context.Context) (unlock func(), err error) {
	f, err := os.OpenFile(t.path, os.O_CREATE|os.O_RDWR, 0o666)
	if err != nil {
		return nil, err
	}
	if lockNow(f) {
		return func() { _ = f.Close() }, nil
	}
	got := make(chan error, 1)
	go func() { got <- lockWait(f) }()
	select {
	case err := <-got:
		if err != nil {
			return nil, errors.Join(err, f.Close())
		}
		return func() { _ = f.Close() }, nil
	case <-ctx.Done():
		go func() { // whoever gives up lets go as soon as the lock comes
			<-got
			_ = f.Close()
		}()
		return nil, context.Cause(ctx)
	}
}
