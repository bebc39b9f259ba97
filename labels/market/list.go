package market

import "chablon/labels/unit"

// List is the rule on the ingredient list.
type List struct {
	Order    Order
	Water    Part // added water may be left out up to this share
	Late     Part // ingredients of this share may follow the others in any order
	Blanks   []unit.Share
	Compound Part // the inner list of a compound may be dropped
	// DefinedOnly limits Compound to food whose composition the law defines,
	// and to mixtures of spices or herbs. Allergens and additives with a
	// function are never dropped.
	DefinedOnly bool
	AndOr       Part // alternatives "A and/or B"
	AndOrMost   int  // at most so many alternatives
	Mixture     Part // "spices", "herbs" instead of their names
	Titled      Cite // what wants titles in bold, and entries with a capital letter; zero where nothing does
	SetOff      Cite // what wants a line or a frame at a list; zero where nothing does
	Sugars      Cite // what wants all sugars-based ingredients in brackets behind "Sugars"; zero where nothing does
	Numbers     Cite // what lets the E number of an additive stand for its name; zero where nothing does
	Cite
}

// ENumbers reports whether the E number of an additive may stand for its name.
func (l List) ENumbers() bool { return l.Numbers.Act != "" }

// Order is the rule on the order of the list: falling mass on this base.
type Order struct {
	Base Base
	// WaterBase is the base for added water and volatile ingredients.
	WaterBase Base
	Cite
}

// Threshold gives the least of the figures that the closing phrase may name
// and that every one of the shares keeps to; it reports false when one of them
// is too large, or the market has no such phrase.
func (l List) Threshold(masses []unit.Mass, whole unit.Mass) (unit.Share, bool) {
	best, found := unit.Share(0), false
	for _, b := range l.Blanks {
		fits := len(masses) > 0
		for _, m := range masses {
			fits = fits && Part{Share: b, Edge: UpTo}.Holds(m, whole)
		}
		if fits && (!found || b < best) {
			best, found = b, true
		}
	}
	return best, found
}

// Quid is the rule on the percentage of an ingredient.
type Quid struct {
	Cases    []string // when it is asked for
	Exempt   []string // when it is not
	Base     Base     // as a rule
	Lost     Base     // where moisture was lost
	Volatile Base     // for water and volatile ingredients
	Over     Part     // above this, or a total above this: grams per 100 g
	Cite
}

// Set reports whether the market asks for percentages at all.
func (q Quid) Set() bool { return len(q.Cases) > 0 }

// Figure is a number as it is printed: N × 10^-Decimals.
type Figure struct {
	N        int64
	Decimals int
}

// QuidRounding names the house rule that RoundQuid follows. No rounding rule
// was found in the law.
func QuidRounding() Cite { return house(fic, "Art. 22 and Annex VIII set no rounding") }

// RoundQuid rounds a percentage by the house rule: from 10 % to the nearest
// whole percent, below to one decimal, halves up. A percentage above zero is
// never printed as 0: it becomes 0.1.
func RoundQuid(mass, whole unit.Mass) (Figure, bool) {
	if mass < 0 || whole <= 0 || mass > 1000*whole {
		return Figure{}, false
	}
	if tenths := unit.MulDiv(int64(mass), 1000, int64(whole)); tenths < 100 {
		if tenths == 0 && mass > 0 {
			tenths = 1
		}
		return Figure{tenths, 1}, true
	}
	return Figure{unit.MulDiv(int64(mass), 100, int64(whole)), 0}, true
}

// Trigger is a statement that an ingredient, or a share of one, calls for.
// Key names the statement, Of what is measured. A Trigger whose Edge is empty
// is called for by mere presence.
type Trigger struct {
	Key string
	Of  string
	Part
}

// Called reports whether mass of the thing in whole calls for the statement.
func (t Trigger) Called(mass, whole unit.Mass) bool {
	if t.Edge == "" {
		return mass > 0
	}
	return t.Holds(mass, whole)
}
