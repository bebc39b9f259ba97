package read_test

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/unit"
)

var update = flag.Bool("update", false, "rewrite the .out files")

// text, formula and the others are a small table of keys for the tests.
type text = diag.At[string]

type formula struct {
	Pos     diag.Pos
	ID      string                // not read
	Name    read.Dict[text]       `key:"name" must:"yes" help:"Name of the formula, per language."`
	Version diag.At[int]          `key:"version" must:"yes" help:"Counts up."`
	Issued  diag.At[unit.Date]    `key:"issued" must:"yes"`
	Kind    text                  `key:"kind" must:"yes" one:"bake|boil|chill" help:"What sort of work it is."`
	Ripe    diag.At[bool]         `key:"ripe"`
	Code    diag.At[code]         `key:"code"`
	Keep    *keep                 `key:"keep"`
	Oven    diag.At[unit.Target]  `key:"oven" help:"Core temperature, if it matters < or >."`
	Notes   []text                `key:"notes"`
	Lines   []line                `key:"lines" must:"yes" help:"What goes in."`
	Tools   read.Dict[tool]       `key:"tools"`
	Seen    map[string]chan error // not read
}

type line struct {
	Pos diag.Pos
	use
	Take  diag.At[unit.Mass]  `key:"take" must:"yes" help:"How much of it."`
	Share diag.At[unit.Share] `key:"share"`
}

type use struct {
	Use text `key:"use" must:"yes"`
}

type keep struct {
	Pos   diag.Pos
	Store diag.At[store]     `key:"store" must:"yes" one:"chilled|ambient"`
	Life  diag.At[unit.Life] `key:"life" must:"yes"`
}

type store string

type tool struct {
	Setting diag.At[unit.Length]  `key:"setting"`
	Sizes   []diag.At[unit.Count] `key:"sizes"`
}

// code is a text with a rule of its own and a plain error.
type code string

func (c *code) UnmarshalText(b []byte) error {
	*c = code(b) // left half done on purpose
	if strings.Trim(string(b), "0123456789") != "" {
		return fmt.Errorf("%q is not a code: write it like %q", b, "0401234500123")
	}
	return nil
}

func (code) Pattern() string { return "^[0-9]+$" }
func (code) Example() string { return "0401234500123" }

func parse(t *testing.T, name string) (formula, string) {
	t.Helper()
	var f formula
	var found diag.List
	ok := read.File(os.DirFS("testdata"), name, &f, &found)
	if ok != (found.Errors() == 0) {
		t.Errorf("%s: ok is %v with %d errors", name, ok, found.Errors())
	}
	return f, lines(&found)
}

func lines(found *diag.List) string {
	var b strings.Builder
	for _, d := range found.All() {
		fmt.Fprintln(&b, d)
	}
	return b.String()
}

