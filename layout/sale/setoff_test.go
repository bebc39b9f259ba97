package sale

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// A Canadian list stands below a solid line (C.R.C., c. 870, B.01.008.2(2)(a),
// read), in both languages; a label without it, or with it elsewhere, too short
// or grey, is found by preflight.
func TestListSetOff(t *testing.T) {
	l, found := canadian(t, "a4-2", func(*shop.Pack) {})
	s := Compose(l, layouttest.Faces(t), found)
	if s == nil {
		t.Fatal(found.All())
	}
	missing := func(change func(*page.Item)) (n int) {
		items := slices.Clone(s.Art.Items)
		for i := range items {
			if it := &items[i]; it.Role == role.Furniture && it.Shape != nil && it.Shape.Kind == page.Filled {
				shape := *it.Shape
				it.Shape = &shape
				change(it)
			}
		}
		var found diag.List
		preflight.Label(rules(l, s), items, &found)
		for _, d := range found.All() {
			if d.Rule == "list-set-off" && strings.Contains(d.Msg, "no line stands above") {
				n++
			}
		}
		return n
	}
	for what, c := range map[string]struct {
		change func(*page.Item)
		want   int
	}{
		"as it is":  {func(*page.Item) {}, 0},
		"elsewhere": {func(it *page.Item) { it.Box.Y -= 3 * unit.MM }, 2},
		"too short": {func(it *page.Item) { it.Box.W /= 4 }, 2},
		"grey":      {func(it *page.Item) { it.Shape.Gray = 200 }, 2},
		"none":      {func(it *page.Item) { it.Shape = nil }, 2},
	} {
		if got := missing(c.change); got != c.want {
			t.Errorf("%s: %d lists without a line, want %d", what, got, c.want)
		}
	}
}
