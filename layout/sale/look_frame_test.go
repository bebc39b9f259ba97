package sale

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
)

// TestFrame: in every arrangement the frame stands as far from the cut on all
// four sides, no less than 1.5 mm, and within its margins; words, bars and the
// white that bars need lie within it.
func TestFrame(t *testing.T) {
	sh := layouttest.Shop(t)
	framed := *sh.Brand
	framed.Frame = shop.Text{V: "thin", Pos: sh.Brand.Pos}
	own := *sh
	own.Brand = &framed
	drawn := map[string]int{}
	for _, arrange := range []string{"beside", "above", "across"} {
		for _, id := range own.ProductIDs {
			for _, on := range []string{"roll-100x100", "a4-8", "a4-4"} {
				if k := own.Products[id].PackIDs(); drawn[arrange] < 2 && len(k) > 0 {
					l := dressed(t, &own, labelOf(t, &own, id, k[0], on, unit.Dots{N: 600, Per: unit.Inch}, "en"))
					l.Look.Arrange, l.Look.Price = arrange, false
					drawn[arrange] += framedIn(t, l)
				}
			}
		}
		if drawn[arrange] == 0 {
			t.Errorf("%s: no label has a frame", arrange)
		}
	}
}

// framedIn looks at the frame of a label and gives 1, or 0 where it has none.
func framedIn(t *testing.T, l Label) int {
	var found diag.List
	s := Compose(l, layouttest.Faces(t), &found)
	if s == nil || strings.Contains(s.Gave, "plain") || strings.Contains(s.Gave, "and not") {
		return 0
	}
	layouttest.Passes(t, rules(l, s), first(s))
	w, h := l.Stock.Size()
	is := func(it page.Item) bool { return it.Shape != nil && it.Shape.Kind == page.Outlined && it.Box.W > w*9/10 }
	i := slices.IndexFunc(s.Art.Items, is)
	if i < 0 {
		return 0
	}
	f := s.Art.Items[i].Box
	near := func(a, b unit.Length) bool { return max(a-b, b-a) <= 2*l.Dots.At(1) }
	if f.X < 1500*unit.UM || !near(f.X, f.Y) || !near(f.X, w-f.Right()) || !near(f.Y, h-f.Bottom()) || !near(f.X, max(1500*unit.UM, l.Stock.Safe.V)) {
		t.Errorf("%s: the frame stands at %v on a label of %v by %v", l.Look.Arrange, f, w, h)
	}
	for _, it := range all(s) {
		if !is(it) && !f.Inset(250*unit.UM).Contains(it.Box) {
			t.Errorf("%s: a %s at %v lies on the frame at %v", l.Look.Arrange, it.Role, it.Box, f)
		}
	}
	return 1
}

// TestAbout: the line about the food stands below its name where the name stands
// across the label, and is the first to give way elsewhere.
func TestAbout(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, arrange := range []string{"across", "above"} {
		on := map[string]string{"across": "a4-8", "above": "a4-4"}[arrange]
		pack := map[string]string{"across": "bag-of-10", "above": "bag-of-10-portions"}[arrange]
		l := dressed(t, sh, labelOf(t, sh, "lemon-thyme-marshmallow", pack, on, unit.Dots{N: 600, Per: unit.Inch}, "en"))
		l.Look.Arrange, l.Look.About = arrange, true
		var found diag.List
		s := Compose(l, layouttest.Faces(t), &found)
		if s == nil || (s.Gave == "") != (arrange == "across") || found.Len() > 0 {
			t.Fatalf("%s: %v %v", arrange, s, found.All())
		}
		layouttest.Passes(t, rules(l, s), first(s))
		line, _ := shop.In(l.Facts.Product.About, "en")
		has := slices.ContainsFunc(all(s), func(it page.Item) bool {
			return it.Run != nil && strings.ReplaceAll(it.Run.Text, "\u00a0", " ") == line.V
		})
		if has != (arrange == "across") {
			t.Errorf("%s: the line %q stands on the label: %v", arrange, line.V, has)
		}
	}
}
