package explain

import (
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/unit"
)

// Reason is one step of an answer: what is so, by which values, where it is
// written, and what stands behind it. Whoever shows it has words for its key,
// and puts the values into them.
type Reason struct {
	Key    string // stable name, one of [Keys]
	Values Values
	Pos    diag.Pos // where it is written; unknown for what follows from other reasons
	Under  []*Reason
}

// Values are the values of a reason by their names; see [Keys] for which there
// are. Beside the types of labels/declare they are those of this file.
type Values map[string]declare.Value

// add puts a reason behind r.
func (r *Reason) add(key string, v Values, pos ...diag.Pos) *Reason {
	one := &Reason{Key: key, Values: v}
	if len(pos) > 0 {
		one.Pos = pos[0]
	}
	r.Under = append(r.Under, one)
	return one
}

// Amount is how much of something is in the food: in one piece, and in 100 g
// of the finished food.
type Amount struct{ Piece, Per100 unit.Mass }

// Kind is "amount".
func (Amount) Kind() string { return "amount" }

// Count is a number of things, or a place in a row.
type Count int64

// Kind is "count".
func (Count) Kind() string { return "count" }

// Life is how long a food keeps.
type Life unit.Life

// Kind is "life".
func (Life) Kind() string { return "life" }

// Texts are names or words, in the language that they are in.
type Texts []string

// Kind is "texts".
func (Texts) Kind() string { return "texts" }

// Figure is a figure of a nutrition declaration in its unit.
type Figure struct {
	market.Figure
	Unit string
	Less bool // less than it
}

// Kind is "figure".
func (Figure) Kind() string { return "figure" }

// Factor is the energy of one gram of a nutrient.
type Factor struct {
	Nutrient string
	Figure
}

// Factors are all that the energy is computed with.
type Factors []Factor

// Kind is "factors".
func (Factors) Kind() string { return "factors" }

// Keys lists the keys of reasons with the names of their values. Decisions of
// labels/declare are reasons with the name of their rule: "about", "got" and
// "limit", as far as the rule has them.
func Keys() map[string][]string {
	keys := map[string][]string{
		"allergen-contained": {"allergen"}, "allergen-may": {"allergen"}, "allergen-undeclared": {"allergen"}, "allergen-unheard": {"allergen"},
		"shown-at": {"names"}, "contains": {"ingredient"}, "law-excepts": {"exception"}, "no-source": nil,
		"supplier-traces": {"ingredient"}, "kitchen-traces": nil, "contained-anyway": nil, "no-traces": nil,
		"sulphites-over": {"product", "got", "limit", "source"}, "sulphites-under": {"product", "got", "limit", "source"},
		"sulphites-from": {"got", "ingredient", "per-100-g", "strength"},

		"water-none": nil, "water-not-in": {"product"}, "water-listed": {"product", "left", "limit"}, "water-unlisted": {"product", "left", "limit"},
		"water-piece": {"poured", "others", "finished"}, "water-left": {"finished", "others", "left", "limit", "source"}, "water-as-used": {"left", "limit", "source"},

		"quantity": {"name", "printed"}, "quantity-of-all": {"used", "of", "share"}, "quantity-of-finished": {"used", "of", "share"},
		"no-such-quantity": {"asked"}, "quantities": {"names"}, "no-quantities": nil,

		"date": {"kind", "end", "made"}, "keeps": {"life"}, "component-keeps": {"product", "life"},

		"nutrient": {"nutrient", "shown", "of", "exact"}, "energy-factors": {"unit", "factors"},
		"rounded-by": {"source"}, "tolerance": {"by", "source"}, "no-tolerance": nil, "divided-by": {"finished", "used"},
		"loss-weighed": {"stage", "of", "lost", "count", "got", "last"}, "loss-assumed": {"stage", "of", "lost"}, "nutrient-share": {"mass", "of", "holds"},
		"nutrient-from": {"amount", "ingredient", "source"}, "nutrient-from-others": {"count"},

		"ingredient": {"ingredient", "bought-as"}, "in-list": {"name", "place", "of"}, "in-list-inside": {"name", "inside"}, "not-in-list": nil,
		"amount": {"amount"}, "declared-with": {"ingredients"}, "inner": {"name", "share"}, "inner-unnamed": {"name", "ingredient"},
		"also-part-of": {"ingredients"}, "comes-in": nil, "by-component": {"product"}, "through": {"formula", "amount"},
		"as": {"ingredient", "amount"}, "as-soaked-up": {"ingredient", "amount"},
		"specification-kept": {"version", "dated", "supplier"}, "specification": {"version", "dated", "supplier", "review-by"}, "no-specification": nil,

		"formula": {"formula", "version"}, "version-of": {"issued"}, "formula-comes-in": {"amount"}, "together": {"amount"}, "made-of": {"ingredients"},
		"unused-ingredient": {"ingredient"}, "unused-formula": {"formula"}, "used-nowhere": nil, "used-by": {"products"},
	}
	for _, r := range declare.Rules() {
		keys[string(r)] = []string{"about", "got", "limit"}
	}
	return keys
}

// decided puts a decision behind r.
func (r *Reason) decided(d declare.Decision) {
	v := Values{"about": declare.ID(d.Part)}
	if d.Got != nil {
		v["got"] = d.Got
	}
	if d.Limit != nil {
		v["limit"] = d.Limit
	}
	r.add(string(d.Rule), v, d.Pos)
}
