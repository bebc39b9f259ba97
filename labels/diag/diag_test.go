package diag_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
)

func at(file string, line, col int) diag.Pos { return diag.Pos{File: file, Line: line, Col: col} }

// file:line:col is the form that the GNU coding standards give for messages
// ("Formatting Error Messages"), which editors jump to.
func TestPosString(t *testing.T) {
	for _, c := range []struct {
		pos   diag.Pos
		want  string
		known bool
	}{
		{at("formulas/choux.yaml", 12, 5), "formulas/choux.yaml:12:5", true},
		{at("shop.yaml", 0, 0), "shop.yaml", true},
		{diag.Pos{}, "-", false},
		{diag.Pos{Line: 3, Col: 1}, "-", false},
	} {
		if c.pos.String() != c.want || c.pos.Known() != c.known {
			t.Errorf("%#v = %q, known %v", c.pos, c.pos, c.pos.Known())
		}
	}
}

func TestPosCompare(t *testing.T) {
	sorted := []diag.Pos{{}, at("a", 0, 0), at("a", 2, 9), at("a", 10, 1), at("a", 10, 2), at("b", 1, 1)}
	for i, p := range sorted {
		for j, q := range sorted {
			if got := p.Compare(q); (got < 0) != (i < j) || (got > 0) != (i > j) {
				t.Errorf("%v against %v: %d", p, q, got)
			}
		}
	}
}

func TestAtSet(t *testing.T) {
	if (diag.At[int]{V: 5}).Set() || !(diag.At[int]{Pos: at("a", 1, 1)}).Set() {
		t.Error("a value is set when it has a place, whatever it is")
	}
}

