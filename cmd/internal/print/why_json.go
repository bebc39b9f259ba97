package print

import (
	_ "embed"
	"encoding/json"

	"chablon/labels/declare"
	"chablon/labels/explain"
	"chablon/labels/market"
	"chablon/labels/unit"
)

//go:embed why.schema.json
var whySchema []byte

// webWhy is an answer as another program reads it.
type webWhy struct {
	Form    int         `json:"form"`
	Product string      `json:"product"`
	Pack    string      `json:"pack"`
	Market  string      `json:"market"`
	Word    string      `json:"word"`
	Piece   json.Number `json:"grams-a-piece"`
	Reasons []webReason `json:"reasons"`
	// Margins are how far the figures behind it may be off, one at a time, before
	// what is watched changes.
	Watched string      `json:"watched,omitempty"`
	Margins []webMargin `json:"margins,omitempty"`
}

// webReason is one reason: its key, its values by name, the same in English,
// where it is written, and what stands behind it.
type webReason struct {
	Reason string                    `json:"reason"`
	Values map[string]map[string]any `json:"values,omitempty"`
	Says   string                    `json:"says"`
	At     *webPlace                 `json:"at,omitempty"`
	Under  []webReason               `json:"because,omitempty"`
}

type webPlace struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
}

// JSON is the answer for another program. A new form of it gets a new number.
func (w *Why) JSON() ([]byte, error) {
	out := webWhy{Form: 1, Product: w.Product.ID, Pack: w.Pack.ID.V, Market: code(w.Market), Word: w.Word,
		Piece: grams(w.piece()), Reasons: webReasons(w.Reasons), Watched: w.About, Margins: webMargins(w.Margins)}
	data, err := json.MarshalIndent(out, "", "  ")
	return append(data, '\n'), err
}

func webReasons(all []*explain.Reason) []webReason {
	var out []webReason
	for _, r := range all {
		one := webReason{Reason: r.Key, Says: saidReason(r), Under: webReasons(r.Under)}
		if r.Pos.Known() {
			one.At = &webPlace{r.Pos.File, r.Pos.Line, r.Pos.Col}
		}
		for name, v := range r.Values {
			if one.Values == nil {
				one.Values = map[string]map[string]any{}
			}
			one.Values[name] = webValue(v)
		}
		out = append(out, one)
	}
	return out
}

// webValue writes a value by its kind, numbers in the unit that their name
// says.
func webValue(v declare.Value) map[string]any {
	switch v := v.(type) {
	case declare.Percent:
		return map[string]any{"percent": decimal(int64(v), int64(unit.Percent), 7)}
	case declare.MgPerKg:
		return map[string]any{"mg-per-kg": decimal(int64(v), int64(unit.MgPerKg), 3)}
	case declare.Mass:
		return map[string]any{"grams": grams(unit.Mass(v))}
	case declare.Day:
		return map[string]any{"day": v.String()}
	case declare.Limit:
		out := webValue(v.Of)
		out["edge"] = map[market.Edge]string{market.Over: "more-than", market.From: "no-less-than", market.Below: "less-than", market.UpTo: "no-more-than"}[v.Edge]
		return out
	case explain.Amount:
		return map[string]any{"grams-a-piece": grams(v.Piece), "grams-per-100-g": grams(v.Per100)}
	case explain.Life:
		return map[string]any{"days": v.Days, "months": v.Months}
	case explain.Figure:
		return whyFigure(v)
	case explain.Factors:
		var all []map[string]any
		for _, f := range v {
			one := whyFigure(f.Figure)
			one["nutrient"] = f.Nutrient
			all = append(all, one)
		}
		return map[string]any{"factors": all}
	}
	return map[string]any{v.Kind(): v} // an id, a key, a count, texts
}

func whyFigure(f explain.Figure) map[string]any {
	out := map[string]any{"figure": figure(f.Figure), "unit": f.Unit}
	if f.Less {
		out["less-than"] = true
	}
	return out
}
