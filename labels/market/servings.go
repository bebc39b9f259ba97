package market

import "chablon/labels/unit"

// Servings is how many servings a pack holds, in halves; About is set where that
// was rounded.
type Servings struct {
	Halves int64
	About  bool
}

// ServingsOf counts the servings of a pack: whole ones, between 2 and 5 halves
// too (21 CFR 101.9(b)(8)(i), seen as a quotation).
func ServingsOf(net, serving unit.Mass) Servings {
	if serving <= 0 || net <= 0 {
		return Servings{}
	}
	step := int64(2)
	if net >= 2*serving && net <= 5*serving {
		step = 1
	}

	halves := (4*int64(net)/int64(serving) + step) / (2 * step) * step

	return Servings{halves, unit.CmpProducts(halves, int64(serving), 2, int64(net)) != 0}
}
