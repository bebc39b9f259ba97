package market

import "chablon/labels/unit"

// Edge says on which side of a number a rule holds, and whether the number
// itself belongs to it.
type Edge string

// The edges.
const (
	Below Edge = "<"
	UpTo  Edge = "<="
	Over  Edge = ">"
	From  Edge = ">="
)

// holds reports whether a, compared with b as c says, lies on the edge's side.
func (e Edge) holds(c int) bool {
	switch e {
	case Below:
		return c < 0
	case UpTo:
		return c <= 0
	case Over:
		return c > 0
	case From:
		return c >= 0
	}
	return false
}

// Base is the mass that a share is taken of. The law uses different ones for
// the order of the list, for percentages, for added water and for sulphites;
// mixing them up is a classic mistake.
type Base string

// The bases.
const (
	AtUse       Base = "at-use"       // all ingredients as they go into the bowl
	Finished    Base = "finished"     // the food as it is sold
	UseFinished Base = "use-finished" // mass in the bowl over mass of the finished food
)

// Part is a rule that holds for a certain share of the food.
type Part struct {
	Share unit.Share
	Edge  Edge
	Base  Base
	Cite
}

// Set reports whether the market has this rule.
func (p Part) Set() bool { return p.Edge != "" }

// Holds reports whether the rule holds for a mass in a whole, exactly, without
// first rounding the share. Masses below zero, an empty whole and a rule that
// the market does not have never hold.
func (p Part) Holds(mass, whole unit.Mass) bool {
	if mass < 0 || whole <= 0 {
		return false
	}
	return p.Edge.holds(unit.CmpProducts(int64(mass), int64(unit.Whole), int64(whole), int64(p.Share)))
}

// Min is a least size of type.
type Min struct {
	Least   unit.Length // 0: the law gives no number
	Measure Measure
	Lead    unit.Length // least line pitch, 0 where none is set
	Cite
}

// Measure says which part of the letters is measured.
type Measure string

// The measures.
const (
	XHeight Measure = "x-height" // base line to mean line
	// CapsOrO is the capital height of a line in capitals only, and the height
	// of the lower case o otherwise; the x-height is at most that o.
	CapsOrO Measure = "caps-or-o"
	Digit   Measure = "digit" // height of the figures
	Cap     Measure = "cap"   // capital height
)
