package preflight

import (
	"slices"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// What a picture on a bench must have: pixels for the eye at arm's length, and
// greys that part from each other once it is laminated (common practice for
// line and tone, no source).
const (
	leastDPI      = 150
	leastContrast = 100 // of 255, between the darkest and the lightest two hundredth
)

// pictures finds pictures that would be a blur, or that say nothing to whoever
// cannot see them; and any on what is sold, where a picture is presentation of
// the food and needs a decision of its own (Regulation (EU) No 1169/2011,
// article 7(4)). The emblem of the shop is none: it says who sells it.
func pictures(s Sheet, items []page.Item, found *diag.List) {
	for _, it := range items {
		p := it.Picture
		if p == nil || it.Role == role.Emblem {
			continue
		}
		where := at(s, it)
		if s.Market != nil {
			found.Errorf(where, "picture", "show it on the card of the bench only", "%s: a picture on what is sold presents the food", s.What)
		}
		if dpi := dotsAnInch(p.W, it.Box.W); min(dpi, dotsAnInch(p.H, it.Box.H)) < leastDPI {
			found.Errorf(where, "picture", "take a picture of at least 355 × 237 pixels, as for 60 × 40 mm", "%s: the picture has %d dots an inch, less than %d", s.What, dpi, leastDPI)
		}
		if len(p.Alt) == 0 || slices.ContainsFunc(p.Alt, func(a string) bool { return strings.TrimSpace(a) == "" }) {
			found.Errorf(where, "picture", "write under shows: what can be seen on it, in each language of the card", "%s: the picture says nothing to whoever cannot see it", s.What)
		}
		if contrast(p.Gray) < leastContrast {
			found.Errorf(where, "picture", "make it darker and lighter, or draw it", "%s: the picture has too little contrast in grey", s.What)
		}
	}
}

// dotsAnInch is how many of n pixels stand on an inch of a length, rounded.
func dotsAnInch(n int, l unit.Length) int64 {
	return unit.MulDiv(int64(n), int64(unit.Inch), int64(max(l, 1)))
}

// contrast is how far the lightest two hundredth of the pixels is from the darkest.
func contrast(gray []byte) int {
	if len(gray) == 0 {
		return 0
	}
	var count [256]int
	for _, g := range gray {
		count[g]++
	}
	part := max(1, len(gray)/200)
	dark, light := 0, 255
	for n := count[0]; n < part; n += count[dark] {
		dark++
	}
	for n := count[255]; n < part; n += count[light] {
		light--
	}
	return light - dark
}
