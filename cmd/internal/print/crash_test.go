package print

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/keep/keeptest"
	"chablon/cmd/internal/usage"
	"chablon/labels/register"
	"chablon/labels/register/sqlite"
)

// A rig is a shop with a short day, and what it prints the first time.
type rig struct {
	press *Press
	make  func() (Batch, error) // on the shop as it was just opened
	first Batch
	whole map[string]string // the first time's files, by name
}

// rigged makes a rig; make makes the papers on a shop that was just opened.
func rigged(t *testing.T, make func(p *Press) (Batch, error)) *rig {
	t.Helper()
	open := shopOf(t)
	r := &rig{press: open("2026-03-17")}
	plan := "day: 2026-03-17\nruns:\n  - product: bench-tin\n    pieces: 4\n    cartons: 1\n    sscc-from: \"6\"\n"
	if err := os.WriteFile(filepath.Join(r.press.Name, "plans", "2026-03-17.yaml"), []byte(plan), 0o666); err != nil {
		t.Fatal(err)
	}
	r.begin(t)
	r.make = func() (Batch, error) { return make(open("2026-03-17")) }
	b, err := r.make()
	if err != nil || b.Found.Errors() > 0 || len(b.Papers) == 0 || len(b.Claims) == 0 {
		t.Fatal(err, b.Found.All(), len(b.Papers), len(b.Claims))
	}
	r.first = b
	dir := filepath.Join(t.TempDir(), "whole")
	if _, err := r.press.Save(t.Context(), keep.Machine{}, r.first, dir, nil); err != nil {
		t.Fatal(err)
	}
	r.whole = paper(t, dir)
	return r
}

// begin puts a new print book in place of the one that is there.
func (r *rig) begin(t *testing.T) {
	t.Helper()
	for _, end := range []string{"", "-wal", "-shm"} {
		_ = os.Remove(filepath.Join(r.press.Name, sqlite.FileName+end))
	}
	if err := r.press.Begin(t.Context()); err != nil {
		t.Fatal(err)
	}
}

// next prints as the next command would, which looks the numbers up: where they
// are on paper it is told so, and prints them no second time.
func (r *rig) next(t *testing.T, dir string) error {
	b, err := r.make()
	if err != nil {
		return err
	}
	for _, d := range b.Found.All() {
		if !d.Warning && d.Rule != "sscc" {
			return errors.New(d.String())
		}
	}
	if len(b.Papers) == 0 {
		return nil
	}
	_, err = r.press.Save(t.Context(), keep.Machine{}, b, dir, nil)
	return err
}

// prints lists what the print book notes; a number that stands on two prints
// that are not the same once more ends the test.
func (r *rig) prints(t *testing.T) []register.Print {
	t.Helper()
	book, err := keep.Book(t.Context(), r.press.Name)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	all, err := book.Prints(t.Context(), register.Query{})
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range all {
		for _, q := range all[:i] {
			if p.Bears(q.Series, q.From, q.To) && (p.Again == "" || p.Digest != q.Digest) {
				t.Errorf("one number on two cartons: %+v and %+v", q, p)
			}
		}
	}
	return all
}

