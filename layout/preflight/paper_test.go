package preflight

import (
	"strings"
	"testing"

	"chablon/labels/role"
	"chablon/layout/page"
)

// TestTint: a fault planted for each paper that is not white. Lightness 61.7 is
// a luminance of 0.30, which is 7 to 1 (worked out by hand from CIE 1976); 72.9
// is one of 0.45, which bars need. A scanner's light is red: red paper is white
// to it, and green and blue are black (GS1 General Specifications, 5.2.5; from
// memory).
func TestTint(t *testing.T) {
	for _, c := range []struct {
		tint        Tint
		words, bars bool // refused
	}{
		{Tint{}, false, false},
		{Tint{Lightness: 92, Hue: "yellow"}, false, false},
		{Tint{Lightness: 75, Hue: "orange"}, false, false},
		{Tint{Lightness: 73}, false, false},
		{Tint{Lightness: 72}, false, true},
		{Tint{Lightness: 62, Hue: "red"}, false, true},
		{Tint{Lightness: 61, Hue: "red"}, true, false}, // told once, for the words
		{Tint{Lightness: 90, Hue: "green"}, false, true},
		{Tint{Lightness: 90, Hue: "blue"}, false, true},
		{Tint{Lightness: 90, Hue: "violet"}, false, true},
	} {
		s, items := good(t)
		s.Tint = c.tint
		words, bars := false, false
		for _, d := range findings(s, items) {
			words = words || d.Rule == "tint" && strings.Contains(d.Msg, "words stand out")
			bars = bars || d.Rule == "tint" && strings.Contains(d.Msg, "EAN-13")
		}
		if words != c.words || !c.words && bars != c.bars {
			t.Errorf("%+v: words %v, bars %v", c.tint, words, bars)
		}
	}
}

// TestWear: black up to 12 × 12 mm and 15 % of the label passes, and more is a
// caution, whether it is a box, a path or a picture; boxes that touch are one.
// A printer that burns nothing does not mind.
func TestWear(t *testing.T) {
	box := func(x, y, w, h float64) page.Item {
		r := page.Rect{X: page.Rect{}.X + mm.Mul(int64(x*100), 100), Y: mm.Mul(int64(y*100), 100), W: mm.Mul(int64(w*100), 100), H: mm.Mul(int64(h*100), 100)}
		return page.Item{Role: role.Furniture, Box: r, Shape: &page.Shape{Kind: page.Filled}}
	}
	path := func(x, y, w, h float64) page.Item {
		it := box(x, y, w, h)
		b := it.Box
		it.Role, it.Shape = role.Emblem, &page.Shape{Kind: page.Path, Fill: true, Segs: []page.Seg{{Op: page.Move, Pts: [3]page.Pt{{X: b.X, Y: b.Y}}}, {Op: page.Line, Pts: [3]page.Pt{{X: b.Right(), Y: b.Y}}},
			{Op: page.Line, Pts: [3]page.Pt{{X: b.Right(), Y: b.Bottom()}}}, {Op: page.Line, Pts: [3]page.Pt{{X: b.X, Y: b.Bottom()}}}, {Op: page.Close}}}
		return it
	}
	picture := func(x, y, w, h float64) page.Item {
		it := box(x, y, w, h)
		it.Role, it.Shape, it.Picture = role.Emblem, nil, &page.Picture{W: 4, H: 4, Gray: make([]byte, 16)}
		return it
	}
	for name, c := range map[string]struct {
		items []page.Item
		say   string
	}{
		"as large as may be": {[]page.Item{box(50, 5, 12, 12)}, ""},
		"too large":          {[]page.Item{box(50, 5, 13, 13)}, "13.0 × 13.0 mm"},
		"a path":             {[]page.Item{path(50, 5, 13, 13)}, "13.0 × 13.0 mm"},
		"a picture":          {[]page.Item{picture(50, 5, 13, 13)}, "13.0 × 13.0 mm"},
		"boxes that touch":   {[]page.Item{box(50, 5, 13, 7), box(50, 12, 13, 7)}, "13.0 × 13.0 mm"},
		"a long bar":         {[]page.Item{box(5, 5, 90, 9)}, ""},
		"bars of more":       {[]page.Item{box(5, 5, 90, 6), box(5, 20, 90, 6)}, "18 % of it"},
		"grey":               {[]page.Item{{Role: role.Furniture, Box: box(5, 5, 90, 50).Box, Shape: &page.Shape{Kind: page.Filled, Gray: 220}}}, ""},
	} {
		s, _ := good(t)
		s.Area, s.Thermal = page.Rect{W: 100 * mm, H: 60 * mm}, true
		told := ""
		for _, d := range findings(s, c.items) {
			if d.Rule == "head-wear" {
				told += d.Msg
				if !d.Warning {
					t.Errorf("%s: it keeps the label back", name)
				}
			}
		}
		if (c.say == "") != (told == "") || !strings.Contains(told, c.say) {
			t.Errorf("%s: %q, want %q", name, told, c.say)
		}
		s.Thermal = false
		if got := count(findings(s, c.items), "head-wear"); got > 0 {
			t.Errorf("%s: told of a printer that burns nothing", name)
		}
	}
}

// TestOverTheCut: the white of a code may lie in the margin, and not over the edge.
func TestOverTheCut(t *testing.T) {
	s, items := good(t)
	box := items[0].Box
	s.Area = page.Rect{X: box.X, Y: box.Y, W: 100 * mm, H: 100 * mm}
	if got := count(findings(s, items), "cut"); got != 0 {
		t.Errorf("at the edge: %d findings", got)
	}
	s.Area.X += nm
	if got := count(findings(s, items), "cut"); got != 1 {
		t.Errorf("over the edge: %d findings", got)
	}
}
