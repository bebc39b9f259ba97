package preflight

import (
	"cmp"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/layout/page"
)

// inside finds marks beyond the safe area. A bar code's quiet zone may reach
// into the margin, as long as nothing is printed there; corner marks belong
// there.
func inside(s Sheet, items []page.Item, found *diag.List) {
	for _, it := range items {
		if it.Role == role.Trim && it.Shape != nil {
			continue
		}
		box := it.Box
		if it.Symbol != nil {
			box = it.Symbol.Bars
		}
		if !s.Safe.Contains(box) {
			found.Errorf(at(s, it), "outside", "choose a larger paper, or print less on it",
				"%s: %s runs beyond the edge", s.What, name(it))
		}
	}
}

// apart finds text that lies on other text or on bars. It sweeps the marks
// from top to bottom, so that a full card costs little.
func apart(s Sheet, items []page.Item, found *diag.List) {
	solid := slices.DeleteFunc(slices.Clone(items), func(it page.Item) bool { return !solid(it) })
	slices.SortStableFunc(solid, func(a, b page.Item) int { return cmp.Compare(a.Box.Y, b.Box.Y) })
	for i, a := range solid {
		for _, b := range solid[i+1:] {
			if b.Box.Y >= a.Box.Bottom() {
				break
			}
			if clash(a, b) {
				overlap(s, a, b, found)
			}
		}
	}
}

// solid reports whether nothing may lie on a mark: lines and boxes are there to
// stand behind words, an emblem is not.
func solid(it page.Item) bool { return it.Shape == nil || it.Role == role.Emblem }

// clash reports whether two marks may not stand together as they do. The
// digits of a bar code may reach into its quiet zone, but not onto its bars;
// the mark of a draft lies across everything.
func clash(a, b page.Item) bool {
	if !solid(a) || !solid(b) || a.Role == role.Draft || b.Role == role.Draft {
		return false
	}
	if a.Role == role.Digits && b.Symbol != nil {
		return a.Box.Overlaps(b.Symbol.Bars)
	}
	if b.Role == role.Digits && a.Symbol != nil {
		return b.Box.Overlaps(a.Symbol.Bars)
	}
	return a.Box.Overlaps(b.Box)
}

func overlap(s Sheet, a, b page.Item, found *diag.List) {
	if a.Run == nil {
		a, b = b, a // the words are what can be changed
	}
	hint, on := "choose a larger paper, or print less on it", name(b)
	if a.Role == role.Emblem || b.Role == role.Emblem {
		hint = "make the emblem smaller, or leave it out"
	}
	if b.Symbol != nil {
		on += " or on the white that it needs"
	}
	found.Errorf(at(s, a), "overlap", hint, "%s: %s lies on %s", s.What, name(a), on)
}

// at is the place that a finding about it points at.
func at(s Sheet, it page.Item) diag.Pos {
	if it.Src.Known() {
		return it.Src
	}
	return s.Src
}

// name says which mark is meant.
func name(it page.Item) string {
	switch {
	case it.Run != nil:
		return string(it.Role) + " " + quote(it.Run.Text)
	case it.Symbol != nil:
		return "the " + it.Symbol.Kind
	case it.Role == role.Emblem:
		return "the emblem"
	}
	return string(it.Role)
}

func quote(s string) string {
	if r := []rune(s); len(r) > 30 {
		s = string(r[:29]) + "…"
	}
	return "“" + s + "”"
}
