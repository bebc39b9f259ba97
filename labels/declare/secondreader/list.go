// Package secondreader answers: what does the act say, read once more?
//
// It is for tests alone. It was written from the text of the acts, step by step,
// and imports nothing of this project: it has its own sums, its own rounding and
// its own words for what a food is. Where it and labels/declare disagree about a
// food, one of the two has read the act wrongly.
//
// Masses are in milligrams, shares in hundredths of a per cent; quotients are
// exact.
package secondreader

import (
	"math/big"
	"slices"
)

// Food is what was weighed in, and the water that the oven took.
type Food struct {
	Lines []Line
	Lost  int64 // mg
}

// Line is one ingredient as it was weighed.
type Line struct {
	Name  string
	Mass  int64 // mg
	Water bool  // added as such
	Law   bool  // its composition is set in law
	Parts []Part
}

// Part is a part of a compound ingredient.
type Part struct {
	Name     string
	Share    int64 // 1 is 0.01 %
	Additive bool  // with a function in the food
	Allergen bool  // named in the annex on allergens
}

// Entry is one entry of a list of ingredients. Parts are those that stand in
// brackets behind it.
type Entry struct {
	Name   string
	Weight *big.Rat // mg, by which it is ordered
	Parts  []string
}

// Act is an act on the labelling of food.
type Act string

// The acts.
const (
	Union     Act = "Regulation (EU) No 1169/2011"
	Codex     Act = "CXS 1-1985"
	Australia Act = "Food Standards Code, Standard 1.2.4"
	American  Act = "21 CFR 101.4"
)

// AtUse is all that went in.
func (f Food) AtUse() (m int64) {
	for _, l := range f.Lines {
		m += l.Mass
	}
	return m
}

// Finished is what is left of it.
func (f Food) Finished() int64 { return f.AtUse() - f.Lost }

// List is the list of ingredients that an act asks for.
func (f Food) List(a Act) []Entry {
	var out []Entry
	for _, l := range f.each() {
		w := big.NewRat(l.Mass, 1)
		if l.Water {
			var listed bool
			if w, listed = f.water(a); !listed {
				continue
			}
		}
		out = append(out, Entry{l.Name, w, f.inside(l, a)})
	}
	// Art. 18(1): "in descending order of weight, as recorded at the time of
	// their use"; 21 CFR 101.4(a)(1) and CXS 1 4.2.1.2 say the same.
	slices.SortStableFunc(out, func(x, y Entry) int { return y.Weight.Cmp(x.Weight) })
	return out
}

// each names every ingredient once: Art. 18(1), "all the ingredients".
func (f Food) each() (out []Line) {
	for _, l := range f.Lines {
		if i := slices.IndexFunc(out, func(o Line) bool { return o.Name == l.Name }); i >= 0 {
			out[i].Mass += l.Mass
			continue
		}
		out = append(out, l)
	}
	return out
}

// water is the weight of added water, and whether it is listed.
func (f Food) water(a Act) (*big.Rat, bool) {
	var poured, others int64
	for _, l := range f.Lines {
		if l.Water {
			poured += l.Mass
		} else {
			others += l.Mass
		}
	}
	switch a {
	case American: // 101.4(a): an ingredient like all others
		return big.NewRat(poured, 1), true
	case Codex: // 4.2.1.5: added water is declared
		return big.NewRat(poured, 1), true
	}
	// Annex VII Part A point 1: "calculated by deducting from the total amount
	// of the finished product the total amount of the other ingredients used".
	// It cannot be more than was poured in.
	left := max(0, min(poured, f.Finished()-others))
	share := big.NewRat(left, f.Finished())
	five := big.NewRat(5, 100)
	if a == Union { // same point: "does not exceed 5 %"
		return big.NewRat(left, 1), share.Cmp(five) > 0
	}
	return big.NewRat(left, 1), share.Cmp(five) >= 0 // 1.2.4-3(2)(c)(iii): "less than 5 %"
}

// inside are the parts of a compound that stand behind its name.
func (f Food) inside(l Line, a Act) (out []string) {
	if len(l.Parts) == 0 {
		return nil
	}
	parts := slices.Clone(l.Parts)
	slices.SortStableFunc(parts, func(x, y Part) int { return int(y.Share - x.Share) }) // Annex VII Part E 1: a list of its ingredients
	for _, p := range parts {
		if !f.relieved(l, a) || p.Additive || p.Allergen {
			out = append(out, p.Name)
		}
	}
	return out
}

// relieved reports whether the parts of a compound need not be listed, save
// additives and what Art. 21 (or its like) names.
func (f Food) relieved(l Line, a Act) bool {
	all := int64(0)
	for _, o := range f.Lines {
		if o.Name == l.Name {
			all += o.Mass
		}
	}
	share := big.NewRat(all, f.Finished())
	switch a {
	case Union: // Annex VII Part E 2(a): defined in Union rules, "less than 2 % of the finished product"
		return l.Law && share.Cmp(big.NewRat(2, 100)) < 0
	case Codex: // 4.2.1.3: established in a standard, "less than 5 % of the food"
		return l.Law && share.Cmp(big.NewRat(5, 100)) < 0
	case Australia: // 1.2.4-5(5): "less than 5 % of the food"
		return share.Cmp(big.NewRat(5, 100)) < 0
	}
	return false // 101.4(b)(2): no relief
}

// Quantity is a quantity of an ingredient: a share of the food, or, where Grams
// is set, what was used for 100 g of it as a share of those.
type Quantity struct {
	Share *big.Rat
	Grams bool
}

// Quantities are those of the ingredients that are named. Annex VIII 3(a): "the
// quantity of the ingredient at the time of its use" as a percentage; 4(a):
// where moisture is lost, of the finished product, and where one of them or all
// together exceed 100 %, the weight used to prepare 100 g.
func (f Food) Quantities(names []string) map[string]Quantity {
	of := min(f.AtUse(), f.Finished())
	sum, out := new(big.Rat), map[string]Quantity{}
	for _, l := range f.each() {
		if slices.Contains(names, l.Name) && !l.Water {
			s := big.NewRat(l.Mass, of)
			out[l.Name] = Quantity{Share: s}
			sum.Add(sum, s)
		}
	}
	for n, q := range out {
		q.Grams = sum.Cmp(big.NewRat(1, 1)) > 0
		out[n] = q
	}
	return out
}
