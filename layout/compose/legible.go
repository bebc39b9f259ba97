package compose

import (
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
)

// From where paper is read (common practice, no source).
const (
	InHand  = 400 * unit.MM
	OnBench = 500 * unit.MM // lying on a bench, or on the shelf above it
)

// Legible gives the least height of capitals that are read from a distance: a
// two-hundredth of it (the rule of the FAA), and for what must not be missed 20
// minutes of arc (NUREG-0700, 1.3.1-4); see labels/market.
func Legible(distance unit.Length) (least, key unit.Length) {
	fraction, _ := market.FindReading("aviation")
	arc, _ := market.FindReading("preferred")
	return fraction.CapHeight(distance), arc.CapHeight(distance)
}

// XOfCap is how high an x is when capitals are so high, in the shipped faces: a
// test holds it against them.
func XOfCap(capital unit.Length) unit.Length { return capital.Mul(74, 100) }

// Heights gives the least x-height of words of some roles whose capitals are at
// least so high, for checking the finished pages.
func Heights(capital unit.Length, roles ...role.Role) map[role.Role]unit.Length {
	out := map[role.Role]unit.Length{}
	for _, r := range roles {
		out[r] = XOfCap(capital)
	}
	return out
}
