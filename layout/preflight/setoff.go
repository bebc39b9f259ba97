package preflight

import (
	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// listSetOff finds a list with no solid line immediately above it, where the
// market wants one: as wide as the first line of the list, at most 1.5 mm above,
// and nothing between.
func listSetOff(s Sheet, items []page.Item, found *diag.List) {
	if s.Market == nil || s.Market.List.SetOff.Act == "" {
		return
	}
	for _, line := range listLines(items) {
		above := lowestAbove(line.Box, items)
		if above.Role != role.List && !ruled(line.Box, above.Box.Bottom(), items) {
			found.Errorf(at(s, line), "list-set-off", "report this", "%s: no line stands above %s (%s)", s.What, name(line), s.Market.List.SetOff)
		}
	}
}

// listLines are the lines of the lists: a mark of each, with the box of all of it.
func listLines(items []page.Item) (out []page.Item) {
next:
	for _, it := range items {
		if it.Role != role.List || it.Run == nil {
			continue
		}
		for i, o := range out {
			if d := it.Box.Y - o.Box.Y; d < it.Box.H/2 && -d < it.Box.H/2 {
				right := max(o.Box.Right(), it.Box.Right())
				out[i].Box.X = min(o.Box.X, it.Box.X)
				out[i].Box.W = right - out[i].Box.X
				continue next
			}
		}
		out = append(out, it)
	}
	return out
}

// lowestAbove are the words next above a line; nothing where there are none.
func lowestAbove(line page.Rect, items []page.Item) (out page.Item) {
	for _, it := range items {
		over := it.Run != nil && it.Role != role.Draft && it.Box.X < line.Right() && line.X < it.Box.Right()
		if over && it.Box.Y <= line.Y-line.H/2 && (out.Run == nil || it.Box.Y > out.Box.Y) {
			out = it
		}
	}
	return out
}

// ruled reports whether a black line stands above words, and below what ends at
// after; the box of words has some white at its top and foot.
func ruled(words page.Rect, after unit.Length, items []page.Item) bool {
	for _, it := range items {
		r := it.Box
		if it.Shape != nil && it.Shape.Kind == page.Filled && it.Shape.Gray == 0 && r.H < unit.MM && r.X <= words.X && r.Right() >= words.Right() &&
			r.Y >= after-unit.MM/4 && r.Bottom() <= words.Y+unit.MM/4 && words.Y-r.Bottom() <= 3*unit.MM/2 {
			return true
		}
	}
	return false
}
