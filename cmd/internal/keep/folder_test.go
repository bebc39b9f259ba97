package keep_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"chablon/cmd/internal/keep"
	"chablon/cmd/internal/keep/keeptest"
	"chablon/cmd/internal/usage"
)

// says is a file that reads text.
func says(name, text string) keep.File {
	return keep.File{Name: name, Write: func(w io.Writer) error { _, err := io.WriteString(w, text); return err }}
}

// save saves files of a set in a folder.
func save(disk keep.Disk, dir, set string, files ...keep.File) error {
	f, err := keep.OpenFolder(disk, dir)
	if err != nil {
		return err
	}
	d, err := f.Draft(set, files)
	if err != nil {
		return err
	}
	return d.Name()
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// seen is what can be seen in a folder, without the list: names and texts.
func seen(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	entries, err := os.ReadDir(dir)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && e.Name() != "papers.sha256" {
			data, err := os.ReadFile(filepath.Join(dir, e.Name()))
			must(t, err)
			out[e.Name()] = string(data)
		}
	}
	return out
}

func names(m map[string]string) string {
	var out []string
	for name, text := range m {
		out = append(out, name+"="+text)
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}

// A file whose writer fails leaves neither itself nor what was written of it,
// and an older file stays as it was.
func TestSaveLeavesNothingHalf(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "a", "b")
	f, err := keep.OpenFolder(keep.Machine{}, dir)
	must(t, err)
	must(t, f.Save("x.pdf", says("", "first").Write))
	bad := func(w io.Writer) error { _, _ = io.WriteString(w, "second"); return errors.New("the disk is full") }
	if err := f.Save("x.pdf", bad); err == nil || !strings.Contains(err.Error(), "the disk is full") {
		t.Errorf("the fault is not told: %v", err)
	}
	left, _ := os.ReadDir(dir)
	if got := names(seen(t, dir)); got != "x.pdf=first" || len(left) != 1 {
		t.Errorf("%s, %d files", got, len(left))
	}
}

// Two papers of one name in a request are refused before any of them has its
// name: one would be lost.
func TestTwoOfOneName(t *testing.T) {
	for _, c := range [][2]string{{"card-a.pdf", "card-a.pdf"}, {"labels-A-1.pdf", "labels-a-1.pdf"}, {"labels-Ä.pdf", "labels-ä.pdf"}} {
		dir := filepath.Join(t.TempDir(), "out")
		err := save(keep.Machine{}, dir, "day", says(c[0], "48"), says("other.pdf", ""), says(c[1], "24"))
		var bad *usage.Error
		if !errors.As(err, &bad) || bad.Hint == "" {
			t.Errorf("%v: %v", c, err)
		}
		if _, err := os.Stat(dir); !os.IsNotExist(err) {
			t.Errorf("%v: the folder was left behind: %v", c, err)
		}
	}
	// The same across two requests, where they differ in capitals alone.
	dir := t.TempDir()
	must(t, save(keep.Machine{}, dir, "labels-A-1", says("labels-A-1.pdf", "one")))
	if err := save(keep.Machine{}, dir, "labels-a-1", says("labels-a-1.pdf", "two")); err == nil {
		t.Error("two batches were given names that some disks cannot tell apart")
	}
	if got := names(seen(t, dir)); got != "labels-A-1.pdf=one" {
		t.Error(got)
	}
}

// No name leads out of the folder or hides in it.
func TestSaveStaysInFolder(t *testing.T) {
	f, err := keep.OpenFolder(keep.Machine{}, t.TempDir())
	must(t, err)
	for _, name := range []string{"../x", "a/b", "/x", "", ".", "..", ".hidden", `..\x/..`, `a\b`, "a\nb"} {
		if err := f.Save(name, func(io.Writer) error { return nil }); err == nil {
			t.Errorf("%q was written", name)
		}
	}
}

