package stock

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// TestShelf: every embedded stock reads without a finding, and every file of
// the folder is there.
func TestShelf(t *testing.T) {
	var found diag.List
	all := Load(files, &found)
	if found.Len() > 0 {
		t.Fatal(found.All())
	}
	names, _ := files.ReadDir("files")
	if len(all) != len(names) || len(IDs()) != len(names) || len(names) < 10 {
		t.Errorf("%d stocks of %d files", len(all), len(names))
	}
}

// aSize is a sheet of the A series in whole millimetres: ISO 216 begins with
// a square metre whose sides are as 1 to the root of 2 (841 × 1189 mm, from
// memory); each further size is the one before, halved across, and rounded down.
func aSize(n int) (short, long unit.Length) {
	short, long = 841, 1189
	for range n {
		short, long = long/2, short
	}
	return short, long
}

// TestPaperSizes: whatever says that it is of the A series has its sizes as ISO
// 216 derives them, and letter is 8.5 × 11 in; and every paper says where its
// figures are from, with a word for what is from memory or of our own.
func TestPaperSizes(t *testing.T) {
	if w, h := aSize(4); w != 210 || h != 297 {
		t.Fatalf("A4 is derived as %d × %d", w, h)
	}
	series := regexp.MustCompile(`ISO 216 A(\d)`)
	of := 0
	for _, id := range IDs() {
		s, _ := Get(id)
		if from := s.Source.V; !strings.Contains(from, "memory") && !strings.Contains(from, "of our own") {
			t.Errorf("%s does not say where its figures are from: %q", id, from)
		}
		m := series.FindStringSubmatch(s.Source.V)
		if m == nil {
			continue
		}
		of++
		w, h := s.Width.V/unit.MM, s.Height.V/unit.MM
		short, long := aSize(int(m[1][0] - '0'))
		if id == "ticket-a7-tent" {
			w /= 2
		}
		if min(w, h) != short || max(w, h) != long || w*unit.MM != s.Width.V && id != "ticket-a7-tent" {
			t.Errorf("%s measures %s × %s, and A%s is %d × %d mm", id, s.Width.V, s.Height.V, m[1], short, long)
		}
	}
	if of < 15 {
		t.Errorf("only %d papers are of the A series", of)
	}
	if s, _ := Get("card-letter"); s.Width.V != 17*unit.Inch/2 || s.Height.V != 11*unit.Inch {
		t.Errorf("letter is %s × %s", s.Width.V, s.Height.V)
	}
}

// TestCommonSheets: labels of A4 sheets that are common in trade: how large, from
// where, how far apart (from memory). They lie in the middle of the sheet, so
// that it may be put in either way round.
func TestCommonSheets(t *testing.T) {
	um := func(a ...unit.Length) (out []unit.Length) {
		for _, l := range a {
			out = append(out, l*unit.UM)
		}
		return out
	}
	for id, want := range map[string][]unit.Length{
		"a4-8": um(99_100, 67_700, 4_650, 13_100, 101_600, 67_700),
		"a4-6": um(99_100, 93_100, 4_650, 8_850, 101_600, 93_100),
		"a4-4": um(99_100, 139_000, 4_650, 9_500, 101_600, 139_000),
	} {
		s, _ := Get(id)
		g := s.Labels
		if got := []unit.Length{g.Width.V, g.Height.V, g.Left.V, g.Top.V, g.StepX.V, g.StepY.V}; !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", id, got, want)
		}
	}
	for _, id := range IDs() {
		if s, _ := Get(id); s.Labels != nil && id != "a4-shelf-8" {
			last := s.Place(s.Places() - 1)
			if s.Width.V-last.Right() != s.Labels.Left.V || s.Height.V-last.Bottom() != s.Labels.Top.V {
				t.Errorf("%s: %s and %s are left at the right and the foot, %s and %s at the left and the top", id, s.Width.V-last.Right(), s.Height.V-last.Bottom(), s.Labels.Left.V, s.Labels.Top.V)
			}
		}
	}
}

// TestPlaces: labels lie row by row, one step apart, all on the sheet.
func TestPlaces(t *testing.T) {
	for _, id := range IDs() {
		s, _ := Get(id)
		w, h := s.Size()
		for i := range s.Places() {
			r := s.Place(i)
			if r.W != w || r.H != h || r.X < 0 || r.Y < 0 || r.Right() > s.Width.V || r.Bottom() > s.Height.V {
				t.Errorf("%s: place %d lies at %v", id, i, r)
			}
			for j := range i {
				if r.Overlaps(s.Place(j)) {
					t.Errorf("%s: places %d and %d lie on each other", id, i, j)
				}
			}
		}
	}
	s, _ := Get("a4-8")
	if a, b, c := s.Place(0), s.Place(1), s.Place(2); b.Y != a.Y || b.X != a.X+101600*unit.UM || c.X != a.X || c.Y != a.Y+67700*unit.UM {
		t.Errorf("places 0, 1, 2 of a4-8: %v %v %v", a, b, c)
	}
}

