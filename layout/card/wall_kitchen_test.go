package card

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
)

// TestKitchenReadsIt puts ten questions of a kitchen to the card of 48 tartlets
// in two languages. Each is answered at one place: beside the words that are
// looked for, in the same row, stands the answer, and nowhere else. The figures
// are worked out by hand from the demo formulas (see TestFigures, TestHours).
func TestKitchenReadsIt(t *testing.T) {
	pages := composed(t, hung(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en+fr"))
	if len(pages) != 1 {
		t.Fatalf("%d sheets", len(pages))
	}
	for _, q := range []struct{ asks, look, answer, where string }{
		{"how much flour for 48?", "wheat flour", "600", "weigh"},
		{"combien de crème de noisettes en tout?", "hazelnut frangipane", "1485", "weigh"},
		{"what comes after the syrup is on?", "5", "Poach under a paper lid.", "do"},
		{"how hot is the oven for the tartlets?", "oven · four", "165 °C", "do"},
		{"when are they baked?", "Bake, turn the tray once.", "≥ 92 °C", "do"},
		{"how long do they bake?", "Bake, turn the tray once.", "2 + 30", "do"},
		{"when do I line the rings?", "Sheet 2.5 mm, line rings, 28 g each.", "05:28", "do"},
		{"when is the limit missed?", "LIMIT 6", "within 2 h", "limit"},
		{"and what then?", "LIMIT 6", "if not: discard pears and syrup", "limit"},
		{"which allergens are in it?", "on this card · sur cette fiche", "hazelnuts", "head"},
	} {
		at := rowsWith(pages[0], q.look, q.answer)
		if len(at) != 1 {
			t.Errorf("%s %q beside %q stands at %d places", q.asks, q.answer, q.look, len(at))
			continue
		}
		if got := blockAt(pages[0], at[0]); got != q.where {
			t.Errorf("%s It stands at %.0f mm, %.0f mm, in the block %q, want %q", q.asks, at[0].X.MM(), at[0].Y.MM(), got, q.where)
		}
		t.Logf("%-40s %-34s %.0f mm from the left, %.0f mm from above (%s)", q.asks, q.answer, at[0].X.MM(), at[0].Y.MM(), q.where)
	}
}

// rowsWith are the places of an answer that stands to the right of what is
// looked for, or just below it, within a row.
func rowsWith(pg *page.Page, look, answer string) (out []page.Rect) {
	same := func(a, b string) bool { return layouttest.Bare(a) == layouttest.Bare(b) }
	var keys, hits []page.Rect
	runs([]*page.Page{pg}, func(it page.Item) {
		if same(it.Run.Text, look) {
			keys = append(keys, it.Box)
		}
		if same(it.Run.Text, answer) {
			hits = append(hits, it.Box)
		}
	})
	for _, h := range hits {
		if slices.ContainsFunc(keys, func(k page.Rect) bool { return h.X >= k.X && h.Y > k.Y-3*unit.MM && h.Y < k.Y+7*unit.MM }) {
			out = append(out, h)
		}
	}
	return out
}

// blockAt is the block that a place lies in: above the headings the head, below
// the first limit the limits, else what is weighed or done.
func blockAt(pg *page.Page, at page.Rect) string {
	var heads, limits, do unit.Length
	runs([]*page.Page{pg}, func(it page.Item) {
		switch {
		case strings.HasPrefix(it.Run.Text, "weigh"):
			heads = it.Box.Y
		case strings.HasPrefix(it.Run.Text, "do, in this order"):
			do = it.Box.X
		case it.Role == role.Limit && limits == 0:
			limits = it.Box.Y - 2*unit.MM
		}
	})
	switch {
	case at.Y < heads:
		return "head"
	case at.Y > limits:
		return "limit"
	case at.X < do:
		return "weigh"
	}
	return "do"
}
