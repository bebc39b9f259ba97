package scale

import (
	"fmt"
	"math/big"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Dough is what is known before a dough is mixed: the temperature it is wanted
// at, those of all that goes in but the water (flour, a preferment), that of
// the room, and by how much the mixer warms it. Friction is a difference.
type Dough struct {
	Wanted   unit.Temp
	Others   []unit.Temp
	Friction unit.TempDiff
}

// Water gives the temperature that the water must have: the wanted one, once
// for each of the others and once for the water, less the others and the
// friction (San Francisco Baking Institute, dough temperature; three times for
// a straight dough: flour, room, water). It holds where all count about the
// same; the first mix on a new machine tells the friction: [Friction].
func (d Dough) Water() unit.Temp {
	t := d.Wanted*unit.Temp(len(d.Others)+1) - unit.Temp(d.Friction)
	for _, o := range d.Others {
		t -= o
	}
	return t
}

// WaterFrom gives what a card can print of it before anything is measured:
// the number from which room, flour and, where there is one, preferment are
// taken off to give the water, and how many are taken off. False where the
// formula wants no temperature.
func WaterFrom(f *shop.Formula) (from unit.Temp, off int, ok bool) {
	w := f.Dough
	if w == nil || !w.Wanted.Set() {
		return 0, 0, false
	}
	off = 2
	if w.Preferment.Set() {
		off = 3
	}
	return Dough{Wanted: w.Wanted.V, Others: make([]unit.Temp, off), Friction: w.Friction.V}.Water(), off, true
}

// Friction is by how much a mixer warmed a dough, from a test mix.
func Friction(dough, water unit.Temp, others ...unit.Temp) unit.TempDiff {
	d := dough * unit.Temp(len(others)+1)
	for _, o := range append(others, water) {
		d -= o
	}
	return unit.TempDiff(d)
}

// meltIce is the melting heat of ice over the specific heat of water, about
// 334 kJ/kg over 4.19 kJ/(kg K): melting ice takes as much heat as warming its
// water by 80 degrees.
const meltIce = 80 * unit.Temp(unit.DegC)

// Ice gives how much of the water must be ice at 0 °C so that tap water comes
// to the wanted temperature: m × (tap − wanted) ÷ (tap + 80 °C). None where
// the tap is cold enough, an error where all of the water as ice is not enough.
func Ice(water unit.Mass, tap, wanted unit.Temp) (unit.Mass, error) {
	if water <= 0 || tap <= wanted {
		return 0, nil
	}
	ice := mass(times(rat(tap-wanted, tap+meltIce), water))
	if ice > water || tap+meltIce <= 0 {
		return 0, fmt.Errorf("even as ice, %s of water do not come to %.0f °C", water, wanted.C())
	}
	return ice, nil
}

// IceForDough gives how much ice takes a dough that is too warm down by so
// much, when the ice ends as water at the wanted temperature: the dough's heat
// over that of melting and warming the ice. A dough of usual softness has
// about 2.9 kJ/(kg K).
func IceForDough(dough unit.Mass, down unit.TempDiff, wanted unit.Temp) unit.Mass {
	if dough <= 0 || down <= 0 {
		return 0
	}
	heat := mul(big.NewRat(29, 10), rat(down, unit.DegC))
	melt := new(big.Rat).Add(big.NewRat(334, 1), mul(big.NewRat(419, 100), rat(wanted, unit.Temp(unit.DegC))))
	if melt.Sign() <= 0 {
		return 0
	}
	return mass(times(quo(heat, melt), dough))
}

// seaBoil is where water boils at the sea.
const seaBoil = 100 * unit.Temp(unit.DegC)

// Boiling gives where water boils in this kitchen: what its own probe shows,
// or else 100 °C less 1 °C for each 300 m of height (rule of thumb; Utah State
// University extension on cooking at altitude), to half a degree, for it is no
// finer than that.
func Boiling(p *shop.Profile) unit.Temp {
	if p.Boils.Set() {
		return p.Boils.V
	}
	halves := unit.MulDiv(int64(p.Altitude.V), 2, int64(300*1000*unit.MM))
	return seaBoil - unit.Temp(halves)*unit.Temp(unit.DegC)/2
}

// Boiled gives a target for sugar that is cooked until enough water is gone,
// for water that boils at another temperature: the difference is taken off one
// for one (the same source: at 205 °F instead of 212 °F, cook to 273 °F for
// 280 °F).
func Boiled(t unit.Target, boils unit.Temp) unit.Target {
	d := seaBoil - boils
	t.Lo, t.Hi = t.Lo-d, t.Hi-d
	return t
}

// Reach gives the temperatures that a step must reach in this kitchen, and
// whether any was changed for its height. Only boiled sugar is: there the
// temperature stands for how much water is left.
func Reach(p *shop.Profile, st *shop.Step) (targets []unit.Target, changed bool) {
	boils := Boiling(p)
	for _, r := range st.Reach {
		t := r.To.V
		if boils != seaBoil && boiledSugar(st, t) {
			t, changed = Boiled(t, boils), true
		}
		targets = append(targets, t)
	}
	return targets, changed
}

// boiledSugar reports whether the target is the end of boiling a syrup; dry
// caramel has no water left that could tell.
func boiledSugar(st *shop.Step, t unit.Target) bool {
	of := []string{"syrup", "soft-caramel", "marshmallow", "italian-meringue", "bombe", "pectin", "jam"}
	hob := []string{"boil", "cook"}
	return slices.Contains(hob, st.Kind.V) && slices.Contains(of, st.Of.V) &&
		t.Lo > unit.Celsius(100) && t.Hi < unit.Celsius(160)
}
