package scale_test

import (
	"testing"

	"chablon/labels/scale"
	"chablon/labels/unit"
)

// What the pan weighs, by hand from lines and losses of the demo shop: choux
// paste 250 + 250 + 225 + 5 + 10 + 275 − 60 g, before the 480 g of egg go in;
// caramel 300 + 150 + 250 + 220 + 90 + 3 − 253 g.
func TestEndWeight(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct {
		formula string
		step    int
		want    unit.Mass
	}{{"choux-paste", 0, 955 * unit.Gram}, {"passion-caramel", 0, 760 * unit.Gram}, {"choux-paste", 1, 0}, {"poached-pear", 0, 0}} {
		f := sh.Formulas[c.formula]
		for _, times := range []unit.Mass{1, 3} {
			b, err := scale.Mass(sh, f, f.Out()*times)
			if err != nil {
				t.Fatal(err)
			}
			got, ok := b.EndWeight(f, &f.Steps[c.step])
			if ok != (c.want > 0) || got.Round(unit.Gram) != c.want*times {
				t.Errorf("%s, step %s, %d times: %s, %v; want %s", c.formula, f.Steps[c.step].ID.V, times, got, ok, c.want*times)
			}
		}
	}
}