// TestRefused: a stock that cannot be is a finding that names its line.
func TestRefused(t *testing.T) {
	const good = "kind: sheet\nabout: x\nwidth: 210 mm\nheight: 297 mm\nsafe: 2.5 mm\nlabels:\n  across: 2\n  down: 4\n  width: 99 mm\n  height: 67 mm\n  left: 4.5 mm\n  top: 14.5 mm\n  step-across: 102 mm\n  step-down: 67 mm\n"
	for _, c := range []struct{ old, new, say string }{
		{"across: 2", "across: 3", "off the sheet"},
		{"left: 4.5 mm", "left: 12 mm", "off the sheet"},
		{"step-down: 67 mm", "step-down: 66 mm", "overlap"},
		{"across: 2", "across: 0", "between 1 and 1000"},
		{"safe: 2.5 mm", "safe: 80 mm", "no room"},
		{"kind: sheet", "kind: roll", "where its labels lie"},
		{"width: 210 mm", "width: 2 m", "between 10 mm and 1000 mm"},
		{"kind: sheet", "kind: tray", "tray"},
		{"  down: 4\n", "", "down"},
	} {
		var found diag.List
		fsys := fstest.MapFS{"files/x.yaml": {Data: []byte(strings.Replace(good, c.old, c.new, 1))}}
		all := Load(fsys, &found)
		if len(all) != 0 || found.Errors() == 0 || !strings.Contains(fmt.Sprint(found.All()), c.say) {
			t.Errorf("%s: %v", c.new, found.All())
		}
		if d := found.All(); len(d) > 0 && d[0].Pos.File != "files/x.yaml" {
			t.Errorf("%s: found at %s", c.new, d[0].Pos)
		}
	}
	var found diag.List
	if all := Load(fstest.MapFS{"files/x.yaml": {Data: []byte(good)}}, &found); len(all) != 1 || found.Len() > 0 {
		t.Errorf("the good one: %v", found.All())
	}
}

func ExampleGet() {
	s, _ := Get("a4-8")
	w, h := s.Size()
	fmt.Println(s.Places(), "labels of", w, "×", h)
	// Output: 8 labels of 99.1 mm × 67.7 mm
}

// TestFold: only tickets are folded, and their panels lie in the format of A7,
// or A6 of the large one (ISO 216, from memory: 74 × 105 and 105 × 148 mm).
func TestFold(t *testing.T) {
	for _, id := range IDs() {
		s, _ := Get(id)
		if want := strings.Contains(id, "ticket"); s.Fold.Set() != want {
			t.Errorf("%s is folded: %v", id, s.Fold.Set())
		}
		want := [2]unit.Length{105, 74}
		if id == "a4-ticket-2" {
			want = [2]unit.Length{148, 105}
		}
		if w, h := s.Size(); s.Fold.Set() && (w/2/unit.MM != want[0] || h != want[1]*unit.MM) {
			t.Errorf("%s has panels of %s × %s", id, w/2, h)
		}
	}
}

// TestOwn: a shop's own papers stand beside the built-in ones; one that cannot
// be is told with its place and is not on the shelf, and none takes the name
// of another.
func TestOwn(t *testing.T) {
	const good = "kind: roll\nabout: x\nwidth: 80 mm\nheight: 50 mm\nsafe: 2 mm\n"
	fsys := fstest.MapFS{"papers/mine.yaml": {Data: []byte(good)}, "papers/a4-8.yaml": {Data: []byte(good)},
		"papers/wide.yaml": {Data: []byte(strings.Replace(good, "80 mm", "8 m", 1))}}
	var found diag.List
	s := Own(fsys, []string{"a4-8", "mine", "wide"}, &found)
	if got, ok := s.Get("mine"); !ok || got.Width.V != 80*unit.MM {
		t.Error("the good one is not on the shelf")
	}
	if got, ok := s.Get("a4-8"); !ok || got.Width.V != 210*unit.MM || s.Broken("a4-8") {
		t.Error("a built-in paper was changed")
	}
	if _, ok := s.Get("wide"); ok || !s.Broken("wide") || s.Broken("mine") || len(s.IDs()) != len(IDs())+1 {
		t.Errorf("on the shelf: %v", s.IDs())
	}
	got := fmt.Sprint(found.All())
	for _, want := range []string{"papers/wide.yaml:3:8", "between 10 mm and 1000 mm", "papers/a4-8.yaml: error: there is a paper a4-8 already"} {
		if !strings.Contains(got, want) {
			t.Errorf("%s lacks %q", got, want)
		}
	}
}

// TestPaperSays: colour and white to the cutter are asked of an own paper too:
// what cannot be is an error, a thin margin a caution.
func TestPaperSays(t *testing.T) {
	const good = "kind: roll\nabout: x\nwidth: 80 mm\nheight: 50 mm\nsafe: 1.5 mm\n"
	for _, c := range []struct {
		more, say string
		errors    int
	}{
		{"", "", 0}, {"tint: 85\nhue: yellow\n", "", 0}, {"tint: 65\n", "", 0},
		{"tint: 0\n", "mine.yaml:6:7: error: a paper with a colour has a lightness", 1},
		{"tint: 101\n", "lightness", 1}, {"hue: blue\n", "mine.yaml:6:6", 1}, {"tint: 85\nhue: pink\n", "pink", 1},
	} {
		var found diag.List
		s := Own(fstest.MapFS{"papers/mine.yaml": {Data: []byte(good + c.more)}}, []string{"mine"}, &found)
		if got := fmt.Sprint(found.All()); found.Errors() != c.errors || !strings.Contains(got, c.say) || s.Broken("mine") != (c.errors > 0) {
			t.Errorf("%q: %s", c.more, got)
		}
	}
	for text, want := range map[string]int{good: 0, strings.Replace(good, "1.5 mm", "1.4 mm", 1): 1} {
		var found diag.List
		if s := Own(fstest.MapFS{"papers/mine.yaml": {Data: []byte(text)}}, []string{"mine"}, &found); found.Len() != want || found.Errors() > 0 || s.Broken("mine") {
			t.Errorf("%q: %v", text, found.All())
		}
	}
}
