package preflight

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/emblem"
	"chablon/layout/page"
)

// Tint is the colour of a paper: its lightness L* (CIE 1976), 0 for black and 100
// for white, and its hue, "" for none. The zero Tint is white.
type Tint struct {
	Lightness int64
	Hue       string
}

// What words and bars ask of the paper that they stand on: words a contrast of
// 7 to 1 (WCAG 2.1, 1.4.6), bars a difference in reflectance of 40 % for the
// grade C (ISO/IEC 15416, table 1; from memory), both on our own account.
const (
	leastRatio      = 7.0
	leastDifference = 0.40
	ink             = 0.05 // what black reflects
)

// reflects is how much light a paper gives back: its luminance by CIE 1976.
func (t Tint) reflects() float64 {
	if t.Lightness == 0 {
		return 1
	}
	y := (float64(t.Lightness) + 16) / 116
	return y * y * y
}

// swallowsRed reports whether a paper looks black to a scanner, whose light is
// red, of 660 nm.
func (t Tint) swallowsRed() bool { return slices.Contains([]string{"green", "blue", "violet"}, t.Hue) }

// onTint finds words and bars that do not stand out from a paper that is not white.
func onTint(s Sheet, items []page.Item, found *diag.List) {
	if s.Tint == (Tint{}) {
		return
	}
	y := s.Tint.reflects()
	for _, it := range items {
		switch {
		case it.Run != nil && it.Role != role.Draft && (y+0.05)/0.05 < leastRatio:
			found.Errorf(at(s, it), "tint", "take a lighter paper", "%s: words stand out from a paper of lightness %d by %.1f to 1, and must by 7 to 1 (WCAG 2.1, 1.4.6)", s.What, s.Tint.Lightness, (y+0.05)/0.05)
			return
		case it.Symbol != nil && s.Tint.swallowsRed():
			found.Errorf(at(s, it), "tint", "print it on white, cream, yellow, orange or red paper, or without a code", "%s: to a scanner's red light %s paper is black, and so is the %s on it", s.What, s.Tint.Hue, it.Symbol.Kind)
		case it.Symbol != nil && y-ink < leastDifference:
			found.Errorf(at(s, it), "tint", "take a lighter paper, or print it without a code", "%s: the %s stands out from a paper of lightness %d by %.0f %%, and must by 40 %% (ISO/IEC 15416)", s.What, it.Symbol.Kind, s.Tint.Lightness, 100*max(0, y-ink))
		}
	}
}

// What a thermal head bears for long: no black larger than 12 × 12 mm, and no
// more than 15 % of a label (common practice, no source).
const (
	mostSquare = 12 * unit.MM
	mostBlack  = 15 // of 100
)

// wears cautions of black that burns the head of a thermal printer, sticks to
// its ribbon, and curls the label.
func wears(s Sheet, items []page.Item, found *diag.List) {
	if !s.Thermal {
		return
	}
	black, square := emblem.Solid(items, s.Area)
	if square > mostSquare {
		found.Warnf(s.Src, "head-wear", "leave white in it, or make it smaller", "%s: an area of %.1f × %.1f mm is all black, and more than 12 × 12 mm wears a thermal printer", s.What, square.MM(), square.MM())
	}
	if all := unit.AreaOf(s.Area.W, s.Area.H); black*100 > all*mostBlack {
		found.Warnf(s.Src, "head-wear", "leave more of it white", "%s: %d %% of it is all black, and more than %d %% wears a thermal printer", s.What, black*100/all, mostBlack)
	}
}

// overTheCut finds bars whose white reaches over the edge of the label: it may
// lie in the margin, but the next label, or the table, is not white.
func overTheCut(s Sheet, items []page.Item, found *diag.List) {
	for _, it := range items {
		if it.Symbol != nil && s.Area != (page.Rect{}) && !s.Area.Contains(it.Box) {
			found.Errorf(at(s, it), "cut", "choose a larger paper", "%s: the white that the %s needs reaches over the edge of the label", s.What, it.Symbol.Kind)
		}
	}
}
