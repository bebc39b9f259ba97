// Package heat answers: how warm will it be?
//
// [Mix] foretells the temperature of a mix from the masses, temperatures and
// composition of what goes in, with the melting of cocoa butter and milk fat.
// [Step] does so for a step of a formula, and [Check] cautions where a step
// asks for more heat than there is. A kitchen's own readings make the forecast
// of a step better.
//
// The model knows food, not the bowl, the air, the whisk or the clock: what it
// foretells is the temperature right after mixing, with no heat lost. It holds
// for unfrozen food from 0 to 150 °C, without boiling, setting of sugar or
// swelling of starch. It is no critical limit and replaces no probe.
package heat

import (
	"math"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Capacity is a specific heat in millijoules per kilogram and kelvin: 4.1762
// kJ/(kg K) is 4 176 200.
type Capacity int64

// KJ gives kJ/(kg K), for printing only.
func (c Capacity) KJ() float64 { return float64(c) / 1e6 }

// Latent is a melting heat in joules per kilogram.
type Latent int64

// Food is what a food is made of, as shares of its mass. Cocoa butter and milk
// fat are parts of Fat.
type Food struct {
	Water, Protein, Fat, Carbohydrate, Fibre, Ash unit.Share
	CocoaButter, MilkFat                          unit.Share
}

// part is one component: its specific heat at t °C is a + b×t + c×t², in
// kJ/(kg K).
type part struct{ a, b, c float64 }

// Choi and Okos, 1986, for -40 to 150 °C, as in the ASHRAE Handbook,
// Refrigeration, 2006, chapter 9; fibre is from memory. Water is theirs for 0 to
// 150 °C, 4176.2 - 0.0909 t + 5.4731e-3 t² J/(kg K), as teaching texts quote it
// (two of them read): the handbook prints 4.1289 for 4.1762, which is more than
// 1 % below every measured value, while 4.1762 is within 1 % from 0 to 100 °C.
func water() part   { return part{4.1762, -9.0864e-5, 5.4731e-6} }
func protein() part { return part{2.0082, 1.2089e-3, -1.3129e-6} }
func fat() part     { return part{1.9842, 1.4733e-3, -4.8008e-6} }
func carbs() part   { return part{1.5488, 1.9625e-3, -5.9399e-6} }
func ash() part     { return part{1.0926, 1.8896e-3, -3.6817e-6} }
func fibre() part   { return part{1.8459, 1.8306e-3, -4.6509e-6} }

// blend gives the polynomial of a food: the mass-weighted mean of its parts.
func (f Food) blend() part {
	var sum part
	for _, x := range []struct {
		share unit.Share
		of    part
	}{{f.Water, water()}, {f.Protein, protein()}, {f.Fat, fat()}, {f.Carbohydrate, carbs()}, {f.Fibre, fibre()}, {f.Ash, ash()}} {
		s := float64(x.share) / float64(unit.Whole)
		sum.a, sum.b, sum.c = sum.a+s*x.of.a, sum.b+s*x.of.b, sum.c+s*x.of.c
	}
	return sum
}

func (p part) at(t float64) float64 { return p.a + t*(p.b+t*p.c) }

// heat is the heat from 0 °C to t, in kJ/kg.
func (p part) heat(t float64) float64 { return t * (p.a + t*(p.b/2+t*p.c/3)) }

// Of gives the specific heat of a food at a temperature, without melting.
func Of(f Food, t unit.Temp) Capacity { return Capacity(math.Round(f.blend().at(t.C()) * 1e6)) }

// Melting heats. Cocoa butter in form V takes 137 to 157 kJ/kg (from memory);
// milk fat about 84 kJ/kg (from memory).
const (
	cocoaButterMelts = 150.0
	milkFatMelts     = 84.0
)

// solid is how much of a fat is solid at t °C: all of it up to lo, none from
// hi on, in between in proportion. Cocoa butter of a set chocolate melts from
// about 25 to 34 °C, milk fat from about 5 to 35 °C (from memory); a straight
// line is a simplification, good to a few degrees.
func solid(t, lo, hi float64) float64 { return min(max((hi-t)/(hi-lo), 0), 1) }

func solidCocoaButter(t float64) float64 { return solid(t, 25, 34) }
func solidMilkFat(t float64) float64     { return solid(t, 5, 35) }

// latent is the heat that f has taken up for melting at t °C, in kJ/kg, where
// what was liquid at the start stays liquid (fat sets slowly).
func (f Food) latent(t float64, p Portion) float64 {
	cocoa, milk := solidCocoaButter(p.Temp.C()), solidMilkFat(p.Temp.C())
	if p.Melted {
		cocoa, milk = 0, 0
	}
	melted := func(share unit.Share, from, now, heat float64) float64 {
		return max(from-now, 0) * heat * float64(share) / float64(unit.Whole)
	}
	return melted(f.CocoaButter, cocoa, solidCocoaButter(t), cocoaButterMelts) + melted(f.MilkFat, milk, solidMilkFat(t), milkFatMelts)
}

// Portion is so much of a food at a temperature. Melted tells that its fat is
// liquid although it is cool enough to be solid, as in tempered chocolate.
type Portion struct {
	Food   Food
	Mass   unit.Mass
	Temp   unit.Temp
	Melted bool
}

// Mix gives the temperature at which the portions meet: no heat goes in or out,
// so that what the warm ones lose the cold ones take up, melting included.
// Rounded to 0.1 °C; false for no mass at all or temperatures outside of the
// model's 0 to 150 °C.
func Mix(portions ...Portion) (unit.Temp, bool) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, p := range portions {
		if p.Mass > 0 {
			lo, hi = min(lo, p.Temp.C()), max(hi, p.Temp.C())
		}
	}
	if lo > hi || lo < 0 || hi > 150 {
		return 0, false
	}
	for range 60 {
		mid := (lo + hi) / 2
		if gain(portions, mid) > 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	return tenth((lo + hi) / 2), true
}

// gain is the heat, in kJ, that all take up on the way to t °C.
func gain(portions []Portion, t float64) float64 {
	var sum float64
	for _, p := range portions {
		b := p.Food.blend()
		sum += float64(max(p.Mass, 0)) * (b.heat(t) - b.heat(p.Temp.C()) + p.Food.latent(t, p))
	}
	return sum
}

// tenth rounds to 0.1 °C.
func tenth(c float64) unit.Temp {
	return unit.Temp(math.Round(c*10)) * unit.Temp(unit.DegC) / 10
}

// Lump is so much at a temperature, of a known specific heat, of which Melting
// joules are taken up as it melts.
type Lump struct {
	Mass     unit.Mass
	Capacity Capacity
	Temp     unit.Temp
	Melting  Latent // per kilogram of the lump
}

// Mean is the hand calculation: T = (Σ m c T − Σ m L) ÷ Σ m c, where all that
// can melt does. False where there is nothing to mix.
func Mean(lumps ...Lump) (unit.Temp, bool) {
	var heat, per float64
	for _, l := range lumps {
		m := float64(l.Mass)
		heat += m * (l.Capacity.KJ()*l.Temp.C() - float64(l.Melting)/1000)
		per += m * l.Capacity.KJ()
	}
	if per <= 0 {
		return 0, false
	}
	return tenth(heat / per), true
}

// WaterFor gives the temperature that water must have so that a dough comes
// out as warm as wanted, from the masses and specific heats of all that goes
// in: T = ((wanted − friction) Σ m c − Σ m c T of the others) ÷ m c of the
// water. It is finer than adding temperatures up where a dough is very stiff or
// very soft. False without water.
func WaterFor(wanted unit.Temp, friction unit.TempDiff, water unit.Mass, others ...Lump) (unit.Temp, bool) {
	own := float64(water) * Of(Food{Water: unit.Whole}, wanted).KJ()
	if own <= 0 {
		return 0, false
	}
	goal := (wanted - unit.Temp(friction)).C()
	heat := goal * own
	for _, l := range others {
		heat += float64(l.Mass) * l.Capacity.KJ() * (goal - l.Temp.C())
	}
	return tenth(heat / own), true
}

// Loss is which share of its way to the temperature of the room a mix goes
// before it is measured: what a bowl and a while of standing take.
type Loss = unit.Share

// Learn gives the loss that readings tell of: of each, the share of the way
// from the forecast to the room that the mix had gone; the middle one of all.
// A reading that does not say what was foretold for it is held against forecast.
// False without a reading that tells anything.
func Learn(forecast unit.Temp, readings []shop.Reading) (Loss, bool) {
	var all []Loss
	for _, r := range readings {
		room, foretold := roomOf(r), forecast
		if r.Expected.Set() {
			foretold = r.Expected.V
		}
		if !r.After.Set() || foretold-room < 5*unit.Temp(unit.DegC) {
			continue // too close to the room to tell
		}
		gone := unit.Share(unit.MulDiv(int64(foretold-r.After.V), int64(unit.Whole), int64(foretold-room)))
		all = append(all, min(max(gone, 0), unit.Whole))
	}
	if len(all) == 0 {
		return 0, false
	}
	slices.Sort(all)
	return all[len(all)/2], true
}

// usualRoom is the temperature of the room where a reading does not tell.
const usualRoom = 20 * unit.Temp(unit.DegC)

func roomOf(r shop.Reading) unit.Temp {
	if r.Room.Set() {
		return r.Room.V
	}
	return usualRoom
}

// Cooled is a forecast after the loss.
func Cooled(forecast, room unit.Temp, loss Loss) unit.Temp {
	return forecast - unit.Temp(unit.MulDiv(int64(forecast-room), int64(loss), int64(unit.Whole)))
}