func TestGood(t *testing.T) {
	f, found := parse(t, "good.yaml")
	if found != "" {
		t.Fatalf("findings:\n%s", found)
	}
	de, _ := f.Name.Get("de")
	_, none := f.Name.Get("sv")
	for _, c := range []struct{ what, got, want string }{
		{"place of the file", f.Pos.String(), "good.yaml:2:1"},
		{"languages", fmt.Sprintln(len(f.Name), f.Name[0].Key.V, f.Name[1].Key.V, f.Name[2].Key.V), "3 en fr de\n"},
		{"place of a key", f.Name[1].Key.Pos.String(), "good.yaml:4:3"},
		{"quoted text", de.V + " " + de.Pos.String(), "Haselnuss-Frangipane: fein good.yaml:5:7"},
		{"a language that is not there", fmt.Sprint(none), "false"},
		{"version", fmt.Sprint(f.Version.V, f.Version.Pos), "4 good.yaml:6:10"},
		{"date", fmt.Sprint(f.Issued.V), "2026-03-17"},
		{"yes", fmt.Sprint(f.Ripe.V, f.Ripe.Set()), "true true"},
		{"digits", string(f.Code.V), "0401234500123"},
		{"group", fmt.Sprint(f.Keep.Store.V, " ", f.Keep.Life.V, " ", f.Keep.Pos), "chilled 2 days good.yaml:11:7"},
		{"target", f.Oven.V.String(), "≥ 92 °C"},
		{"folded block", f.Notes[1].V, "cool below 25 °C before use"},
		{"quoted #", f.Notes[2].V, "tray #2"},
		{"lines", fmt.Sprint(len(f.Lines), " ", f.Lines[1].Use.V, " ", f.Lines[1].Take.V, " ", f.Lines[1].Take.Pos), "2 hazelnut 1500 g good.yaml:22:27"},
		{"place of a line", f.Lines[0].Pos.String(), "good.yaml:20:5"},
		{"left out", fmt.Sprint(f.Lines[0].Share.Set()), "false"},
		{"dict of groups", fmt.Sprint(f.Tools[0].Key.V, " ", f.Tools[0].V.Setting.V, " ", f.Tools[0].V.Sizes[1].V), "sheeter 2.5 mm 48"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
}

// Each file of testdata/mistakes has its findings beside it.
func TestMistakes(t *testing.T) {
	files, err := filepath.Glob("testdata/mistakes/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatalf("only %d files (%v)", len(files), err)
	}
	var all strings.Builder
	for _, name := range files {
		_, got := parse(t, "mistakes/"+filepath.Base(name))
		all.WriteString(got)
		out := strings.TrimSuffix(name, ".yaml") + ".out"
		if *update {
			if err := os.WriteFile(out, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(out)
		if err != nil || got != string(want) {
			t.Errorf("%s (%v):\n got:\n%swant:\n%s", name, err, got, want)
		}
		if !strings.Contains(got, "hint: ") {
			t.Errorf("%s: no finding with a hint", name)
		}
	}
	for _, rule := range []string{"alias", "comma", "control-character", "date", "duplicate-key", "empty", "encoding", "hash", "invisible", "kind", "line-break",
		"missing-key", "mixed-scripts", "number", "one-of", "second-document", "syntax", "tab", "tag", "too-deep", "unit", "unknown-key", "value"} {
		if !strings.Contains(all.String(), "["+rule+"]\n") {
			t.Errorf("no file of testdata/mistakes shows the rule %s", rule)
		}
	}
}

// A value that could not be read is absent, so that nobody reports it again.
func TestUnreadValuesAreAbsent(t *testing.T) {
	f, _ := parse(t, "mistakes/quantities.yaml")
	if f.Version.Set() || f.Issued.Set() || f.Kind.Set() || f.Ripe.Set() || f.Oven.Set() || f.Keep.Store.Set() || f.Lines[0].Take.Set() {
		t.Error("a value that was refused has a place")
	}
	if f.Code != (diag.At[code]{}) {
		t.Errorf("a refused value was left as %q", f.Code.V)
	}
	if len(f.Lines) != 9 || f.Lines[8].Take.V != 10*unit.Gram || !f.Lines[8].Use.Set() {
		t.Errorf("%d lines, want 9 and the last with 10 g", len(f.Lines))
	}
}

// A key with a slip is read for the key that was meant: what is wrong below it
// comes to light at once, and the key is not reported missing.
func TestSlipIsReadOn(t *testing.T) {
	var f formula
	var found diag.List
	read.Bytes("x", []byte("nmae: {en: Tart}\nversion: 1\nisued: 2026-02-30\nkind: bake\nlines: []\n"), &f, &found)
	if got := lines(&found); strings.Contains(got, "missing") || !strings.Contains(got, "[date]") || len(f.Name) != 1 {
		t.Errorf("name %v, findings:\n%s", f.Name, got)
	}
}

func TestTextIsComposed(t *testing.T) {
	var f formula
	var found diag.List
	read.Bytes("x", []byte("notes: [cre\u0300me, \"cre\\u0300me\"]\nname: {e\u0301: x, \"\\u00e9\": y}"), &f, &found)
	// U+00E8 and U+00E9 are the composed forms in the Unicode character database.
	if f.Notes[0].V != "cr\u00e8me" || f.Notes[1].V != "cr\u00e8me" || f.Name[0].Key.V != "\u00e9" {
		t.Errorf("%q %q", f.Notes, f.Name)
	}
	if !strings.Contains(lines(&found), "[duplicate-key]") {
		t.Error("the same letter, once composed and once not, is not the same key")
	}
}

// Sizes: each limit is refused just above it and not at it.
func TestLimits(t *testing.T) {
	notes := func(n int) string { return "notes:\n" + strings.Repeat("- x\n", n) }
	for _, c := range []struct {
		what, in, rule string
		want           bool
	}{
		{"4000 characters", "notes: [" + strings.Repeat("é", 4000) + "]", "[too-large]", false},
		{"4001 characters", "notes: [" + strings.Repeat("é", 4001) + "]", "[too-large]", true},
		{"19997 entries", notes(19997), "[too-large]", false}, // and mapping, key, list
		{"19998 entries", notes(19998), "[too-large]", true},
		{"20000 line ends", notes(10) + strings.Repeat("\n", 20_000-11), "[too-large]", false},
		{"20001 line ends", notes(10) + strings.Repeat("\n", 20_001-11), "[too-large]", true},
		{"30 lists in a list", "notes: " + strings.Repeat("[", 31) + strings.Repeat("]", 31), "[too-deep]", false},
		{"31 lists in a list", "notes: " + strings.Repeat("[", 32) + strings.Repeat("]", 32), "[too-deep]", true},
		{"100 findings", "{" + strings.Repeat("kind: bake, ", 97) + "}", "[too-many]", false}, // 96 doubled and 4 missing
		{"102 findings", "{" + strings.Repeat("kind: bake, ", 99) + "}", "[too-many]", true},
	} {
		var f formula
		var found diag.List
		read.Bytes("x", []byte(c.in), &f, &found)
		if got := lines(&found); strings.Contains(got, c.rule) != c.want || found.Len() > 101 {
			t.Errorf("%s: %s is not %v in %d findings", c.what, c.rule, c.want, found.Len())
		}
	}
}

func TestFileRefuses(t *testing.T) {
	dir := t.TempDir()
	must := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	must(os.WriteFile(filepath.Join(dir, "a.yaml"), []byte("name: {en: x}"), 0o644))
	must(os.Symlink("a.yaml", filepath.Join(dir, "link.yaml")))
	must(os.Mkdir(filepath.Join(dir, "folder.yaml"), 0o755))
	must(os.WriteFile(filepath.Join(dir, "large.yaml"), make([]byte, 1<<20+1), 0o644))
	for _, c := range []struct{ name, want string }{
		{"link.yaml", "link.yaml: error: this is a link to another file [file]"},
		{"folder.yaml", "folder.yaml: error: this is not a file [file]"},
		{"large.yaml", "large.yaml: error: the file is larger than 1 MB [too-large]"},
		{"none.yaml", "none.yaml: error: the file cannot be read: it is not there [file]"},
		{"../a.yaml", "../a.yaml: error: the file cannot be read: its name is not a path inside the folder [file]"},
	} {
		var f formula
		var found diag.List
		ok := read.File(os.DirFS(dir), c.name, &f, &found)
		if got := lines(&found); ok || !strings.HasPrefix(got, c.want+"\n") {
			t.Errorf("%s: %v, %s", c.name, ok, got)
		}
	}
}

func TestFileAsShowsTheOtherName(t *testing.T) {
	var f formula
	var found diag.List
	fsys := fstest.MapFS{"a.yaml": {Data: []byte("name: {en: x}")}}
	read.FileAs(fsys, "a.yaml", "shop/a.yaml", &f, &found)
	if f.Pos.String() != "shop/a.yaml:1:1" || !strings.HasPrefix(lines(&found), "shop/a.yaml:1:1: ") {
		t.Errorf("%v: %s", f.Pos, lines(&found))
	}
	found = diag.List{}
	if read.File(broken{}, "a.yaml", &f, &found) || !strings.Contains(lines(&found), "the disk is tired") {
		t.Errorf("a broken disk: %s", lines(&found))
	}
}

// broken is a file system that cannot read.
type broken struct{}

func (broken) Open(string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: "a.yaml", Err: errors.New("the disk is tired")}
}

// Other roots than a struct.
func TestOtherRoots(t *testing.T) {
	var found diag.List
	var tools read.Dict[tool]
	var ls []line
	if !read.Bytes("x", []byte("a: {setting: 1 mm}\nb: {sizes: [1]}"), &tools, &found) || len(tools) != 2 {
		t.Errorf("%v %s", tools, lines(&found))
	}
	if !read.Bytes("x", []byte("- {use: a, take: 1 g}"), &ls, &found) || len(ls) != 1 {
		t.Errorf("%v %s", ls, lines(&found))
	}
}

func TestCheck(t *testing.T) {
	type bad1 struct {
		A float64 `key:"a"`
	}
	type bad2 struct {
		A text `key:"Big_Key"`
	}
	type bad3 struct {
		A, B text `key:"a"`
	}
	type bad4 struct {
		A text `key:"a" must:"true"`
	}
	type bad5 struct{ A text }
	type bad6 struct {
		L []*struct {
			A diag.At[float64] `key:"a"`
		} `key:"l"`
	}
	type bad7 struct {
		a text `key:"a"`
	}
	_ = bad7{}.a
	for _, c := range []struct {
		root any
		want string
	}{
		{formula{}, ""}, {[]line{}, ""}, {read.Dict[tool]{}, ""}, {&formula{}, ""},
		{nil, "nil"}, {3, "int cannot be read"}, {map[string]text{}, "cannot be read"},
		{bad1{}, "float64 cannot be read"}, {bad2{}, "lower case"}, {bad3{}, "twice"}, {bad4{}, "not yes"}, {bad5{}, "no keys"},
		{bad6{}, "cannot be read"}, {bad7{}, "not exported"},
	} {
		err := read.Check(c.root)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%T: %v, want %q", c.root, err, c.want)
		}
	}
}

// The same bytes give the same findings and the same values.
func TestTwice(t *testing.T) {
	for _, name := range []string{"good.yaml", "mistakes/quantities.yaml", "mistakes/keys.yaml"} {
		f1, out1 := parse(t, name)
		f2, out2 := parse(t, name)
		if out1 != out2 || fmt.Sprintf("%+v", f1.Lines) != fmt.Sprintf("%+v", f2.Lines) || !slices.Equal(f1.Name, f2.Name) {
			t.Errorf("%s is not read alike twice", name)
		}
	}
}

func ExampleFile() {
	type Line struct {
		Pos  diag.Pos
		Use  diag.At[string]    `key:"use" must:"yes"`
		Take diag.At[unit.Mass] `key:"take" must:"yes" help:"How much of it."`
	}
	fsys := fstest.MapFS{"line.yaml": {Data: []byte("use: butter\ntke: 200\n")}}
	var line Line
	var found diag.List
	ok := read.File(fsys, "line.yaml", &line, &found)
	fmt.Println(ok, line.Use.V, line.Use.Pos)
	for _, d := range found.All() {
		fmt.Println(d)
	}
	// Output:
	// false butter line.yaml:1:6
	// line.yaml:2:1: error: unknown key "tke" [unknown-key]
	//   hint: did you mean "take"? keys that may stand here: use, take
	// line.yaml:2:6: error: "200" has no unit [unit]
	//   hint: write it like "360 g"
}

func BenchmarkShopOfSixtyFiles(b *testing.B) {
	data, err := os.ReadFile("testdata/good.yaml")
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		for range 60 {
			var f formula
			var found diag.List
			if !read.Bytes("good.yaml", data, &f, &found) {
				b.Fatal(lines(&found))
			}
		}
	}
}
