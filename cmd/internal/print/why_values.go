package print

import (
	"fmt"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/explain"
	"chablon/labels/market"
	"chablon/labels/unit"
)

// saidValue says a value of a reason on the terminal.
func saidValue(v declare.Value) string {
	switch v := v.(type) {
	case declare.Percent:
		return decimal(int64(v), int64(unit.Percent), 2).String() + " %"
	case declare.MgPerKg:
		return decimal(int64(v), int64(unit.MgPerKg), 1).String() + " mg/kg"
	case declare.Mass:
		return short(unit.Mass(v))
	case declare.Limit:
		return edge(v.Edge) + " " + saidValue(v.Of)
	case declare.Key:
		return keyWords()[string(v)]
	case declare.IDs:
		var all []string
		for _, id := range v {
			all = append(all, string(id))
		}
		return strings.Join(all, ", ")
	case explain.Amount:
		return short(v.Piece) + " a piece, " + short(v.Per100) + " in 100 g"
	case explain.Life:
		return unit.Life(v).String()
	case explain.Texts:
		return strings.Join(v, ", ")
	case explain.Figure:
		return saidFigure(v)
	case explain.Factors:
		var all []string
		for _, f := range v {
			all = append(all, f.Nutrient+" "+figure(f.Figure.Figure).String())
		}
		return strings.Join(all, ", ")
	}
	return fmt.Sprint(v)
}

// saidFigure is a figure with its unit.
func saidFigure(f explain.Figure) string {
	s := figure(f.Figure).String() + " " + f.Unit
	if f.Less {
		return "less than " + s
	}
	return s
}

// edge says on which side of a limit a rule holds.
func edge(e market.Edge) string {
	return map[market.Edge]string{market.Over: "more than", market.From: "no less than", market.Below: "less than", market.UpTo: "no more than"}[e]
}

// short gives grams with about three figures: 0.726 g, 7.26 g, 41.2 g.
func short(m unit.Mass) string {
	step := 100 * unit.Milligram
	switch {
	case m < unit.Gram:
		step = unit.Milligram
	case m < 10*unit.Gram:
		step = 10 * unit.Milligram
	}
	return m.Round(step).String()
}