// paper is what can be seen in a folder: names and bytes of PDFs.
func paper(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	all, err := filepath.Glob(filepath.Join(dir, "*.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range all {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out[filepath.Base(f)] = string(data)
	}
	return out
}

// TestAnyMoment: the disk fails, the program is killed, the power goes, at each
// write, sync and rename of a day and of a carton. No half paper has a final
// name; a carton label that can be seen has its number in the print book; a
// disk that takes no paper costs no number; and the next command prints all of
// it, with no number on two cartons.
func TestAnyMoment(t *testing.T) {
	every := 1
	if testing.Short() { // under the race detector
		every = 9
	}
	for name, make := range map[string]func(*Press) (Batch, error){
		"day": func(p *Press) (Batch, error) { return p.Day(DayOptions{}) },
		"carton": func(p *Press) (Batch, error) {
			return p.Print(p.KindOf("carton"), Request{IDs: []string{"bench-tin"}, SSCCFrom: "6"})
		},
	} {
		r := rigged(t, make)
		for _, how := range []keeptest.How{keeptest.Fail, keeptest.Kill, keeptest.Cut} {
			at := 1
			for reached := true; reached; at += every {
				reached = r.stopped(t, fmt.Sprintf("%s, how %d, step %d", name, how, at), &keeptest.Disk{At: at, How: how})
			}
			if at < 3*len(r.whole)+10 {
				t.Errorf("%s, how %d: only %d steps", name, how, at)
			}
		}
	}
}

// stopped prints onto a disk that ends, and reports whether it came to its end.
func (r *rig) stopped(t *testing.T, what string, disk *keeptest.Disk) (reached bool) {
	dir := filepath.Join(t.TempDir(), "out")
	r.begin(t)
	_, err := r.press.Save(t.Context(), disk, r.first, dir, nil)
	if e := disk.End(); e != nil {
		t.Fatal(e)
	}
	noted, seen := r.prints(t), paper(t, dir)
	for file, data := range seen {
		if data != r.whole[file] {
			t.Errorf("%s: %s is not whole", what, file)
		}
		if (strings.HasPrefix(file, "carton") || strings.HasPrefix(file, "label")) && len(noted) != len(r.first.Claims) {
			t.Errorf("%s: %s can be seen, its number is not noted", what, file)
		}
	}
	if err == nil && len(seen) != len(r.whole) {
		t.Errorf("%s: said to be done, %d of %d files are there", what, len(seen), len(r.whole))
	}
	if disk.At <= 3*len(r.whole) && (err == nil || len(noted) > 0) {
		t.Errorf("%s: a number was taken before the paper was on the disk: %v", what, err)
	}
	if err := r.next(t, dir); err != nil {
		t.Errorf("%s: the next command: %v", what, err)
	}
	if seen = paper(t, dir); len(seen) != len(r.whole) || len(r.prints(t)) == 0 {
		t.Errorf("%s: the next command left %d of %d files", what, len(seen), len(r.whole))
	}
	list, err := os.ReadFile(filepath.Join(dir, "papers.sha256"))
	if err != nil || strings.Contains(string(list), "NOT FINISHED") {
		t.Errorf("%s: the next command left the list %q, %v", what, list, err)
	}
	return disk.Over()
}

// TestTwoDaysAtOnce: of two days printed at the same moment one prints and the
// other is told why; a third prints what bears no number that is on paper.
func TestTwoDaysAtOnce(t *testing.T) {
	r := rigged(t, func(p *Press) (Batch, error) { return p.Day(DayOptions{}) })
	rounds := 20
	if testing.Short() { // under the race detector
		rounds = 5
	}
	for round := range rounds {
		r.begin(t)
		dir := t.TempDir()
		var errs [2]error
		var wg sync.WaitGroup
		for i := range errs {
			wg.Go(func() {
				_, errs[i] = r.press.Save(context.Background(), keep.Machine{}, r.first, filepath.Join(dir, fmt.Sprint(i)), nil)
			})
		}
		wg.Wait()
		won, lost := 0, errs[1]
		if lost == nil {
			won, lost = 1, errs[0]
		}
		var told *usage.Error
		if errs[won] != nil || !errors.As(lost, &told) || told.Hint == "" {
			t.Fatalf("round %d: %v", round, errs)
		}
		for i, want := range []int{len(r.whole), 0} {
			if got := len(paper(t, filepath.Join(dir, fmt.Sprint(won^i)))); got != want {
				t.Errorf("round %d: %d files, want %d", round, got, want)
			}
		}
		third := filepath.Join(dir, "third")
		if err := r.next(t, third); err != nil || len(r.prints(t)) != 2 || len(paper(t, third)) != len(r.whole)-2 {
			t.Errorf("round %d: the third prints all but the labels that have their numbers: %v", round, err)
		}
	}
}
