package sale

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/text"
)

// way is one arrangement.
type way struct {
	table bool        // the nutrition declaration as a table, not as lines
	over  bool        // the facts over the bar code, not beside it
	airy  bool        // white between blocks that belong together less
	code  *codes      // bar code and batch mark in one of their forms; nil without
	wide  bool        // the operator below the lists, which leaves a table more room
	grid  unit.Length // that baselines stand on; 0 for none, where no step leaves room
	drawn *drawn      // the nutrition declaration as the panel of its market; nil without
}

// grids are the steps that baselines may stand on, the best first. What goes on
// the paper without them is not refused for their sake.
func (c *label) grids() []unit.Length {
	if dot := c.Dots.At(1); dot > 0 {
		return []unit.Length{quarter, dot, 0}
	}
	return []unit.Length{quarter, 0}
}

// ways lists the arrangements to try, the best first; an earlier group is taken
// whenever it fits. Reg. (EU) 1169/2011 Art. 34(2): a table if space permits,
// lines otherwise. Words of several languages side by side make a table wide,
// so it has more room when the facts stand over the bar code.
func (c *label) ways() [][]way {
	beside, over := []way{{airy: true}, {}}, []way{{over: true, airy: true}, {over: true}}
	wide := []way{{wide: true, airy: true}, {wide: true}}
	lines := slices.Concat(wide, beside, over)
	if c.forms[0] == nil {
		lines = beside
	} else if c.several() {
		lines = slices.Concat(over, wide, beside)
	}
	if len(c.Told) == 0 || c.Told[0].Table == nil {
		return c.formed(lines)
	}
	if len(c.panels) > 0 {
		return c.withPanels(lines)
	}
	var tables []way
	for _, w := range lines {
		w.table = true
		tables = append(tables, w)
	}
	if !slices.Contains(c.Facts.Market.Nutrition.Per, "100g") {
		return c.formed(tables) // C.R.C., c. 870, B.01.450: a panel
	}
	return c.formed(tables, lines)
}

// formed is each group with the codes in each of their forms, the first form
// first.
func (c *label) formed(groups ...[]way) (out [][]way) {
	for _, group := range groups {
		var all []way
		for _, f := range c.forms {
			for _, w := range group {
				w.code = f
				all = append(all, w)
			}
		}
		out = append(out, all)
	}
	return out
}

// best is an arrangement of the first group of which any fits: the first that
// fits, or a later one whose letters are larger by more than a twentieth. Where
// none fits it is nil, with what is wrong with the last.
func (c *label) best() (*layout, error) {
	var last error
	for _, group := range c.ways() {
		for _, step := range c.grids() {
			best, err := c.among(group, step)
			if best != nil {
				return best, nil
			}
			last = err
		}
	}
	return nil, last
}

// among is the best of a group on one grid, or why none fits.
func (c *label) among(group []way, step unit.Length) (best *layout, last error) {
	for _, how := range group {
		how.grid = step
		sizes := c.sizes(step)
		if best != nil {
			sizes = slices.DeleteFunc(sizes, func(size unit.Length) bool { return size <= best.size*21/20 })
		}
		l, _, err := compose.BestOf(sizes, func(size unit.Length) (*layout, error) { return c.try(how, size) })
		if err == nil {
			best = l
		} else if best == nil {
			last = err
		}
	}
	return best, last
}

// house is the least x-height where the law of a market gives no number
// ("easily legible"): the smaller one of Reg. (EU) 1169/2011 Art. 13(3).
const house = 900 * unit.UM

// least is the smallest size of the face that the market allows for every
// particular on this pack.
func (c *label) least() unit.Length {
	x := house
	for _, what := range []role.Role{"", role.List, role.Name} {
		x = max(x, c.Facts.Market.XHeightOf(what, c.Pack.Face.V).Least)
	}
	return c.paper.Faces.Regular.SizeForX(x)
}

// most is the largest size that is tried: beyond it a label looks like a poster.
func (c *label) most() unit.Length { return max(c.least(), text.Hundredths(1000)) }

// fineness is the step between sizes that are tried where no dots are known, in
// hundredths of a point.
const fineness = 10

// sizes are those to try: on a grid an x is a whole number of dots high.
func (c *label) sizes(grid unit.Length) []unit.Length {
	dots := c.Dots
	if grid == 0 {
		dots = unit.Dots{}
	}
	return compose.Dotted(c.paper.Faces.Regular, dots, c.least(), c.most(), fineness)
}
