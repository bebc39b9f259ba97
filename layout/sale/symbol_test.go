package sale

import (
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// canadian is the demo's bag of marshmallows for Canada: 18.3 g of sugars in the
// reference amount of 30 g, so symbol 6 is due (C.R.C., c. 870, B.01.350).
func canadian(t *testing.T, on string, change func(*shop.Pack)) (Label, *diag.List) {
	sh := layouttest.Shop(t)
	p := sh.Products["lemon-thyme-marshmallow"]
	k, _ := p.Pack("bag-of-10-portions")
	change(k)
	var found diag.List
	l := Label{Facts: declare.Of(sh, p, k, layouttest.Market(t, "ca"), layouttest.Day(), &found), Pack: k, Batch: "L26076A", Batched: p.Pos, Dots: layouttest.Office(),
		Stock: layouttest.Paper(t, on), Langs: layouttest.Langs(t, "en", "fr")}
	for _, lang := range l.Langs {
		l.Told = append(l.Told, words.Tell(l.Facts, sh, lang, &found))
	}
	return l, &found
}

// The place of the symbol is kept, in the right half of a label that is lower
// than wide (B.01.353, read), and what stands in it, or a label without it, is
// found by preflight.
func TestSymbolKept(t *testing.T) {
	l, found := canadian(t, "a4-2", func(*shop.Pack) {})
	s := Compose(l, layouttest.Faces(t), found)
	if s == nil || l.Facts.Nutrition.Symbol.Version != 6 {
		t.Fatal(found.All())
	}
	var frame page.Item
	for _, it := range s.Art.Items {
		if it.Role == role.Symbol {
			frame = it
		}
	}
	if w, h := frame.Box.W.MM(), frame.Box.H.MM(); w < 33.9 || w > 34.1 || h < 23.9 || h > 24.1 { // as the pack says
		t.Errorf("the frame is %.2f × %.2f mm, not 34 × 24", w, h)
	}
	if frame.Box.X < s.Art.W/2 {
		t.Errorf("the frame begins at %s of %s", frame.Box.X, s.Art.W)
	}
	rule := rules(l, s)
	rule.Front = 6
	about := func(items []page.Item) string {
		var found diag.List
		preflight.Label(rule, items, &found)
		var out []string
		for _, d := range found.All() {
			if d.Rule == "front-symbol" {
				out = append(out, d.Msg)
			}
		}
		return strings.Join(out, "; ")
	}
	if got := about(s.Art.Items); got != "" {
		t.Error(got)
	}
	var without []page.Item
	for _, it := range s.Art.Items {
		if it.Role != role.Symbol {
			without = append(without, it)
		}
	}
	moved := frame.Moved(5*unit.MM-frame.Box.X, 0)
	word := s.Art.Items[0]
	word.Box.X, word.Box.Y = frame.Box.X+unit.MM, frame.Box.Y+unit.MM
	for want, items := range map[string][]page.Item{
		"no place is kept for symbol 6": without,
		"wrong half":                    append(append([]page.Item(nil), without...), moved),
		"stands in the place of symbol": append(append([]page.Item(nil), s.Art.Items...), word),
	} {
		if got := about(items); !strings.Contains(got, want) {
			t.Errorf("found %q, want %q", got, want)
		}
	}
}

// A label without a place for it is refused; one that bears none for a reason of
// B.01.350(13) is not, where the reason holds.
func TestSymbolRefused(t *testing.T) {
	for _, c := range []struct {
		change func(*shop.Pack)
		want   string
	}{
		{func(k *shop.Pack) { k.Front.Width.V = 150 * unit.MM }, "do not go into the half"},
		{func(k *shop.Pack) { k.Front.Width, k.Front.Height = diag.At[unit.Length]{}, diag.At[unit.Length]{} }, "nobody has said how large"},
		{func(k *shop.Pack) { k.Front = nil }, "judges by the reference amount"},
		{func(k *shop.Pack) { k.Front.NotDue = diag.At[string]{V: "small-pack", Pos: k.Pos} }, "holds for a pack with less than 100 cm²"},
		{func(k *shop.Pack) { k.Front.NotDue = diag.At[string]{V: "made-where-sold", Pos: k.Pos} }, ""},
	} {
		l, found := canadian(t, "a4-2", c.change)
		s := Compose(l, layouttest.Faces(t), found)
		var all []string
		for _, d := range found.All() {
			if !d.Warning {
				all = append(all, d.Msg)
			}
		}
		if got := strings.Join(all, "; "); c.want == "" && (s == nil || got != "") || !strings.Contains(got, c.want) {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
