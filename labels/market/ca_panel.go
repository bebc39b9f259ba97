package market

import (
	"chablon/labels/role"
	"chablon/labels/unit"
)

// caPanel: which figure may be taken, and how large the nutrients are in it, was
// read in the regulations. The sizes of the other parts and of the lines stand in
// the figures of the directory, which are pictures and were not read: they are
// those that a government page gives for the figures before 2016.
//
// The table takes the first figure that goes on 15 % of the surface; where none
// does, smaller ones may be taken, and any of them on more of it.
func caPanel() Panel {
	ladder := readOnDay("2026-11-28", fdr, "B.01.454 to B.01.459").via("the Department of Justice's XML, consolidated 2026-06-15")
	form := func(key string, shape Shape, points float64, share unit.Share) PanelForm {
		return PanelForm{Key: key, Shape: shape, Part: share, Narrow: true, Light: []string{"potassium", "calcium", "iron"}, Types: caTypes(points, ladder), Lines: caLines(), Cite: ladder}
	}
	const part = 15 * unit.Percent
	return Panel{[]PanelForm{
		form("3.3(B)", Bilingual, 7, part), form("3.4(B)", Bilingual, 6, part),
		form("4.1(B)", Lying, 7, part), form("4.2(B)", Lying, 6, part),
		form("3.3(B) over 15 %", Bilingual, 7, 0), form("3.4(B) over 15 %", Bilingual, 6, 0),
		form("4.1(B) over 15 %", Lying, 7, 0), form("4.2(B) over 15 %", Lying, 6, 0),
	}, readOnDay("2026-11-28", fdr, "B.01.450").via("the Department of Justice's XML, consolidated 2026-06-15")}
}

// caTypes: the nutrients, the serving and the energy have the size of the figure.
func caTypes(points float64, read Cite) []Type {
	old := memory("Directory of Nutrition Facts Table Formats", "sizes of heading, heads, footnote and white: those of the figures before 2016")
	of := map[string]float64{role.Heading: 13, role.Serving: points, role.Energy: points, role.EnergyIs: points, role.DailyValue: 6,
		role.Nutrient: points, role.Share: points, role.Footnote: 6}
	types := sized(unit.Point, old, of, role.Heading, role.Energy, role.EnergyIs, role.DailyValue)
	for i, t := range types {
		switch t.Part {
		case role.Nutrient, role.Share:
			types[i].Lead, types[i].Cite = 3*unit.Point, read
		case role.Serving, role.Energy, role.EnergyIs:
			types[i].Cite = read
		}
	}
	return types
}

func caLines() []Line {
	old := memory("Directory of Nutrition Facts Table Formats", "lines of half a point, 1 and 2 points: those of the figures before 2016")
	return []Line{{role.Box, unit.Pts(0.5), old}, {role.Hairline, unit.Pts(0.5), old}, {role.ThinBar, unit.Pts(2), old}}
}
