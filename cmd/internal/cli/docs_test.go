package cli

import (
	"bytes"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/register"
	"chablon/labels/shop"
	"chablon/labels/trace"
	"chablon/labels/unit"
	"chablon/samples"
)

// fenced gives the lines of all blocks of a document that begin with ```kind.
func fenced(t *testing.T, file, kind string) [][]string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("../../..", file))
	if err != nil {
		t.Fatal(err)
	}
	var out [][]string
	name, inside := "", false
	for _, l := range strings.Split(string(data), "\n") {
		switch fence := strings.HasPrefix(l, "```"); {
		case fence && inside:
			inside = false
		case fence:
			name, inside = l[3:], true
			if name == kind {
				out = append(out, nil)
			}
		case inside && name == kind:
			out[len(out)-1] = append(out[len(out)-1], l)
		}
	}
	return out
}

// words cuts a command line at its spaces; "two words" stay together.
func words(line string) []string {
	var out []string
	for i, part := range strings.Split(line, `"`) {
		if i%2 == 1 {
			out = append(out, part)
		} else {
			out = append(out, strings.Fields(part)...)
		}
	}
	return out
}

// still ends what would go on until it is stopped as soon as it has begun, on a
// port that is free.
func still(s Streams) Streams {
	stop := make(chan struct{})
	close(stop)
	s.Stop = stop
	s.Listen = func(string) (net.Listener, error) { return net.Listen("tcp", "127.0.0.1:0") }
	return s
}

// TestDocumentedCommands runs every command that the documents show, in their
// order, in one folder.
func TestDocumentedCommands(t *testing.T) {
	root, err := filepath.Abs("../../..")
	if err != nil {
		t.Fatal(err)
	}
	blocks := map[string][][]string{"README.md": fenced(t, "README.md", ""), "DEVELOPERS.md": fenced(t, "DEVELOPERS.md", "")}
	t.Chdir(t.TempDir())
	ran := 0
	for _, file := range []string{"README.md", "DEVELOPERS.md"} {
		for _, block := range blocks[file] {
			for _, line := range block {
				args, ok := strings.CutPrefix(line, "go run ./cmd/chablon ")
				if !ok {
					continue
				}
				args = strings.ReplaceAll(args, "samples/quoin-and-crumb", filepath.Join(root, "samples/quoin-and-crumb"))
				var out, errs bytes.Buffer
				if got := Main(still(Streams{Out: &out, Err: &errs, Getenv: func(string) string { return "" }}), words(args)); got != Fine {
					t.Errorf("%s: %s: status %d: %s", file, line, got, errs.String())
				}
				ran++
			}
		}
	}
	if ran < 4 {
		t.Errorf("only %d commands found in the documents", ran)
	}
}

// TestDocumentedFormula reads the formula and the plan that README.md shows.
func TestDocumentedFormula(t *testing.T) {
	blocks := fenced(t, "README.md", "yaml")
	if len(blocks) == 0 {
		t.Fatal("README.md shows no YAML")
	}
	for _, b := range blocks {
		var file any = new(shop.Formula)
		if strings.HasPrefix(b[0], "day:") {
			file = new(shop.Plan)
		}
		var found diag.List
		fsys := fstest.MapFS{"f.yaml": {Data: []byte(strings.Join(b, "\n"))}}
		if !read.File(fsys, "f.yaml", file, &found) || found.Len() > 0 {
			t.Errorf("the YAML of README.md: %v", found.All())
		}
	}
}

