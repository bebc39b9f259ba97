package keep

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestSaveLeavesNothingHalf: a file whose writer fails leaves neither itself
// nor what was written of it, and an older file stays as it was.
func TestSaveLeavesNothingHalf(t *testing.T) {
	dir := t.TempDir()
	f, err := OpenFolder(filepath.Join(dir, "a", "b"))
	if err != nil {
		t.Fatal(err)
	}
	good := func(w io.Writer) error { _, err := io.WriteString(w, "first"); return err }
	bad := func(w io.Writer) error { io.WriteString(w, "second"); return errors.New("the disk is full") }
	if err := f.Save("x.pdf", good); err != nil {
		t.Fatal(err)
	}
	if err := f.Save("x.pdf", bad); err == nil || !strings.Contains(err.Error(), "the disk is full") {
		t.Errorf("the fault is not told: %v", err)
	}
	data, _ := os.ReadFile(f.Path("x.pdf"))
	left, _ := os.ReadDir(filepath.Dir(f.Path("x.pdf")))
	if string(data) != "first" || len(left) != 1 {
		t.Errorf("%q, %d files", data, len(left))
	}
}

// TestSaveAllOrNone: when one paper of a request cannot be written, none of
// them is there afterwards.
func TestSaveAllOrNone(t *testing.T) {
	good := func(w io.Writer) error { _, err := io.WriteString(w, "whole"); return err }
	bad := func(io.Writer) error { return errors.New("the disk is full") }
	tests := []struct {
		name  string
		last  func(io.Writer) error
		files int
	}{{"all can be written", good, 3}, {"the last cannot", bad, 0}}
	for _, c := range tests {
		dir := t.TempDir()
		f, err := OpenFolder(dir)
		if err != nil {
			t.Fatal(err)
		}
		err = f.SaveAll([]File{{Name: "a.pdf", Write: good}, {Name: "b.pdf", Write: good}, {Name: "c.pdf", Write: c.last}})
		if (err == nil) != (c.files > 0) {
			t.Errorf("%s: %v", c.name, err)
		}
		if left, _ := os.ReadDir(dir); len(left) != c.files {
			t.Errorf("%s: %d files, want %d", c.name, len(left), c.files)
		}
	}
}

// TestOlderPartsGo: a shorter run takes away the parts that only the longer one
// before it had, and nothing else.
func TestOlderPartsGo(t *testing.T) {
	write := func(w io.Writer) error { _, err := io.WriteString(w, "new"); return err }
	older := []string{"labels-a.pdf", "labels-a-part-01.pdf", "labels-a-part-02.pdf", "labels-a-part-100.pdf"}
	others := []string{"labels-a-b-part-02.pdf", "labels-a-part-2.pdf", "labels-a-part-xx.pdf", "labels-a-part-02.txt", "my-labels-a-part-02.pdf",
		"labels-a-part-02-part-02.pdf", "labels-a-part-.pdf", "-part-02.pdf", "cartons-a-part-02.pdf"}
	tests := []struct {
		name  string
		made  []File
		stays []string
	}{
		{"in one file", []File{{Name: "labels-a.pdf", Run: "labels-a"}}, []string{"labels-a.pdf"}},
		{"in two parts", []File{{Name: "labels-a-part-01.pdf", Run: "labels-a"}, {Name: "labels-a-part-02.pdf", Run: "labels-a"}}, older[:3]},
		{"of something else", []File{{Name: "card-a.pdf"}}, append([]string{"card-a.pdf"}, older...)},
	}
	for _, c := range tests {
		f, err := OpenFolder(t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range append(older, others...) {
			if err := os.WriteFile(f.Path(name), []byte("old"), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		for i := range c.made {
			c.made[i].Write = write
		}
		if err := f.SaveAll(c.made); err != nil {
			t.Fatal(err)
		}
		var got []string
		left, _ := os.ReadDir(f.dir)
		for _, e := range left {
			got = append(got, e.Name())
		}
		want := append(slices.Clone(c.stays), others...)
		slices.Sort(want)
		if !slices.Equal(got, want) {
			t.Errorf("%s: %v\nwant %v", c.name, got, want)
		}
	}
}

// TestSaveStaysInFolder: no name leads out of the folder.
func TestSaveStaysInFolder(t *testing.T) {
	f, err := OpenFolder(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"../x", "a/b", "/x", "", ".", "..", ".hidden", `..\x/..`} {
		if err := f.Save(name, func(io.Writer) error { return nil }); err == nil {
			t.Errorf("%q was written", name)
		}
	}
}
