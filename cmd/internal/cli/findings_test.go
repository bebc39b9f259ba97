package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"chablon/cmd/internal/print"
	"chablon/labels/diag"
)

// told is what the printer of findings writes.
func told(every bool, fill func(*diag.List)) []string {
	var out bytes.Buffer
	var found diag.List
	fill(&found)
	a := &app{Streams: Streams{Err: &out}, every: every}
	a.findings(&print.Press{Name: "shop"}, &found)
	return strings.Split(strings.TrimSuffix(out.String(), "\n"), "\n")
}

func pos(n int) diag.Pos {
	return diag.Pos{File: fmt.Sprintf("products/%03d.yaml", n), Line: 1, Col: 1}
}

// One error among many cautions stands first, and the cautions of one kind are
// one line with its hint.
func TestErrorsFirstCautionsFolded(t *testing.T) {
	fill := func(l *diag.List) {
		for n := range 16 {
			l.Warnf(pos(n), "not-approved", "read it", "product %d may not be sold yet", n)
		}
		for n := range 3 {
			l.Warnf(pos(n), "face", "", "product %d is small", n)
		}
		l.Errorf(pos(7), "use", "did you mean butter?", "there is no buter")
	}
	got := strings.Join(told(false, fill), "\n")
	const want = `shop/products/007.yaml:1:1: error: there is no buter [use]
  hint: did you mean butter?
shop/products/000.yaml:1:1: caution: product 0 is small [face]
shop/products/000.yaml:1:1: caution: product 0 may not be sold yet; and 15 more of this kind, which --every-caution shows [not-approved]
  hint: read it
shop/products/001.yaml:1:1: caution: product 1 is small [face]
shop/products/002.yaml:1:1: caution: product 2 is small [face]`
	if got != want {
		t.Errorf("%s", got)
	}
	if n := len(told(true, fill)); n != 2+2*16+3 {
		t.Errorf("with every caution: %d lines", n)
	}
}

// A thousand findings are shown, over all files, and a line that says how many
// more there are.
func TestFindingsCapped(t *testing.T) {
	for _, n := range []int{999, 1000, 1001, 5000} {
		lines := told(false, func(l *diag.List) {
			for i := range n {
				l.Errorf(pos(i), "x", "", "wrong")
			}
		})
		want := map[int]string{1001: "1 more finding is not shown here: mend those above first", 5000: "4000 more findings are not shown here: mend those above first"}[n]
		if last := lines[len(lines)-1]; want != "" && (last != want || len(lines) != 1001) || want == "" && len(lines) != n {
			t.Errorf("%d findings: %d lines, the last: %s", n, len(lines), last)
		}
	}
}

// main runs the program and gives what it wrote.
func run(args ...string) (status int, all string) {
	var out bytes.Buffer
	status = Main(Streams{In: strings.NewReader(""), Out: &out, Err: &out, Getenv: func(string) string { return "" }}, args)
	return status, out.String()
}

// Whatever files are called, whatever stands on the command line: nothing that
// acts on a terminal comes out.
func TestNothingActsOnTheTerminal(t *testing.T) {
	const evil = "x\x1b[31m\u202e\u009b2J\nshop.yaml:1:1: error: forged [x]\r"
	t.Chdir(t.TempDir())
	dir := filepath.Join(t.TempDir(), "shop")
	if status, all := run("new", dir, "--demo"); status != Fine {
		t.Fatal(all)
	}
	if err := os.WriteFile(filepath.Join(dir, "ingredients", evil[:strings.Index(evil, "\n")+1]+".yaml"), []byte("name: x\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"check", dir}, {"new", evil + "/" + evil}, {evil}, {"check", "--" + evil}, {"check", evil}, {"label", evil}, {"label", "x", "--count", evil},
		{"why", "bench-tin", evil}, {"diff", evil, dir + "@" + evil}, {"approve", "bench-tin", "--by", evil, "--shop", dir},
		{"card", "bench-tin", "--hang", "--place", evil, "--shop", dir, "--out", filepath.Join(t.TempDir(), "out")}, {"wall", dir},
	} {
		_, all := run(args...)
		if strings.ContainsFunc(all, func(r rune) bool {
			return r != '\n' && r != '\t' && (unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r))
		}) {
			t.Errorf("%q: %q", args, all)
		}
		for line := range strings.Lines(all) {
			if strings.HasPrefix(line, "shop.yaml:1:1: error: forged") {
				t.Errorf("%q: a forged finding:\n%s", args, all)
			}
		}
	}
}

// A screen changes nothing that can be seen, cuts no letter in two, and leaves
// JSON what it was.
func TestScreen(t *testing.T) {
	const text = "crème 12 °C\tüber\n\u00ad\u200d weiß"
	var out bytes.Buffer
	s := &screen{to: &out}
	for i := range len(text) {
		if n, err := s.Write([]byte{text[i]}); n != 1 || err != nil {
			t.Fatal(n, err)
		}
	}
	if out.String() != text {
		t.Errorf("%q", out.String())
	}
	out.Reset()
	want := map[string]string{"name": "a\u202eb\u0085c\u2028\u007f"}
	data, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := s.Write(data); err != nil {
		t.Fatal(err)
	}
	var got map[string]string
	if err := json.Unmarshal(out.Bytes(), &got); err != nil || got["name"] != want["name"] || strings.ContainsRune(out.String(), '\u202e') {
		t.Errorf("%q, %v", out.String(), err)
	}
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		if _, all := run("completion", shell); strings.Contains(all, `\u00`) || len(all) < 1000 {
			t.Errorf("the script for %s was changed", shell)
		}
	}
}

// Progress is a line that goes away; away from a terminal there is none.
func TestProgress(t *testing.T) {
	var out bytes.Buffer
	p := &progress{to: &out, total: 1000}
	for range 1000 {
		p.tick()
	}
	p.clear()
	if got := out.String(); strings.Count(got, "\r") != 101+2 || !strings.HasSuffix(got, "\rprinting: 100 % of 1000 pages\r"+strings.Repeat(" ", 29)+"\r") {
		t.Errorf("%q", got)
	}
	if p := newProgress(&out, []print.Paper{{Pages: 1000}}); p.to != nil {
		t.Error("progress is shown where there is no terminal")
	}
}