// What an older request wrote goes with the next one of its set; what the user
// put there, or changed, stays; so does what another request wrote.
func TestOldPaperGoes(t *testing.T) {
	dir := t.TempDir()
	must(t, save(keep.Machine{}, dir, "day", says("card-a.pdf", "a1"), says("card-b.pdf", "b1"), says("card-c.pdf", "c1")))
	must(t, save(keep.Machine{}, dir, "labels-z", says("labels-z.pdf", "z1")))
	must(t, os.WriteFile(filepath.Join(dir, "card-c.pdf"), []byte("with my notes"), 0o600))
	must(t, os.WriteFile(filepath.Join(dir, "card-mine.pdf"), []byte("mine"), 0o600))
	must(t, save(keep.Machine{}, dir, "day", says("card-a.pdf", "a2")))
	if got := names(seen(t, dir)); got != "card-a.pdf=a2 card-c.pdf=with my notes card-mine.pdf=mine labels-z.pdf=z1" {
		t.Error(got)
	}
}

// A list that somebody wrote names nothing outside the folder, and a file that
// does not read as the list says is not ours.
func TestForeignList(t *testing.T) {
	top := t.TempDir()
	dir := filepath.Join(top, "out")
	must(t, os.MkdirAll(dir, 0o777))
	must(t, os.WriteFile(filepath.Join(top, "victim"), []byte("x"), 0o666))
	must(t, os.WriteFile(filepath.Join(dir, "letter.pdf"), []byte("x"), 0o666))
	const sumOfX = "2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881" // sha256sum of x
	list := "# all of: day\n" + sumOfX + "  ../victim\n" + strings.Repeat("0", 64) + "  letter.pdf\n\xff\x00\n"
	must(t, os.WriteFile(filepath.Join(dir, "papers.sha256"), []byte(list), 0o666))
	must(t, save(keep.Machine{}, dir, "day", says("card-a.pdf", "a")))
	if got := names(seen(t, dir)); got != "card-a.pdf=a letter.pdf=x" {
		t.Error(got)
	}
	if _, err := os.Stat(filepath.Join(top, "victim")); err != nil {
		t.Error(err)
	}
}

// A shorter run takes away the parts that only the longer one before it had,
// by whichever request it is printed.
func TestOlderPartsGo(t *testing.T) {
	part := func(name, text string) keep.File {
		f := says(name, text)
		f.Run = "labels-a"
		return f
	}
	for _, c := range []struct {
		name, set string
		made      []keep.File
		want      string
	}{
		{"in one file", "labels-a", []keep.File{part("labels-a.pdf", "new")}, "labels-a.pdf=new"},
		{"in two parts", "labels-a", []keep.File{part("labels-a-part-01.pdf", "new"), part("labels-a-part-02.pdf", "new")}, "labels-a-part-01.pdf=new labels-a-part-02.pdf=new"},
		{"by the day", "day", []keep.File{part("labels-a.pdf", "new"), says("card.pdf", "new")}, "card.pdf=new labels-a.pdf=new"},
		{"of something else", "labels-b", []keep.File{says("labels-b.pdf", "new")}, "labels-a-part-01.pdf=1 labels-a-part-02.pdf=2 labels-a-part-100.pdf=3 labels-b.pdf=new"},
	} {
		dir := t.TempDir()
		must(t, save(keep.Machine{}, dir, "labels-a", part("labels-a-part-01.pdf", "1"), part("labels-a-part-02.pdf", "2"), part("labels-a-part-100.pdf", "3")))
		must(t, os.WriteFile(filepath.Join(dir, "labels-a-part-03.pdf"), []byte("mine"), 0o666))
		must(t, save(keep.Machine{}, dir, c.set, c.made...))
		got := seen(t, dir)
		if got["labels-a-part-03.pdf"] != "mine" {
			t.Errorf("%s: the user's own file is gone", c.name)
		}
		delete(got, "labels-a-part-03.pdf")
		if names(got) != c.want {
			t.Errorf("%s: %s", c.name, names(got))
		}
	}
}

