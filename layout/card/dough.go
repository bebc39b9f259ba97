package card

import (
	"chablon/labels/scale"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// room is the temperature that the example beside the rule takes room, flour,
// preferment and tap to have; what they have today is measured.
const room = 20

// doughWater says below the water of a dough how warm it must be: the number
// from which the temperatures measured today are taken off, what that comes to
// in a room of 20 °C, and how much of it must be ice from a tap as warm as the
// room.
func (t *teller) doughWater(l *lane, m *scale.Make) {
	from, off, ok := scale.WaterFrom(m.Formula)
	if !ok {
		return
	}
	a := waterOf(m)
	p := l.putOf(a, m)
	if p == nil {
		t.Found().Errorf(m.Formula.Dough.Pos, "dough", "use an ingredient with added-water: yes, or take dough: out",
			"%s says how warm its water must be, and no line of it is water", m.Formula.ID)
		return
	}
	water := from - unit.Temp(off)*unit.Celsius(room)
	key := "card.dough-water"
	if off > 2 {
		key = "card.dough-water-preferment"
	}
	ice, err := scale.Ice(a.Shown, unit.Celsius(room), water)
	p.Advice = t.slots(key, m.Formula.Dough.Pos, func(_ int, in *words.Lang) map[string]string {
		warm := in.Temp(whole(water), true)
		switch {
		case err != nil || water < 0:
			warm += "; " + t.In(in).Word("card.dough-no-ice")
		case ice > 0:
			warm += "; " + t.In(in).Fill("card.dough-ice", map[string]string{"ice": t.grams(ice, a.Step)})
		}
		return map[string]string{"wanted": in.Temp(whole(m.Formula.Dough.Wanted.V), true), "room": in.Temp(whole(unit.Celsius(room)), true),
			"from": in.TempPair("", round(from), inFahrenheit(from, off)), "water": warm}
	})
}

// waterOf is the water of a batch, or nil.
func waterOf(m *scale.Make) *scale.Amount {
	for i := range m.Lines {
		if g := m.Lines[i].Ingredient; g != nil && g.AddedWater.V {
			return &m.Lines[i]
		}
	}
	return nil
}

// inFahrenheit is a number from which off temperatures in °F are taken, of one
// from which as many in °C are: it is no temperature itself, and every one that
// is taken off has its own 32 degrees.
func inFahrenheit(from unit.Temp, off int) unit.Temp {
	f := from + unit.Temp(off*32)*unit.Temp(unit.DegF)
	return unit.Fahrenheit(unit.MulDiv(int64(f-unit.Fahrenheit(0)), 1, int64(unit.DegF)))
}

// round is a temperature in whole degrees Celsius.
func round(t unit.Temp) unit.Temp { return unit.Celsius(unit.MulDiv(int64(t), 1, int64(unit.DegC))) }

func whole(t unit.Temp) unit.Target { return unit.Target{Lo: round(t), Hi: round(t)} }
