package layouttest

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"chablon/layout/page"
)

var update = flag.Bool("update", false, "write the golden files anew")

// largest is how many bytes a golden file may have, so that it can be read.
const largest = 20 << 10

// Golden compares got with the reviewed file testdata/NAME, and says the first
// line that differs. With -update it writes the file instead.
func Golden(t testing.TB, name, got string) {
	t.Helper()
	file := filepath.Join("testdata", filepath.FromSlash(name))
	if len(got) > largest {
		t.Errorf("%s would have %d bytes, and may have %d: it is to be read", file, len(got), largest)
	}
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Error(err)
		return
	}
	if n, g, w := differs(got, string(want)); n > 0 {
		t.Errorf("%s:%d:\n got %s\nwant %s\nlook at the page; if it is right, run with -update and read the difference", file, n, g, w)
	}
}

// differs is the first line, from 1, in which two texts differ, and what
// stands there; 0 when they do not.
func differs(a, b string) (n int, x, y string) {
	if a == b {
		return 0, "", ""
	}
	const end = "(the end)"
	g, w := append(strings.SplitAfter(a, "\n"), end), append(strings.SplitAfter(b, "\n"), end)
	for n < min(len(g), len(w))-1 && g[n] == w[n] {
		n++
	}
	return n + 1, strings.TrimSuffix(g[n], "\n"), strings.TrimSuffix(w[n], "\n")
}

// Same fails unless two papers bear the same marks.
func Same(t TB, a, b []*page.Page) {
	t.Helper()
	if len(a) != len(b) {
		t.Errorf("%d pages, and %d when set again", len(a), len(b))
		return
	}
	for i := range a {
		if n, x, y := differs(a[i].Dump(), b[i].Dump()); n > 0 {
			t.Errorf("page %d, mark %d: %s, and when set again %s", i+1, n, x, y)
		}
	}
}