func TestDiagString(t *testing.T) {
	for _, c := range []struct {
		d    diag.Diag
		want string
	}{
		{diag.Diag{Pos: at("a.yaml", 3, 7), Rule: "unit", Msg: `"360" has no unit`, Hint: `write it like "360 g"`},
			"a.yaml:3:7: error: \"360\" has no unit [unit]\n  hint: write it like \"360 g\""},
		{diag.Diag{Pos: at("a.yaml", 3, 7), Rule: "hash", Msg: "m", Warning: true}, "a.yaml:3:7: caution: m [hash]"},
		{diag.Diag{Rule: "file", Msg: "m"}, "-: error: m [file]"},
	} {
		if got := c.d.String(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

func TestListKeepsEachFindingOnce(t *testing.T) {
	var l, other diag.List
	l.Errorf(at("b", 1, 1), "r", "", "n %d", 1)
	l.Errorf(at("b", 1, 1), "r", "", "n %d", 1)
	l.Warnf(at("b", 1, 1), "r", "", "n %d", 1) // a caution is another finding
	other.Errorf(at("b", 1, 1), "r", "", "n 1")
	other.Errorf(at("a", 9, 9), "r", "do it", "n 2")
	l.AddAll(&other)
	if l.Len() != 3 || l.Errors() != 2 {
		t.Errorf("%d findings, %d errors; want 3 and 2", l.Len(), l.Errors())
	}
}

func TestListOrder(t *testing.T) {
	var l diag.List
	l.Warnf(at("b", 2, 1), "a", "", "m")
	l.Errorf(at("b", 2, 1), "z", "", "m")
	l.Errorf(at("b", 2, 1), "c", "", "m")
	l.Errorf(at("b", 1, 5), "x", "", "m")
	l.Errorf(at("a", 7, 5), "y", "", "m")
	l.Errorf(diag.Pos{}, "w", "", "m")
	var got []string
	for _, d := range l.All() {
		got = append(got, d.Rule)
	}
	if want := []string{"w", "y", "x", "c", "z", "a"}; !slices.Equal(got, want) {
		t.Errorf("order %v, want %v", got, want)
	}
	l.All()[0].Rule = "changed"
	if l.All()[0].Rule != "w" {
		t.Error("All hands out the list itself")
	}
}

func TestEmptyList(t *testing.T) {
	var l diag.List
	l.AddAll(&diag.List{})
	if len(l.All()) != 0 || l.Len() != 0 || l.Errors() != 0 {
		t.Error("an empty list is not empty")
	}
}

// One slip is one of the four that Damerau counted: a letter wrong, missing,
// extra, or two letters swapped (Communications of the ACM 7, 1964; from
// memory). How many slips are forgiven is our own choice.
func TestNearest(t *testing.T) {
	keys := []string{"name", "net", "gtin", "may-contain", "contains", "largest-face", "best-before", "use-by"}
	for _, c := range []struct{ word, want string }{
		{"nmae", "name"},
		{"nam", "name"},
		{"names", "name"},
		{"nbme", "name"},
		{"Name", "name"},
		{"n", ""},
		{"nem", "net"}, // one slip; name would be two
		{"may_contain", "may-contain"},
		{"May Contain", "may-contain"},
		{"maycontains", "may-contain"},
		{"contain", "contains"},
		{"contians", "contains"},
		{"largestface", "largest-face"},
		{"bestbefor", "best-before"},
		{"besst-befor", "best-before"},
		{"worst-before", ""},
		{"gtni", "gtin"},
		{"gt", ""},
		{"", ""},
		{"ñame", "name"},
		{strings.Repeat("name", 100), ""},
	} {
		if got := diag.Nearest(c.word, keys); got != c.want {
			t.Errorf("%q is near %q, want %q", c.word, got, c.want)
		}
	}
	if diag.Nearest("x", nil) != "" || diag.Nearest("a", []string{"b"}) != "" {
		t.Error("something is near nothing")
	}
}

func FuzzNearest(f *testing.F) {
	f.Add("nmae", "name", "net")
	f.Add("\xff", "é", "")
	f.Fuzz(func(t *testing.T, word, a, b string) {
		got := diag.Nearest(word, []string{a, b})
		if got != "" && got != a && got != b {
			t.Errorf("%q is near %q, which is not known", word, got)
		}
	})
}

func ExampleList() {
	var found diag.List
	found.Errorf(at("formulas/choux.yaml", 4, 9), "unit", `write it like "250 g"`, "%q has no unit", "250")
	for _, d := range found.All() {
		fmt.Println(d)
	}
	// Output:
	// formulas/choux.yaml:4:9: error: "250" has no unit [unit]
	//   hint: write it like "250 g"
}

func ExampleNearest() {
	fmt.Println(diag.Nearest("larges-face", []string{"net", "largest-face", "gtin"}))
	// Output: largest-face
}

type placed struct{ d diag.Diag }

func (p placed) Error() string   { return p.d.Msg }
func (p placed) Diag() diag.Diag { return p.d }

// An error that knows its place keeps it; one that only knows its rule gets
// the place of the other finding; any other error becomes that finding.
func TestAddError(t *testing.T) {
	otherwise := diag.Diag{Pos: at("shop.yaml", 1, 1), Rule: "sheet", Msg: "it cannot be set"}
	for _, c := range []struct {
		err  error
		want diag.Diag
	}{
		{placed{diag.Diag{Pos: at("a.yaml", 2, 3), Rule: "glyph", Msg: "x"}}, diag.Diag{Pos: at("a.yaml", 2, 3), Rule: "glyph", Msg: "x"}},
		{fmt.Errorf("setting: %w", placed{diag.Diag{Rule: "glyph", Msg: "x"}}), diag.Diag{Pos: otherwise.Pos, Rule: "glyph", Msg: "x"}},
		{fmt.Errorf("something else"), otherwise},
	} {
		var l diag.List
		l.AddError(c.err, otherwise)
		if got := l.All(); len(got) != 1 || got[0] != c.want {
			t.Errorf("%v: %v", c.err, got)
		}
	}
}
