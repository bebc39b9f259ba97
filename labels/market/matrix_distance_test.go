package market_test

import (
	"testing"

	"chablon/labels/market"
	"chablon/labels/role"
)

// Before a purchase at a distance all that a prepacked food bears is told, but
// for the date (Regulation (EU) No 1169/2011 Art. 14(1)(a)); batch marks are of
// Directive 2011/91/EU, which asks nothing there.
func TestDistance(t *testing.T) {
	eu := get(t, "eu")
	duty := map[role.Role]market.Duty{}
	far, _ := eu.Matrix(market.Remote)
	for _, r := range far {
		duty[r.Role] = r.Duty
	}
	near, _ := eu.Matrix(market.Prepacked)
	for _, r := range near {
		switch want := r.Duty; {
		case r.Why != "" || r.Role == role.Batch:
		case r.Role == role.Date:
			if duty[r.Role] != market.Free {
				t.Errorf("the date: %s", duty[r.Role])
			}
		case duty[r.Role] != want:
			t.Errorf("%s: %q at a distance, %q on the pack", r.Role, duty[r.Role], want)
		}
	}
}
