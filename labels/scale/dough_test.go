package scale_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

func fahrenheit(deg ...int64) []unit.Temp {
	var all []unit.Temp
	for _, d := range deg {
		all = append(all, unit.Fahrenheit(d))
	}
	return all
}

// Water for a dough: material of the San Francisco Baking Institute as quoted
// (75 °F, room and flour 65 °F, friction 8 °F: 87 °F); Pizza Today, June 2018
// (80, 65, 75, 35: 65 °F); a published test-kitchen article with a preferment
// (75, three times 71, 20: 67 °F). All friction is a difference of °F.
func TestDoughWater(t *testing.T) {
	for _, c := range []struct {
		wanted, friction int64
		others           []unit.Temp
		want             int64
	}{
		{75, 8, fahrenheit(65, 65), 87},
		{80, 35, fahrenheit(65, 75), 65},
		{75, 20, fahrenheit(71, 71, 71), 67},
	} {
		d := scale.Dough{Wanted: unit.Fahrenheit(c.wanted), Others: c.others, Friction: unit.TempDiff(c.friction) * unit.DegF}
		if got := d.Water(); got != unit.Fahrenheit(c.want) {
			t.Errorf("%d °F dough: water of %v °F, want %d", c.wanted, got.F(), c.want)
		}
		if got := scale.Friction(d.Wanted, d.Water(), d.Others...); got != d.Friction {
			t.Errorf("that mix tells a friction of %s, not %s", got, d.Friction)
		}
	}
	// In °C the same: 24 °C, flour 22, room 21, friction 6 K: 23 °C (by hand).
	d := scale.Dough{Wanted: unit.Celsius(24), Others: []unit.Temp{unit.Celsius(22), unit.Celsius(21)}, Friction: 6 * unit.DegC}
	if got := d.Water(); got != unit.Celsius(23) {
		t.Errorf("water of %s, want 23 °C", got)
	}
	// A friction of 35 °F is 19.4 °C, not the 1.7 °C of a temperature: the
	// second example is 18.3 °C, where that mistake gives 36.1 °C.
	d = scale.Dough{Wanted: unit.Fahrenheit(80), Others: fahrenheit(65, 75), Friction: 35 * unit.DegF}
	if got := fmt.Sprintf("%.1f", d.Water().C()); got != "18.3" {
		t.Errorf("water of %s °C", got)
	}
}

// 3 × 24 − 6 = 66: less 22 for flour and 21 for the room, 23 °C of water; with
// a preferment 4 × 24 − 6 = 90.
func TestWaterFrom(t *testing.T) {
	f := &shop.Formula{}
	if _, _, ok := scale.WaterFrom(f); ok {
		t.Error("no dough wants no water")
	}
	f.Dough = &shop.Warmth{Wanted: at(unit.Celsius(24)), Friction: at(6 * unit.DegC)}
	if from, off, ok := scale.WaterFrom(f); !ok || off != 2 || from != unit.Celsius(66) {
		t.Errorf("from %s, %d off", from, off)
	}
	f.Dough.Preferment = at("levain")
	if from, off, _ := scale.WaterFrom(f); off != 3 || from != unit.Celsius(90) {
		t.Errorf("with a preferment: from %s, %d off", from, off)
	}
}

func ExampleDough_Water() {
	d := scale.Dough{Wanted: unit.Celsius(24), Others: []unit.Temp{unit.Celsius(22), unit.Celsius(21)}, Friction: 6 * unit.DegC}
	fmt.Println(d.Water())
	// Output: 23 °C
}

