// Package floors asks: does every import follow the table in DEVELOPERS.md?
//
// It parses the files itself: asking the go command inside a test would give
// an answer from the cache. A package that is not in the table fails; the
// table is not relaxed to mend a build.
package floors

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const (
	module = "chablon/"
	root   = "../../.."
)

// table is the block of floors and the block of importers in DEVELOPERS.md.
func block(t *testing.T, name string) []string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(root, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, rest, ok := strings.Cut(string(data), "```"+name+"\n")
	body, _, end := strings.Cut(rest, "```")
	if !ok || !end {
		t.Fatalf("DEVELOPERS.md has no block called %s", name)
	}
	var lines []string
	for _, l := range strings.Split(body, "\n") {
		if strings.TrimSpace(l) != "" {
			lines = append(lines, l)
		}
	}
	if len(lines) == 0 {
		t.Fatalf("the block %s is empty", name)
	}
	return lines
}

func list(s string) []string {
	var out []string
	for _, w := range strings.Split(s, ",") {
		if w = strings.TrimSpace(w); w != "" && w != "NONE" {
			out = append(out, w)
		}
	}
	return out
}

// may reads "A < B": B may import A and all that A may import.
func may(t *testing.T) map[string][]string {
	direct := map[string][]string{}
	for _, line := range block(t, "floors") {
		below, above, ok := strings.Cut(line, "<")
		if !ok {
			t.Fatalf("cannot read %q", line)
		}
		for _, b := range list(above) {
			direct[b] = append(direct[b], list(below)...)
		}
	}
	all := map[string][]string{}
	var add func(to, from string, depth int)
	add = func(to, from string, depth int) {
		if depth > 50 {
			t.Fatalf("the floors run in a circle at %s", from)
		}
		for _, d := range direct[from] {
			if _, ok := direct[d]; !ok {
				t.Errorf("%s stands under %s, but has no floor of its own", d, from)
			}
			all[to] = append(all[to], d)
			add(to, d, depth+1)
		}
	}
	for b := range direct {
		all[b] = []string{}
		add(b, b, 0)
	}
	return all
}

// imported is one import of one file.
type imported struct {
	pkg, file, path string
	test            bool
}

func imports(t *testing.T) []imported {
	var out []imported
	err := filepath.WalkDir(root, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() && (strings.HasPrefix(d.Name(), ".") && d.Name() != ".." || d.Name() == "testdata") {
			if d != nil && d.IsDir() && d.Name() != "." && p != root {
				return filepath.SkipDir
			}
			return err
		}
		if !strings.HasSuffix(p, ".go") {
			return nil
		}
		f, err := parser.ParseFile(token.NewFileSet(), p, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		rel, _ := filepath.Rel(root, p)
		for _, i := range f.Imports {
			name, _ := strconv.Unquote(i.Path.Value)
			out = append(out, imported{path.Dir(filepath.ToSlash(rel)), filepath.ToSlash(rel), name, strings.HasSuffix(p, "_test.go")})
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(out) < 100 {
		t.Fatalf("only %d imports found: is %s the project?", len(out), root)
	}
	return out
}

// TestFloors holds every import of the project's own packages against the table.
// Tests may also use the demo shop and the reader of finished PDFs.
func TestFloors(t *testing.T) {
	allowed := may(t)
	told := map[string]bool{}
	for _, i := range imports(t) {
		if strings.HasPrefix(i.pkg, "cmd/") || i.test {
			continue
		}
		if _, ok := allowed[i.pkg]; !ok {
			if !told[i.pkg] {
				t.Errorf("%s: package %s is not in the floors of DEVELOPERS.md: add it behind the floors that it imports", i.file, i.pkg)
			}
			told[i.pkg] = true
			continue
		}
		own, ok := strings.CutPrefix(i.path, module)
		if ok && !slices.Contains(allowed[i.pkg], own) {
			t.Errorf("%s: %s may not import %s", i.file, i.pkg, own)
		}
	}
}

// TestLabelsKnowNoPaper holds the two storeys apart, tests included, except
// that tests of any package may use the demo shop.
func TestLabelsKnowNoPaper(t *testing.T) {
	for _, i := range imports(t) {
		if strings.HasPrefix(i.pkg, "labels/") {
			for _, up := range []string{"layout/", "cmd/", "fonts"} {
				if strings.HasPrefix(i.path, module+up) {
					t.Errorf("%s: labels know no %s", i.file, up)
				}
			}
		}
	}
}

// TestImporters holds each outside library to the packages that may import it.
func TestImporters(t *testing.T) {
	who := map[string][]string{}
	for _, line := range block(t, "importers") {
		lib, pkgs, ok := strings.Cut(line, "<")
		if !ok {
			t.Fatalf("cannot read %q", line)
		}
		who[strings.TrimSpace(lib)] = list(pkgs)
	}
	for _, i := range imports(t) {
		if i.test || strings.HasPrefix(i.path, module) || !strings.Contains(i.path, ".") {
			continue
		}
		var pkgs []string
		known := false
		for lib, p := range who {
			if i.path == lib || strings.HasPrefix(i.path, lib+"/") {
				pkgs, known = append(pkgs, p...), true
			}
		}
		switch {
		case !known:
			t.Errorf("%s: %s has no importer named in DEVELOPERS.md", i.file, i.path)
		case !slices.Contains(pkgs, i.pkg):
			t.Errorf("%s: %s is for %s alone", i.file, i.path, strings.Join(pkgs, ", "))
		}
	}
}

// forbidden are calls that only cmd may make: the machine is handed in.
func forbidden() []string {
	return []string{"os.Exit(", "time.Now(", "os.Getenv(", "log.Fatal", "flag.Parse("}
}

// TestBelowCmd finds the clock, the environment and exits below cmd.
func TestBelowCmd(t *testing.T) {
	seen := map[string]bool{}
	for _, i := range imports(t) {
		if i.test || strings.HasPrefix(i.pkg, "cmd/") || seen[i.file] || strings.HasSuffix(i.pkg, "pdftest") {
			continue
		}
		seen[i.file] = true
		data, err := os.ReadFile(filepath.Join(root, i.file))
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range forbidden() {
			if strings.Contains(string(data), f) {
				t.Errorf("%s: %s) belongs to cmd", i.file, f)
			}
		}
	}
	if len(seen) < 50 {
		t.Fatalf("only %d files looked at", len(seen))
	}
}
