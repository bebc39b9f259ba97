package scale

import (
	"cmp"
	"math/big"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

const whole = unit.Whole

// Amount is how much of one line goes in.
type Amount struct {
	Line       shop.Line
	Ingredient *shop.Ingredient // exactly one of these two is set
	Formula    *shop.Formula
	Written    unit.Mass // as the formula has it, before gelatine of another strength stands for it
	Exact      unit.Mass // what is weighed
	Shown      unit.Mass // on the scale's display
	Step       unit.Mass // of that display
	Small      bool      // weighed on the small scale
	Coarse     bool      // under 50 steps: the error may pass 1 %
	Halves     int64     // of a piece, as a hint: 5 is about 2½ eggs; 0 for none
	Buy        unit.Mass // as bought, before peeling; 0 where nothing is peeled away
}

// medium gives the formula of what f is cooked in, or nil.
func medium(sh *shop.Shop, f *shop.Formula) *shop.Formula {
	if f.CookedIn == nil {
		return nil
	}
	return sh.Formulas[f.CookedIn.Use.V]
}

// mediumMade is how much of its medium f as written needs: the mass it says,
// or all that the medium's formula gives.
func mediumMade(f, medium *shop.Formula) unit.Mass {
	if f.CookedIn.Make.Set() {
		return min(max(f.CookedIn.Make.V, 0), shop.MaxMass)
	}
	return medium.Out()
}

func amount(sh *shop.Shop, l shop.Line, m *big.Rat) Amount {
	a := Amount{Line: l, Ingredient: sh.Ingredients[l.Use.V], Formula: sh.Formulas[l.Use.V], Written: mass(m), Exact: mass(m)}
	if a.Ingredient == nil {
		return a
	}
	m = mul(m, replaced(l, a.Ingredient))
	a.Exact = mass(m)
	if s := a.Ingredient.Edible.V; s > 0 && s < whole {
		a.Buy = mass(mul(m, rat(whole, s)))
	}
	if pc := a.Ingredient.Piece; pc != nil && pc.Mass.V > 0 {
		a.Halves = int64(mass(mul(m, rat(2, pc.Mass.V))))
	}
	return a
}

// column rounds each amount of a column to the nearest step of the scale that it
// is weighed on, so that equal amounts show equal, and none to nothing. It
// returns what they are together: their exact sum at the coarsest of their
// steps, which is not always the sum of what is shown.
func column(sh *shop.Shop, col []Amount) unit.Mass {
	scales := scalesOf(sh)
	var exact, coarsest unit.Mass
	for i := range col {
		a := &col[i]
		sc := pick(scales, a.Exact)
		a.Step, a.Small = sc.Step.V, sc.Small.V
		a.Coarse = a.Exact > 0 && a.Exact/50 < a.Step
		a.Shown = a.Exact.Round(a.Step)
		if a.Shown == 0 && a.Exact > 0 {
			a.Shown = a.Step
		}
		exact, coarsest = exact+a.Exact, max(coarsest, a.Step)
	}
	if coarsest == 0 {
		return 0
	}
	return exact.Round(coarsest)
}

// scalesOf gives the scales of the bench from small to large. A shop that
// names none gets 0.1 g up to 50 g, 1 g up to 1 kg and 5 g above.
func scalesOf(sh *shop.Shop) []shop.Scale {
	scales := slices.DeleteFunc(slices.Clone(sh.Profile.Scales), func(s shop.Scale) bool {
		return s.Step.V <= 0 || s.UpTo.V <= 0
	})
	if len(scales) == 0 {
		var fine, kitchen, large shop.Scale
		fine.UpTo.V, fine.Step.V, fine.Small.V = 50*unit.Gram, 100*unit.Milligram, true
		kitchen.UpTo.V, kitchen.Step.V = unit.Kilogram, unit.Gram
		large.UpTo.V, large.Step.V = shop.MaxMass, 5*unit.Gram
		return []shop.Scale{fine, kitchen, large}
	}
	slices.SortStableFunc(scales, func(a, b shop.Scale) int { return cmp.Compare(a.UpTo.V, b.UpTo.V) })
	return scales
}

// pick gives the smallest scale that bears m, or the largest there is.
func pick(scales []shop.Scale, m unit.Mass) shop.Scale {
	for _, s := range scales {
		if m <= s.UpTo.V {
			return s
		}
	}
	return scales[len(scales)-1]
}
