package cli

import (
	"flag"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"

	"chablon/samples"
)

var update = flag.Bool("update", false, "rewrite the expected output in the stories")

// TestMain lets a story run the program: chablon in a story is this test
// binary, which is Main with the streams of the process.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"chablon": func() {
			os.Exit(Main(Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Getenv: os.Getenv, Now: spring}, os.Args[1:]))
		},
	})
}

// TestStories runs every story: input files, commands and what they must say,
// all in one file each.
func TestStories(t *testing.T) {
	files, err := filepath.Glob("testdata/story/*.txtar")
	if err != nil || len(files) < 5 {
		t.Fatalf("only %d stories (%v)", len(files), err)
	}
	shop, err := filepath.Abs("../../../samples/quoin-and-crumb")
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:           "testdata/story",
		UpdateScripts: *update,
		Setup: func(e *testscript.Env) error {
			e.Setenv("SHOP", shop)
			e.Setenv("XDG_STATE_HOME", filepath.Join(e.WorkDir, "state")) // what one story printed, another has not
			return nil
		},
		Cmds: map[string]func(ts *testscript.TestScript, neg bool, args []string){"status": status, "edit": edit, "grow": grow, "sample": sample},
	})
}

// spring is the clock of every story: some days after the demo shop's plan.
func spring() time.Time { return time.Date(2026, time.April, 1, 12, 0, 0, 0, time.UTC) }

// sample writes the demo shop as it came, signatures and all: sample shop; or
// the workshop: sample shop workshop.
func sample(ts *testscript.TestScript, _ bool, args []string) {
	dir := ts.MkAbs(args[0])
	ts.Check(os.MkdirAll(filepath.Dir(dir), 0o755))
	if len(args) > 1 {
		ts.Check(os.CopyFS(dir, samples.Workshop()))
		return
	}
	ts.Check(os.CopyFS(dir, samples.Demo()))
}

// status checks the exit status of a command: status 1 chablon check shop.
func status(ts *testscript.TestScript, _ bool, args []string) {
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if err != nil {
		got = strings.TrimPrefix(err.Error(), "exit status ")
	}
	if got != args[0] {
		ts.Fatalf("exit status %s, not %s", got, args[0])
	}
}

// edit replaces text in a file, once: edit FILE OLD NEW; \n is a line end.
func edit(ts *testscript.TestScript, _ bool, args []string) {
	file := ts.MkAbs(args[0])
	lines := strings.NewReplacer(`\n`, "\n")
	old, new := lines.Replace(args[1]), lines.Replace(args[2])
	data, err := os.ReadFile(file)
	ts.Check(err)
	if strings.Count(string(data), old) != 1 {
		ts.Fatalf("%q stands %d times in %s", old, strings.Count(string(data), old), args[0])
	}
	ts.Check(os.WriteFile(file, []byte(strings.Replace(string(data), old, new, 1)), 0o644))
}

// grow makes a file as many MB large: grow FILE 100.
func grow(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	ts.Check(os.Truncate(ts.MkAbs(args[0]), int64(n)<<20))
}
