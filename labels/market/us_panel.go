package market

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// usPanel: the sizes are the law's; how thick its lines are it does not say, and
// they are drawn as the illustration of its appendix shows them. The text of the
// paragraphs was not read, only quotations of some of them.
func usPanel() Panel {
	d := func(article string) Cite { return memory(cfr, article) }
	vertical := map[string]float64{role.Heading: 16, role.Servings: 10, role.Serving: 10, role.AmountPer: 6, role.Energy: 16, role.EnergyIs: 22,
		role.DailyValue: 6, role.Nutrient: 8, role.Share: 8, role.Mineral: 8, role.Footnote: 6}
	tabular := map[string]float64{role.Heading: 10, role.Servings: 10, role.Serving: 9, role.AmountPer: 6, role.Energy: 10, role.EnergyIs: 22,
		role.DailyValue: 6, role.Nutrient: 8, role.Share: 8, role.Mineral: 8, role.Footnote: 6}
	small := map[string]float64{role.Heading: 10, role.Servings: 9, role.Serving: 9, role.AmountPer: 6, role.Energy: 10, role.EnergyIs: 14,
		role.DailyValue: 6, role.Nutrient: 8, role.Share: 8, role.Mineral: 8, role.Footnote: 6}
	form := func(key string, shape Shape, points map[string]float64, c Cite) PanelForm {
		return PanelForm{Key: key, Shape: shape, Types: usTypes(points), Lines: usLines(), Cite: c}
	}
	forms := []PanelForm{
		form("vertical", Upright, vertical, d("101.9(d)(12)")),
		form("side-by-side", SideNote, vertical, d("101.9(d)(11)(i), (ii)")),
		form("tabular", Tabular, tabular, d("101.9(d)(11)(iii)")),
		form("small-tabular", Tabular, small, d("101.9(j)(13)(ii)(A)(1)")),
		form("linear", Linear, small, d("101.9(j)(13)(ii)(A)(2)")),
	}
	for i := 3; i < 5; i++ {
		forms[i].UpTo, forms[i].Short = 40*unit.In2, true
	}
	linear := &forms[4]
	linear.Lines = linear.Lines[:1] // a box, and no lines between running words
	linear.Types = slices.DeleteFunc(linear.Types, func(t Type) bool { return t.Part == role.DailyValue })
	return Panel{forms, d("101.9(d)")}
}

// usTypes: four points of white between the lines of nutrients, vitamins and
// minerals, one elsewhere. Bold are the headings, what is not indented, and the
// percentages; nothing else may be.
func usTypes(points map[string]float64) []Type {
	types := sized(unit.Point, memory(cfr, "101.9(d)(1)(ii)(C), (iii), (d)(2) to (9)"), points,
		role.Heading, role.Serving, role.AmountPer, role.Energy, role.EnergyIs, role.DailyValue, role.Share)
	for i, t := range types {
		switch t.Part {
		case role.Nutrient, role.Share, role.Mineral:
			types[i].Lead = 4 * unit.Point
		}
	}
	return types
}

func usLines() []Line {
	c := house(cfr, "101.9(d)(1)(i): no thickness is set; drawn as in the illustration of appendix B")
	return []Line{{role.Box, unit.Pts(0.5), c}, {role.Bar, unit.Pts(7), c}, {role.ThinBar, unit.Pts(3), c}, {role.Hairline, unit.Pts(0.25), c}}
}
