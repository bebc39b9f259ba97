package outline_test

import (
	"fmt"
	"testing"
	"unicode"

	"chablon/labels/unit"
	"chablon/layout/layouttest"
	. "chablon/layout/outline"
	"chablon/layout/page"
)

func ExampleRun() {
	r := &page.Run{Text: "Ei", Face: "bold", Size: 10 * unit.MM, Baseline: 20 * unit.MM}
	Run(3*unit.MM, r, func(l Letter) {
		fmt.Println(l.X, len(l.Segs), l.At(l.Segs[0].Pts[0]))
	})
	// Output:
	// 3 mm 13 {3.571289 mm 20 mm}
	// 7.907227 mm 14 {8.410157 mm 13.349609 mm}
}

// TestAdvances: letters stand where layout/text measures them, which reads the
// widths another way.
func TestAdvances(t *testing.T) {
	for _, bold := range []bool{false, true} {
		f := layouttest.Faces(t).Of(bold)
		const text = "Añejo Ängström ½ ℮ ― ffi 0123456789"
		n, r := 0, []rune(text)
		err := Run(0, &page.Run{Text: text, Face: f.Name(), Size: 2048 * unit.UM}, func(l Letter) {
			if want := f.Width(string(r[:n]), 2048*unit.UM); l.X != want {
				t.Errorf("%s: letter %d of %q begins at %v, measured %v", f.Name(), n, text, l.X, want)
			}
			n++
		})
		if err != nil || n != len(r) {
			t.Errorf("%d letters: %v", n, err)
		}
	}
}

// TestInk: each outline reaches as far up and down as the font file says at its
// head, which layout/text reads.
func TestInk(t *testing.T) {
	const size = 2048 * unit.MM
	for _, bold := range []bool{false, true} {
		f := layouttest.Faces(t).Of(bold)
		face, err := Of(f.Name())
		if err != nil {
			t.Fatal(err)
		}
		checked := 0
		for c := rune(' '); c < 0x2200; c++ {
			if _, no := f.Missing(string(c)); no || unicode.Is(unicode.Cf, c) { // what is never drawn
				continue
			}
			g, err := face.Glyph(c)
			if err != nil {
				t.Errorf("%q: %v", c, err)
				continue
			}
			var up, down unit.Length
			for _, s := range g.Segs {
				for _, p := range s.Points() {
					up, down = max(up, unit.Length(-p.Y)*unit.MM), max(down, unit.Length(p.Y)*unit.MM)
				}
			}
			wantUp, wantDown := f.Ink(string(c), size)
			if near := up - wantUp + down - wantDown; len(g.Segs) > 0 && (up < wantUp || down < wantDown || near > 200*unit.MM) {
				t.Errorf("%s %q: %v up and %v down, the file says %v and %v", f.Name(), c, up, down, wantUp, wantDown)
			}
			checked++
		}
		if checked < 500 {
			t.Errorf("only %d letters", checked)
		}
	}
}

// TestNone: a letter that no face has is an error, never a blank.
func TestNone(t *testing.T) {
	for _, s := range []string{"你", "\n", "\xff", "\uFFFD", "🍮"} {
		if err := Run(0, &page.Run{Text: "a" + s, Face: "regular", Size: unit.MM}, func(Letter) {}); err == nil {
			t.Errorf("%q was drawn", s)
		}
	}
	if _, err := Of("italic"); err == nil {
		t.Error("there is an italic")
	}
}
