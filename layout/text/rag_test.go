package text

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// broken are the lines of a text, as words.
func broken(t testing.TB, what role.Role, s string, width unit.Length) []string {
	lines, err := load(t).Break(Para{Role: what, Spans: []Span{{Text: s}}}, 2*unit.MM, width)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, l := range lines {
		out = append(out, l.Text())
	}
	return out
}

// TestRag: a paragraph ends with no short line where another break avoids it,
// no line ends with an article or one letter alone, a name stands in lines of
// about one length (common practice of typesetting: none of these is a law).
func TestRag(t *testing.T) {
	for _, row := range []struct {
		what  role.Role
		width unit.Length
		lines string
	}{
		{role.List, 30 * unit.MM, "sugar, maize starch, wheat|flour, vanilla"},
		{role.Name, 24 * unit.MM, "Pear and hazelnut|tartlet with cream"},
		{role.Name, 24 * unit.MM, "Barre au caramel|aux fruits de la passion"},
		{role.List, 18 * unit.MM, "Poached pear with|a cream of hazelnuts"},
		{role.List, 19 * unit.MM, "Gelee mit Birnen und|der feinen Vanille"},
		{role.List, 30 * unit.MM, "one line that is whole"},
	} {
		got := broken(t, row.what, strings.ReplaceAll(row.lines, "|", " "), row.width)
		if strings.Join(got, "|") != row.lines {
			t.Errorf("%v at %v:\n got %s\nwant %s", row.what, row.width, strings.Join(got, "|"), row.lines)
		}
	}
}

// TestRagTakesNoMoreLines: whatever the words and the width, there are as many
// lines as when each is filled (the fewest there can be), none is too wide,
// nothing is lost, and their right ends are no less even than when filled.
func TestRagTakesNoMoreLines(t *testing.T) {
	f := load(t)
	rapid.Check(t, func(r *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`[b-df-hj-np-tv-z]{2,12}[,.]?`), 1, 40).Draw(r, "words")
		what := rapid.SampledFrom([]role.Role{role.List, role.Name}).Draw(r, "role")
		width := unit.Length(rapid.Int64Range(12, 90).Draw(r, "width")) * unit.MM
		c, err := f.Prepare(Para{Role: what, Spans: []Span{{Text: strings.Join(words, " ")}}})
		if err != nil {
			r.Fatal(err)
		}
		const size = 2 * unit.MM
		got, err := c.Lines(size, width)
		ends, fault := c.fill(0, 0, len(c.cuts)-1, size, width)
		if (err == nil) != (fault == nil) {
			r.Fatalf("%v, filled %v", err, fault)
		}
		if err != nil {
			return
		}
		if len(got) != len(ends) {
			r.Fatalf("%d lines, filled %d", len(got), len(ends))
		}
		var said []string
		var even, filled float64
		start := 0
		for i, l := range got {
			said = append(said, strings.Fields(l.Text())...)
			if l.W > width {
				r.Fatalf("%q is %v wide, in %v", l.Text(), l.W, width)
			}
			full := c.line(start, ends[i], size)
			if start = ends[i]; what == role.Name || i < len(got)-1 {
				even, filled = even+square(width-l.W), filled+square(width-full.W)
			}
		}
		if !slices.Equal(said, words) {
			r.Fatalf("%q became %q", words, said)
		}
		if what == role.Name && even > filled*1.001 {
			r.Fatalf("less even than filled: %.2f, %.2f", even, filled)
		}
	})
}

func square(l unit.Length) float64 { return l.MM() * l.MM() }
