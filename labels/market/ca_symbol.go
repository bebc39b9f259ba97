package market

import "chablon/labels/unit"

// caSymbol: the sections and their table were read; the daily values are from
// memory, and so is the day from which on it is due. Saturated fat alone is
// judged, against the daily value of saturated and trans fat together.
func caSymbol(values Cite) Symbol {
	at := func(section string) Cite {
		return readOnDay("2026-11-28", fdr, section).via("the Department of Justice's XML, consolidated 2026-06-15")
	}
	why := func(key, section string) SymbolReason { return SymbolReason{Key: key, Cite: at(section)} }
	return Symbol{
		From: unit.Date{Year: 2026, Month: 1, Day: 1},
		Steps: []SymbolStep{
			{Main: true, Least: 200 * unit.Gram, Share: 30 * unit.Percent},
			{UpTo: 30 * unit.Gram, Share: 10 * unit.Percent},
			{Share: 15 * unit.Percent},
		},
		Of:    []SymbolOf{{"saturates", 20 * One, values}, {"sugars", 100 * One, values}, {"sodium", 2300 * Milli, values}},
		Never: 15 * unit.CM2,
		Small: 30 * unit.CM2,
		Reasons: []SymbolReason{
			{"small-pack", 100 * unit.CM2, at("B.01.350(13), B.01.467")},
			{"packed-where-sold", 200 * unit.CM2, at("B.01.350(13), B.01.401(2)(b)(viii)")},
			why("made-where-sold", "B.01.350(13), B.01.401(2)(b)(v)"),
			why("market-stall", "B.01.350(13), B.01.401(2)(b)(vi)"),
			why("eaten-at-once", "B.01.350(13), B.01.401(2)(b)(vii)"),
			why("for-business", "B.01.350(5)"),
			why("sweetening", "B.01.350(5)"),
			why("salt", "B.01.350(5)"),
			why("fat-or-oil", "B.01.350(5)"),
		},
		Cite: at("B.01.350 to B.01.358 and their table"),
	}
}
