package shop

import (
	"testing"

	"chablon/labels/diag"
	"chablon/samples"
)

// The caramel of the demo shop holds 30 + 147.5 + 171.6 + 14.4 = 363.5 g of
// water, of which 253 g boil off: 110.5 g in 760 g, or 14.5 %. The choux paste
// loses 60 g, the poached pear takes up as much syrup as it loses in water.
// Added up by hand from the waters in the ingredients.
func TestWaters(t *testing.T) {
	s := Load(samples.Demo(), &diag.List{})
	w := &waterer{&checker{s, &diag.List{}, map[string]bool{}}, map[string]watery{}}
	for _, c := range []struct{ id, water, mass string }{
		{"passion-caramel", "110.5 g", "760 g"},
		{"pear-syrup", "818.9 g", "1143 g"},
		{"craquelin", "34.125 g", "350 g"}, // 16 + 0.625 + 17.5
	} {
		got := w.formula(s.Formulas[c.id])
		if !got.known || got.water.String() != c.water || got.mass.String() != c.mass {
			t.Errorf("%s: %s of water in %s (known: %v), want %s in %s", c.id, got.water, got.mass, got.known, c.water, c.mass)
		}
	}
}
