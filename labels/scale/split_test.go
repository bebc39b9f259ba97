package scale_test

import (
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/scale"
	"chablon/labels/unit"
)

// What is shown adds up to the sum as shown, and no part is a step off.
func TestSplit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := rapid.SampledFrom([]unit.Mass{unit.Gram, unit.Gram / 10}).Draw(t, "step")
		var exact []unit.Mass
		var sum, shown unit.Mass
		for _, n := range rapid.SliceOfN(rapid.Int64Range(0, 5_000_000_000_000), 0, 30).Draw(t, "masses") {
			exact, sum = append(exact, unit.Mass(n)), sum+unit.Mass(n)
		}
		for i, m := range scale.Split(exact, step) {
			if d := m - exact[i]; d <= -step || d >= step || m%step != 0 {
				t.Fatalf("%s is shown as %s", exact[i], m)
			}
			shown += m
		}
		if shown != sum.Round(step) {
			t.Fatalf("%s shown of %s", shown, sum)
		}
	})
}
