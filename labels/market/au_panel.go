package market

import (
	"chablon/labels/role"
	"chablon/labels/unit"
)

// auPanel: three columns, as the schedule draws them; it sets no sizes, and
// legible is legible: the sizes are our own.
func auPanel() Panel {
	c := readOnDay("2026-11-28", fsc, "Schedule 12, S12-2").via("legislation.gov.au, F2015L00482")
	own := house(fsc, "Standard 1.2.1: legible, no size is set; 7 points")
	types := sized(unit.Point, own, map[string]float64{role.Heading: 9, role.Servings: 7, role.Serving: 7, role.AmountPer: 7, role.Nutrient: 7}, role.Heading)
	lines := []Line{{role.Box, unit.Pts(0.5), own}, {role.Hairline, unit.Pts(0.25), own}}
	return Panel{[]PanelForm{{Key: "columns", Shape: ThreeCols, Types: types, Lines: lines, Cite: c}}, c}
}
