package symbol

import (
	"fmt"

	"chablon/labels/gs1"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/page"
)

// Range gives the limits of GS1 for a kind of symbol in a use; the figures and
// their sources are written in [gs1.Sizes].
func Range(kind string, use gs1.Use) (gs1.Size, error) {
	s, ok := gs1.SizeOf(kind, use)
	if !ok {
		return s, fmt.Errorf("no size is known for %s in %s", kind, use)
	}
	return s, nil
}

// Choose picks the width of a module that is a whole number of the printer's
// dots, lies in the range of GS1 and comes nearest to its target, and the
// least height of the bars for it, rounded up to whole dots. The height is
// zero for a matrix. Without dots the module is the target. It is an error
// when no whole number of dots is in range.
func Choose(kind string, use gs1.Use, dots unit.Dots) (module, height unit.Length, err error) {
	return Fit(kind, use, dots, 1, 1<<62)
}

// Fit is [Choose] with room for so many modules, quiet zones included: of the
// modules that leave the symbol within the room it takes the one nearest to
// the target.
func Fit(kind string, use gs1.Use, dots unit.Dots, modules int, room unit.Length) (module, height unit.Length, err error) {
	s, err := Range(kind, use)
	if err != nil {
		return 0, 0, err
	}
	most := min(s.X[2], room/unit.Length(max(modules, 1)))
	x := min(s.X[1], most)
	if dots.N > 0 {
		x = nearest(s.X[0], s.X[1], most, dots)
	}
	if x < s.X[0] || x > most {
		return 0, 0, cannot(s, dots, modules, room)
	}
	return x, up(s.HeightAt(x), dots), nil
}

// nearest is the whole number of dots, two at least, that lies between least
// and most and nearest to target, the larger of two that are equally near; 0
// when there is none.
func nearest(least, target, most unit.Length, dots unit.Dots) unit.Length {
	best := unit.Length(0)
	for n := max(2, dots.Floor(least)); dots.At(n) <= most; n++ {
		x := dots.At(n)
		if x >= least && (best == 0 || gap(x, target) <= gap(best, target)) {
			best = x
		}
		if x > target {
			break
		}
	}
	return best
}

func gap(a, b unit.Length) unit.Length { return max(a-b, b-a) }

// up rounds a length up to whole dots; what is within a hundredth of a dot
// counts as whole, because a sum of rounded lengths may miss by some
// nanometres.
func up(l unit.Length, dots unit.Dots) unit.Length {
	if dots.N == 0 {
		return l
	}
	near := dots.Snap(l)
	if near < l && gap(near, l) > dots.At(1)/100 {
		near += dots.At(1)
	}
	return dots.Snap(near)
}

func cannot(s gs1.Size, dots unit.Dots, modules int, room unit.Length) error {
	if room < s.X[0]*unit.Length(modules) {
		return fmt.Errorf("%s for %s needs %s at the least, quiet zones included, and there is room for %s: take a larger label", s.Kind, s.Use, s.X[0]*unit.Length(modules), room)
	}
	return fmt.Errorf("%s for %s needs modules of %s to %s, and a printer with %s has no whole number of dots that fits: take a finer printer or a larger label", s.Kind, s.Use, s.X[0], s.X[2], dots)
}

// Modules is how many modules wide a symbol is with its quiet zones.
func Modules(s *page.Symbol) int { return s.Quiet[0] + s.Cols + s.Quiet[2] }

// Room is the size that a symbol takes with its quiet zones, and one dot more
// each way so that [Place] can move it onto the printer's grid.
func Room(s *page.Symbol) (w, h unit.Length) {
	w = s.Bars.W + s.Module*unit.Length(s.Quiet[0]+s.Quiet[2])
	h = s.Bars.H + s.Module*unit.Length(s.Quiet[1]+s.Quiet[3])
	return w + s.Dot, h + s.Dot
}

// Place puts a symbol with its quiet zones at x, y, which is the top left
// corner of the room that it is given. The bars move right and down by less
// than one dot, onto the grid that begins at the sheet's corner. s itself is
// not changed.
func Place(s *page.Symbol, x, y unit.Length) page.Item {
	c := *s
	c.Bars.X = up(x+s.Module*unit.Length(s.Quiet[0]), s.Dots)
	c.Bars.Y = up(y+s.Module*unit.Length(s.Quiet[1]), s.Dots)
	box := page.Rect{
		X: c.Bars.X - s.Module*unit.Length(s.Quiet[0]),
		Y: c.Bars.Y - s.Module*unit.Length(s.Quiet[1]),
		W: c.Bars.W + s.Module*unit.Length(s.Quiet[0]+s.Quiet[2]),
		H: c.Bars.H + s.Module*unit.Length(s.Quiet[1]+s.Quiet[3]),
	}
	return page.Item{Box: box, Role: role.Bars, Symbol: &c}
}
