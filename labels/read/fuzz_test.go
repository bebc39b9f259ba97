package read_test

import (
	"io/fs"
	"os"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/unit"
)

// FuzzBytes: whatever is in a file, there is no panic, every finding has a
// place and a rule in its usual form, and what was read may be printed.
func FuzzBytes(f *testing.F) {
	seeds := 0
	err := fs.WalkDir(os.DirFS("testdata"), ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".yaml") {
			return err
		}
		data, err := os.ReadFile("testdata/" + path)
		f.Add(data)
		seeds++
		return err
	})
	if err != nil || seeds < 20 {
		f.Fatalf("%d seeds (%v)", seeds, err)
	}
	for _, s := range []string{"? [a]: 1\n<<: {b: 1}", "&a [*a]", "{a, b}", "- - - ? ", "%YAML 1.1\n---\na: 1", "a: !!binary x", "...", "\ufeff", "\"\\ud800\""} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var v formula
		var found diag.List
		ok := read.Bytes("f.yaml", data, &v, &found)
		for _, d := range found.All() {
			if d.Pos.File != "f.yaml" || d.Pos.Line < 1 || d.Pos.Col < 1 || d.Rule == "" || d.Hint == "" || len(d.Msg) > 400 || !unit.Printable(d.Msg) {
				t.Errorf("finding %#v", d)
			}
		}
		if ok != (found.Errors() == 0) {
			t.Errorf("ok is %v with %d errors", ok, found.Errors())
		}
		if ok && (len(v.Name) == 0 || !v.Version.Set() || !v.Issued.Set() || !v.Kind.Set()) {
			t.Error("a key that must be there is not")
		}
		for _, e := range v.Name {
			if e.Key.V == "" || e.V.V == "" || !unit.Printable(e.Key.V+e.V.V) || !e.V.Set() {
				t.Errorf("name %+v", e)
			}
		}
		for _, n := range v.Notes {
			if n.V == "" || !unit.Printable(n.V) || !n.Set() {
				t.Errorf("note %+v", n)
			}
		}
	})
}

// Files made to exhaust a reader are refused at once. A YAML bomb by aliases
// is known as the billion laughs attack.
func TestBombs(t *testing.T) {
	laughs := "a: &a [x, x]\n"
	for c := 'b'; c <= 'z'; c++ {
		laughs += string(c) + ": &" + string(c) + " [*" + string(c-1) + ", *" + string(c-1) + "]\n"
	}
	steps := &strings.Builder{}
	for i := range 1200 {
		steps.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	for what, in := range map[string]string{
		"aliases":          laughs,
		"itself":           "notes: &a [*a]",
		"open lists":       strings.Repeat("[", 1<<20),
		"closed lists":     strings.Repeat("[", 9000) + strings.Repeat("]", 9000),
		"open groups":      strings.Repeat("{a: ", 1<<18),
		"dashes":           strings.Repeat("- ", 1<<19),
		"marks":            strings.Repeat("? ", 1<<19),
		"stairs":           steps.String(),
		"keys":             strings.Repeat("a: 1\n", 19_999),
		"one line of keys": "{" + strings.Repeat("a: 1,", 1<<17) + "}",
		"entries":          "[" + strings.Repeat("a,", 1<<19) + "]",
		"tabs":             strings.Repeat("\t", 1<<20) + "a: 1",
		"carriage returns": strings.Repeat("a\r", 1<<19),
		"an open quote":    `"` + strings.Repeat("a", 1<<20),
		"a long text":      "notes: [" + strings.Repeat("a ", 1<<19) + "]",
		"notes":            strings.Repeat("a: 1\n#c\n\n", 6600),
	} {
		var f formula
		var found diag.List
		if read.Bytes("x", []byte(in), &f, &found) || found.Len() > 101 {
			t.Errorf("%s: %d findings", what, found.Len())
		}
	}
}
