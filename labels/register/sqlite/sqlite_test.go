package sqlite

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"chablon/labels/register"
	"chablon/labels/register/registertest"
)

// workFile names, for a process started by a test, the register to work on.
const workFile = "REGISTER_TEST_FILE"

// TestMain lets the test program be started again as a worker.
func TestMain(m *testing.M) {
	path := os.Getenv(workFile)
	if path == "" {
		os.Exit(m.Run())
	}
	if err := work(path); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func work(path string) error {
	ctx := context.Background()
	r, err := Open(ctx, path)
	if err != nil {
		return err
	}
	var takes int
	if _, err := fmt.Sscan(os.Getenv(workFile+"_TAKES"), &takes); err != nil {
		return err
	}
	if err := registertest.Work(ctx, r, os.Stdout, takes); err != nil {
		return err
	}
	return r.Close()
}

// worker is the command of a process that takes blocks from the register.
func worker(t *testing.T, path string, takes int) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), workFile+"="+path, fmt.Sprintf("%s_TAKES=%d", workFile, takes))
	cmd.Stderr = os.Stderr
	return cmd
}

func begin(tb testing.TB, path string) *Register {
	tb.Helper()
	r, err := Begin(context.Background(), path)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

func reopen(tb testing.TB, path string) *Register {
	tb.Helper()
	r, err := Open(context.Background(), path)
	if err != nil {
		tb.Fatal(err)
	}
	return r
}

func suite() registertest.Suite {
	return registertest.Suite{
		New: func(tb testing.TB) register.Register {
			dir, err := os.MkdirTemp(tb.TempDir(), "")
			if err != nil {
				tb.Fatal(err)
			}
			return begin(tb, filepath.Join(dir, FileName))
		},
		Reopen: func(tb testing.TB, r register.Register) register.Register {
			if err := r.Close(); err != nil {
				tb.Fatal(err)
			}
			return reopen(tb, r.(*Register).path)
		},
	}
}

func TestRegister(t *testing.T) { suite().Run(t) }

func BenchmarkRegister(b *testing.B) { suite().Bench(b) }

func TestProcesses(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	if err := begin(t, path).Close(); err != nil {
		t.Fatal(err)
	}
	takes := 150
	if testing.Short() {
		takes = 20
	}
	registertest.Crowd(t, func() *exec.Cmd { return worker(t, path, takes) },
		func() register.Register { return reopen(t, path) }, 4, takes)
}

func TestKilledProcesses(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	if err := begin(t, path).Close(); err != nil {
		t.Fatal(err)
	}
	rounds := 8
	if testing.Short() {
		rounds = 2
	}
	registertest.Crash(t, func() *exec.Cmd { return worker(t, path, 0) },
		func() register.Register { return reopen(t, path) }, 3, rounds)
}

// Registers of one program on one file exclude each other as programs do.
func TestTwoInOneProgram(t *testing.T) {
	path := filepath.Join(t.TempDir(), FileName)
	a := begin(t, path)
	b := reopen(t, path)
	ctx := context.Background()
	w := register.Want{Series: register.Series{Name: "x", First: 1}, N: 1, At: start}
	done := make(chan error, 2)
	for _, r := range []*Register{a, b} {
		go func() {
			for range 100 {
				if _, err := r.Take(ctx, w); err != nil {
					done <- err
					return
				}
			}
			done <- nil
		}()
	}
	for range 2 {
		if err := <-done; err != nil {
			t.Fatal(err)
		}
	}
	if err := a.Close(); err != nil { // closing one leaves the other its locks
		t.Fatal(err)
	}
	if got, err := b.Take(ctx, w); err != nil || got.From != 201 {
		t.Fatalf("%+v, %v", got, err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
}

func Example() {
	dir, err := os.MkdirTemp("", "")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(dir)
	ctx := context.Background()
	r, err := Begin(ctx, filepath.Join(dir, FileName))
	if err != nil {
		fmt.Println(err)
		return
	}
	first, err := r.Take(ctx, register.Want{Series: register.Labels("tartlet", "L26076A"), N: 24, At: start})
	fmt.Println(first.From, first.To, err, r.Close())

	r, err = Open(ctx, filepath.Join(dir, FileName))
	if err != nil {
		fmt.Println(err)
		return
	}
	second, err := r.Take(ctx, register.Want{Series: register.Labels("tartlet", "L26076A"), N: 2, At: start})
	fmt.Println(second.From, second.To, err, r.Close())
	// Output:
	// 1 24 <nil> <nil>
	// 25 26 <nil> <nil>
}

var start = time.Date(2026, 3, 17, 4, 30, 0, 0, time.UTC)