// Unfinished files older than an hour are of programs that died; younger ones
// may be another program's work.
func TestSweep(t *testing.T) {
	dir := t.TempDir()
	for name, age := range map[string]time.Duration{".unfinished-old": 2 * time.Hour, ".unfinished-young": time.Minute, ".other": 2 * time.Hour} {
		path := filepath.Join(dir, name)
		must(t, os.WriteFile(path, nil, 0o666))
		must(t, os.Chtimes(path, time.Time{}, time.Now().Add(-age)))
	}
	must(t, save(keep.Machine{}, dir, "day", says("card-a.pdf", "a")))
	for name, want := range map[string]bool{".unfinished-old": false, ".unfinished-young": true, ".other": true} {
		if _, err := os.Stat(filepath.Join(dir, name)); (err == nil) != want {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The list can be checked without this program: its lines are those of
// sha256sum (GNU coreutils manual, "sha2 utilities").
func TestListIsSha256sum(t *testing.T) {
	dir := t.TempDir()
	must(t, save(keep.Machine{}, dir, "day", says("card-b.pdf", "x"), says("card-a.pdf", "x")))
	must(t, save(keep.Machine{}, dir, "labels-z", says("labels-z.pdf", "x")))
	data, err := os.ReadFile(filepath.Join(dir, "papers.sha256"))
	must(t, err)
	_, got, _ := strings.Cut(string(data), "is no part of this paper.\n")
	const sum = "2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881  "
	if want := "# all of: day\n" + sum + "card-a.pdf\n" + sum + "card-b.pdf\n# all of: labels-z\n" + sum + "labels-z.pdf\n"; got != want {
		t.Errorf("%s", data)
	}
}

// Whenever the disk fails, or the program dies, or the power goes, at any step
// of printing a day over an older one: what can be seen is whole, and all of
// one state; a list that says it is finished names exactly what is there; and
// the next run works.
func TestAnyMoment(t *testing.T) {
	older := []keep.File{says("card-a.pdf", "old a"), says("card-b.pdf", "old b"), says("card-gone.pdf", "old gone")}
	newer := []keep.File{says("card-a.pdf", "new a"), says("card-b.pdf", "new b"), says("card-c.pdf", "new c")}
	const oldState = "card-a.pdf=old a card-b.pdf=old b card-gone.pdf=old gone"
	const newState = "card-a.pdf=new a card-b.pdf=new b card-c.pdf=new c"
	for _, how := range []keeptest.How{keeptest.Fail, keeptest.Kill, keeptest.Cut} {
		reached := true
		steps := 0
		for at := 1; reached; at++ {
			dir := filepath.Join(t.TempDir(), "out")
			must(t, save(keep.Machine{}, dir, "day", older...))
			disk := &keeptest.Disk{At: at, How: how}
			err := save(disk, dir, "day", newer...)
			must(t, disk.End())
			reached, steps = disk.Over(), steps+1
			what := fmt.Sprintf("how %d, step %d (%v)", how, at, err)
			got := names(seen(t, dir))
			state := map[string]string{"o": oldState, "n": newState}
			for name, text := range seen(t, dir) {
				if !strings.Contains(state[text[:1]], name+"="+text) {
					t.Errorf("%s: %s reads %q", what, name, text)
				}
			}
			if strings.Contains(got, "=old") && strings.Contains(got, "=new") {
				t.Errorf("%s: two states: %s", what, got)
			}
			switch {
			case err == nil && got != newState:
				t.Errorf("%s: said to be done: %s", what, got)
			case how == keeptest.Fail && err != nil && got != oldState && got != newState:
				t.Errorf("%s: not put back: %s", what, got)
			}
			data, _ := os.ReadFile(filepath.Join(dir, "papers.sha256"))
			if finished := !strings.Contains(string(data), "NOT FINISHED"); finished && got != oldState && got != newState {
				t.Errorf("%s: the list says it is finished: %s", what, got)
			}
			must(t, save(keep.Machine{}, dir, "day", newer...))
			if got := names(seen(t, dir)); got != newState {
				t.Errorf("%s: the next run left %s", what, got)
			}
		}
		if steps < 25 {
			t.Errorf("how %d: only %d steps", how, steps)
		}
	}
}

// A folder that cannot be written to is said before anything else is done, and
// one that was made for nothing goes again.
func TestFolderTried(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	must(t, os.WriteFile(file, nil, 0o666))
	if _, err := keep.OpenFolder(keep.Machine{}, filepath.Join(file, "out")); err == nil {
		t.Error("a folder was made in a file")
	}
	dir := filepath.Join(t.TempDir(), "out")
	if err := save(&keeptest.Disk{At: 2, How: keeptest.Fail}, dir, "day", says("a.pdf", "")); err == nil || !strings.Contains(err.Error(), "no space") {
		t.Errorf("a full disk: %v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, "a.pdf")); err == nil {
		t.Error("written to a full disk")
	}
}
