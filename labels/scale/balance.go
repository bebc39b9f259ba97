package scale

import (
	"math/big"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Component is one figure of a balance.
type Component string

// The components. Cocoa is total dry cocoa solids, cocoa butter included;
// milk solids include milk fat.
const (
	Water       Component = "water"
	Fat         Component = "fat"
	Sugars      Component = "sugars"
	Cocoa       Component = "cocoa"
	CocoaButter Component = "cocoa-butter"
	MilkFat     Component = "milk-fat"
	MilkSolids  Component = "milk-solids"
)

// Components lists the components in the order in which they are shown.
func Components() []Component {
	return []Component{Water, Fat, Sugars, Cocoa, CocoaButter, MilkFat, MilkSolids}
}

// Figure is how much of a component is in the finished formula: a share, and
// the ingredients that do not say. With any of those, the share is a floor.
type Figure struct {
	Component Component
	Share     unit.Share
	Unknown   []string // ids, sorted
}

// Known reports whether every ingredient says how much it brings.
func (f Figure) Known() bool { return len(f.Unknown) == 0 }

// Balance gives what the finished formula holds: for each component the sum of
// mass × share of the ingredients over the finished mass; water less what
// evaporates. Nothing when the formula gives nothing. Other losses take of all
// alike.
func Balance(sh *shop.Shop, f *shop.Formula) []Figure {
	out := f.Out()
	if out <= 0 {
		return nil
	}
	parts := ExpandFormula(sh, f, out)
	var all []Figure
	for _, c := range Components() {
		fig := Figure{Component: c}
		sum := new(big.Rat)
		var in unit.Mass
		for _, p := range parts {
			in += p.Mass
			s, ok := has(p.Ingredient, c)
			if !ok && p.Mass > 0 && !slices.Contains(fig.Unknown, p.Ingredient.ID) {
				fig.Unknown = append(fig.Unknown, p.Ingredient.ID)
			}
			sum.Add(sum, mul(rat(p.Mass, 1), rat(s, whole)))
		}
		if c == Water {
			sum.Sub(sum, rat(max(in-out, 0), 1))
		}
		if sum.Sign() < 0 {
			sum.SetInt64(0) // more evaporated than the figures have; rounding
		}
		fig.Share = unit.Share(mass(times(quo(sum, rat(out, 1)), whole)))
		slices.Sort(fig.Unknown)
		all = append(all, fig)
	}
	return all
}

// has gives the share of a component in an ingredient; false where its file
// does not tell. Cocoa is only in what says so under traits; milk is in what
// contains it and must then say how much.
func has(i *shop.Ingredient, c Component) (unit.Share, bool) {
	if s, ok := i.Trait(string(c)); ok && c != Fat && c != Water {
		return s, true
	}
	switch c {
	case Water:
		return i.Water.V, i.Water.Set()
	case Fat:
		if i.Per100 != nil && i.Per100.Fat.Set() {
			return i.Per100.Fat.V.In(100 * unit.Gram), true
		}
		return i.Trait("fat")
	case Sugars:
		if i.Per100 != nil && i.Per100.Sugars.Set() {
			return i.Per100.Sugars.V.In(100 * unit.Gram), true
		}
		return 0, false
	case CocoaButter:
		_, cocoa := i.Trait(string(Cocoa))
		return 0, !cocoa
	case Cocoa:
		s, _ := i.Trait(string(CocoaButter)) // cocoa butter alone is cocoa too
		return s, true
	}
	return 0, !slices.ContainsFunc(i.Contains, func(t shop.Text) bool { return t.V == "milk" })
}
