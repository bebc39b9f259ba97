package audit

import (
	"strings"

	"chablon/labels/declare"
	"chablon/labels/market"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
)

// value says a value of a decision in the language of the sheet: shares and
// masses with two decimals at most, mg/kg with one.
func (t *teller) value(v declare.Value) string {
	switch v := v.(type) {
	case declare.Percent:
		n, decimals := trimmed(int64(v), int64(unit.Percent), 2)
		return t.Audit.Lang.Percent(n, decimals)
	case declare.MgPerKg:
		n, decimals := trimmed(int64(v), int64(unit.MgPerKg), 1)
		return t.Audit.Lang.Plain(n, decimals) + compose.NoBreak + "mg/kg"
	case declare.Mass:
		n, decimals := trimmed(int64(v), int64(unit.Gram), 2)
		return t.Audit.Lang.Plain(n, decimals) + compose.NoBreak + "g"
	case declare.Day:
		return t.Audit.Lang.Date(unit.Date(v), words.Day)
	case declare.Limit:
		return sign(v.Edge) + compose.NoBreak + t.value(v.Of)
	case declare.Key:
		return t.Word("audit.why." + string(v))
	case declare.ID:
		return t.called(string(v))
	case declare.IDs:
		var all []string
		for _, id := range v {
			all = append(all, t.called(string(id)))
		}
		return strings.Join(all, ", ")
	case declare.Text:
		return string(v)
	}
	return ""
}

// sign is an edge as it is printed.
func sign(e market.Edge) string {
	return map[market.Edge]string{market.Below: "<", market.UpTo: "≤", market.Over: ">", market.From: "≥"}[e]
}

// trimmed is v in the given unit, rounded to some decimals, without zeros at
// its end.
func trimmed(v, of int64, decimals int) (int64, int) {
	scale := int64(1)
	for range decimals {
		scale *= 10
	}
	n := unit.MulDiv(v, scale, of)
	for decimals > 0 && n%10 == 0 {
		n, decimals = n/10, decimals-1
	}
	return n, decimals
}