// 10 kg of dough 4 K too warm, wanted at 24 °C: 0.27 kg of ice (by hand from a
// melting heat of 334 kJ/kg, 4.19 kJ/(kg K) for water and 2.9 for dough).
func TestIce(t *testing.T) {
	if got := scale.IceForDough(10*unit.Kilogram, 4*unit.DegC, unit.Celsius(24)); !near(got, "267") {
		t.Errorf("ice for 10 kg of dough: %s", got)
	}
	for _, none := range []unit.Mass{scale.IceForDough(0, unit.DegC, 0), scale.IceForDough(unit.Kilogram, -unit.DegC, 0), scale.IceForDough(unit.Kilogram, unit.DegC, unit.Celsius(-90))} {
		if none != 0 {
			t.Errorf("%s of ice for nothing", none)
		}
	}
	if got, err := scale.Ice(unit.Kilogram, unit.Celsius(20), unit.Celsius(0)); err != nil || got != 200*unit.Gram {
		t.Errorf("a litre of 20 °C to 0 °C: %s, %v; want 20 parts in 100", got, err)
	}
	if got, err := scale.Ice(unit.Kilogram, unit.Celsius(8), unit.Celsius(10)); got != 0 || err != nil {
		t.Errorf("the tap is cold enough: %s, %v", got, err)
	}
	if _, err := scale.Ice(unit.Kilogram, unit.Celsius(20), unit.Celsius(-85)); err == nil {
		t.Error("ice made water of -85 °C")
	}
}

// The heat that the ice takes up is the heat that the rest of the water gives:
// m(tap − w) = ice × (80 + w), with the rest at w.
func TestIceBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		water := unit.Mass(rapid.Int64Range(1, 50_000).Draw(t, "g")) * unit.Gram
		tap := rapid.Int64Range(1, 40).Draw(t, "tap")
		want := rapid.Int64Range(0, tap).Draw(t, "want")
		ice, err := scale.Ice(water, unit.Celsius(tap), unit.Celsius(want))
		if err != nil {
			t.Fatal(err)
		}
		gives, takes := (water-ice).Grams()*float64(tap-want), ice.Grams()*float64(80+want)
		if d := gives - takes; d > 0.001 || d < -0.001 {
			t.Fatalf("%s of ice: gives %v, takes %v", ice, gives, takes)
		}
	})
}

// Where water boils at 205 °F, a syrup for 280 °F is cooked to 273 °F (Utah
// State University extension, question 453).
func TestAltitude(t *testing.T) {
	target := func(s string) unit.Target {
		x, err := unit.ParseTarget(s)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	if got := scale.Boiled(target("280 °F"), unit.Fahrenheit(205)); got.Lo != unit.Fahrenheit(273) || got.Hi != got.Lo || !got.InF {
		t.Errorf("%v °F, want 273", got.Lo.F())
	}
	metre := 1000 * unit.MM
	for _, c := range []struct {
		of, kind, reach string
		height          unit.Length
		boils           unit.Temp
		want            unit.Temp
		changed         bool
	}{
		{"marshmallow", "boil", "118 °C", 0, 0, unit.Celsius(118), false},
		{"marshmallow", "boil", "118 °C", 600 * metre, 0, unit.Celsius(116), true},
		{"marshmallow", "boil", "118 °C", -300 * metre, 0, unit.Celsius(119), true},
		{"marshmallow", "boil", "118 °C", 500 * metre, 0, unit.Celsius(118) - 3*unit.Temp(unit.DegC)/2, true}, // 1.67 °C
		{"marshmallow", "boil", "118 °C", 600 * metre, unit.Celsius(99), unit.Celsius(117), true},             // the probe knows better
		{"syrup", "cook", "111 ± 1 °C", 1500 * metre, 0, unit.Celsius(106), true},
		{"caramel", "cook", "175 °C", 600 * metre, 0, unit.Celsius(175), false},
		{"soft-caramel", "cook", "175 °C", 600 * metre, 0, unit.Celsius(175), false},
		{"soft-caramel", "cook", "80 °C", 600 * metre, 0, unit.Celsius(80), false},
		{"choux", "bake", "120 °C", 600 * metre, 0, unit.Celsius(120), false},
	} {
		p := &shop.Profile{}
		if c.height != 0 {
			p.Altitude = at(c.height)
		}
		if c.boils != 0 {
			p.Boils = at(c.boils)
		}
		st := &shop.Step{Kind: at(c.kind), Of: at(c.of)}
		st.Reach = append(st.Reach, shop.Reach{To: at(target(c.reach))})
		got, changed := scale.Reach(p, st)
		if got[0].Mid() != c.want || changed != c.changed {
			t.Errorf("%s at %s, %s high: %s, %v", c.of, c.reach, c.height, got[0], changed)
		}
	}
}