// TestDocumentedFinding makes the slip that README.md shows, and finds what it
// shows.
func TestDocumentedFinding(t *testing.T) {
	data, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	var out, errs bytes.Buffer
	streams := Streams{Out: &out, Err: &errs, Getenv: func(string) string { return "" }}
	if Main(streams, []string{"new", "my-shop"}) != Fine {
		t.Fatal(errs.String())
	}
	file := "my-shop/formulas/shortbread-dough.yaml"
	formula, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, bytes.Replace(formula, []byte("use: butter"), []byte("use: buter"), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	if got := Main(streams, []string{"check", "my-shop"}); got != Findings {
		t.Fatalf("status %d", got)
	}
	two := strings.SplitN(errs.String(), "\n", 3)
	if !strings.Contains(string(data), two[0]+"\n"+two[1]) {
		t.Errorf("README.md does not show\n%s\n%s", two[0], two[1])
	}
}

// TestEveryCommandDocumented: README.md names every command, and each has an
// example in its help.
func TestEveryCommandDocumented(t *testing.T) {
	data, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	all := commands(&app{Streams: Streams{Getenv: func(string) string { return "" }}}).Commands()
	if len(all) < 10 {
		t.Fatalf("only %d commands", len(all))
	}
	for _, c := range all {
		if !strings.Contains(string(data), "| `chablon "+c.Name()) {
			t.Errorf("README.md does not name %s", c.Name())
		}
		if !strings.Contains(c.Example, "chablon "+c.Name()) || c.Short == "" {
			t.Errorf("the help of %s has no example", c.Name())
		}
	}
}

// TestHelpExamples runs the examples of every command's help, in the order of
// the commands, in a folder with the shops that they name.
func TestHelpExamples(t *testing.T) {
	root, err := filepath.Abs("../../..")
	if err != nil {
		t.Fatal(err)
	}
	t.Chdir(t.TempDir())
	if err := os.CopyFS(".", samples.Demo()); err != nil { // what names no shop takes this one
		t.Fatal(err)
	}
	run := func(line string) {
		var out, errs bytes.Buffer
		line = strings.ReplaceAll(line, "samples/quoin-and-crumb", filepath.Join(root, "samples/quoin-and-crumb"))
		s := Streams{Out: &out, Err: &errs, Getenv: func(string) string { return "" }}
		if got := Main(still(s), append(words(line), "--today", "2026-03-17")); got != Fine {
			t.Errorf("%s: status %d: %s", line, got, errs.String())
		}
	}
	run("new my-shop --demo")
	run("new shop-last-week --demo")
	run("approve --all --by Sanne --shop my-shop")
	someEvents(t, "my-shop")
	run("carton bench-tin --shop my-shop")
	run("label bench-tin --batch L26075A --made 2026-03-16 --count 23 --shop my-shop")
	ran := 0
	for _, c := range commands(&app{}).Commands() {
		if c.Example == "" {
			t.Errorf("%s has no example", c.Name())
		}
		for _, line := range strings.Split(c.Example, "\n") {
			args, ok := strings.CutPrefix(strings.TrimSpace(line), "chablon ")
			if ok && c.Name() != "new" {
				run(args)
				ran++
			}
		}
	}
	if ran < 10 {
		t.Errorf("only %d examples were run", ran)
	}
}

// TestDocumentedPictures: every picture that README.md shows is there.
func TestDocumentedPictures(t *testing.T) {
	data, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	shown := strings.Split(string(data), "](")[1:]
	seen := 0
	for _, s := range shown {
		name, _, _ := strings.Cut(s, ")")
		if !strings.HasSuffix(name, ".png") {
			continue
		}
		seen++
		if f, err := os.Stat(filepath.Join("../../..", name)); err != nil || f.Size() == 0 {
			t.Errorf("README.md shows %s: %v", name, err)
		}
	}
	if seen < 2 {
		t.Errorf("README.md shows %d pictures, want a card and a label", seen)
	}
}

// someEvents begins the book of a shop with what the examples speak of: cards
// on the wall, two lots, and a lot that was noted wrongly.
func someEvents(t *testing.T, dir string) {
	t.Helper()
	book, err := keep.Begin(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	lot := func(id, code string) trace.Event {
		thing := trace.Thing{Kind: trace.Lot, ID: id, Code: code}
		return trace.Event{Kind: trace.Receive, Partner: "Orrow Fruit", Out: []trace.Part{{Thing: thing, Mass: 5 * unit.Kilogram}}}
	}
	all := []trace.Event{lot("butter", "HD-4471"), lot("dried-apricot", "OF-88")}
	for n := range 5 {
		all = append(all, lot("pear", fmt.Sprint("P-", n)))
	}
	tin, apricot := trace.Thing{Kind: trace.Batch, ID: "rye-shortbread-tin", Code: "L26074A"}, trace.Thing{Kind: trace.Lot, ID: "dried-apricot", Code: "OF-71"}
	all = append(all, lot(apricot.ID, apricot.Code), trace.Event{Kind: trace.Make, Made: "2026-03-15", In: []trace.Part{{Thing: apricot}}, Out: []trace.Part{{Thing: tin}}},
		trace.Event{Kind: trace.Withdraw, Why: "en: Stones may be in it.", In: []trace.Part{{Thing: apricot}}})
	for i := range all {
		all[i].At = time.Date(2026, 3, 17, 6, 0, 0, 0, time.UTC)
		all[i].Noted = all[i].At
	}
	if _, err := book.Note(t.Context(), all...); err != nil {
		t.Fatal(err)
	}
	for _, place := range []string{"oven", "mixer", "sink", "door", "store", "office", "bench"} {
		c := register.Copy{ID: "bench-tin", Version: "v1", CheckWord: "WORD", Size: "10 pieces", N: 1, Of: 1, Place: place, At: all[0].At}
		if _, err := book.Post(t.Context(), c); err != nil {
			t.Fatal(err)
		}
	}
	if err := book.Close(); err != nil {
		t.Fatal(err)
	}
	day := "what,of,code,mass,into,into-code\nused,butter,HD-4471,100 g,craquelin,L26076A\n"
	if err := os.WriteFile("day.csv", []byte(day), 0o644); err != nil {
		t.Fatal(err)
	}
}
