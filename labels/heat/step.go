package heat

import (
	"slices"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Forecast is what a step of a formula will come to.
type Forecast struct {
	Mixed    unit.Temp     // right after mixing, no heat lost
	Expected unit.Temp     // the same after the loss that readings tell of
	Loss     Loss          // 0 without readings
	Readings int           // how many were used
	From     []Portion     // what meets, what is in the bowl already first
	Asked    unit.Target   // the last temperature that the step must reach
	Asks     bool          // whether it asks for any
	Below    bool          // the mix does not come up to what is asked
	Cool     unit.TempDiff // by how much it must still cool to what is asked
}

// margin is how far a forecast must miss a target to be worth a word; the
// model is not better.
const margin = unit.Temp(unit.DegC)

// Step foretells the temperature of a step of a formula. What it uses must say
// at: how warm it goes in; what earlier steps made comes with the last
// temperature that they reached, or, where they only poured, waited or mixed,
// as warm as it went in. False where something is not known, or where nothing
// meets.
func Step(sh *shop.Shop, f *shop.Formula, id string) (Forecast, bool) {
	w := &walk{shop: sh, formula: f}
	st := w.find(id)
	if st == nil || Warms(st) {
		return Forecast{}, false
	}
	in, ok := w.into(st, map[string]bool{id: true})
	if !ok || len(in) < 2 {
		return Forecast{}, false
	}
	out := Forecast{From: in}
	if out.Mixed, ok = Mix(out.From...); !ok {
		return Forecast{}, false
	}
	out.expect(st)
	return out, true
}

// expect applies the readings and holds the forecast against what is asked.
func (f *Forecast) expect(st *shop.Step) {
	f.Expected = f.Mixed
	if loss, ok := Learn(f.Mixed, st.Readings); ok {
		f.Loss, f.Readings = loss, len(st.Readings)
		f.Expected = Cooled(f.Mixed, roomOf(st.Readings[len(st.Readings)-1]), loss)
	}
	f.Asked, f.Asks = asked(st)
	if !f.Asks {
		return
	}
	if f.Asked.Kind != unit.AtMost {
		f.Below = f.Expected+margin < f.Asked.Lo
	}
	if f.Asked.Kind != unit.AtLeast {
		f.Cool = unit.TempDiff(max(f.Expected-f.Asked.Hi, 0))
	}
}

// asked gives the last temperature that a step must reach.
func asked(st *shop.Step) (unit.Target, bool) {
	if n := len(st.Reach); n > 0 {
		return st.Reach[n-1].To.V, true
	}
	if st.Limit != nil && st.Limit.Reach.Set() {
		return st.Limit.Reach.V, true
	}
	return unit.Target{}, false
}

// Warms reports whether a step brings heat of its own; one that mixes warms
// little, and only over a bath.
func Warms(st *shop.Step) bool {
	return slices.Contains([]string{"toast", "poach", "boil", "cook", "bake", "temper", "melt"}, st.Kind.V)
}

// cools reports whether a step takes heat away.
func cools(st *shop.Step) bool {
	return slices.Contains([]string{"chill", "freeze", "cool", "set"}, st.Kind.V)
}

// A walk gathers what is in the bowl at a step.
type walk struct {
	shop    *shop.Shop
	formula *shop.Formula
}

func (w *walk) find(id string) *shop.Step {
	i := slices.IndexFunc(w.formula.Steps, func(st shop.Step) bool { return st.ID.V == id })
	if i < 0 {
		return nil
	}
	return &w.formula.Steps[i]
}

// into gives what meets at a step: what was made before, and its own lines.
// What was seen already is not counted again.
func (w *walk) into(st *shop.Step, seen map[string]bool) ([]Portion, bool) {
	var all []Portion
	for _, n := range st.After() {
		if seen[n.V] {
			continue
		}
		seen[n.V] = true
		p, ok := w.made(n.V, seen)
		if !ok {
			return nil, false
		}
		all = append(all, p...)
	}
	own, ok := w.lines(st, nil)
	return append(all, own...), ok
}

// lines gives the lines that a step uses, each at its temperature or all at the
// one given; false where one does not tell, or is a formula.
func (w *walk) lines(st *shop.Step, at *unit.Temp) ([]Portion, bool) {
	var all []Portion
	for _, u := range st.Uses {
		if u.Step.Set() {
			continue // comes with what was made before
		}
		p, ok := w.line(u, at)
		if !ok {
			return nil, false
		}
		all = append(all, p)
	}
	return all, true
}

// line gives one line at its own temperature, or at the one given.
func (w *walk) line(u shop.Use, at *unit.Temp) (Portion, bool) {
	i := slices.IndexFunc(w.formula.Lines, func(l shop.Line) bool { return l.Ref() == u.Line.V })
	if i < 0 {
		return Portion{}, false
	}
	l := w.formula.Lines[i]
	ing := w.shop.Ingredients[l.Use.V]
	if ing == nil || !l.At.Set() && at == nil {
		return Portion{}, false
	}
	food, ok := FoodOf(ing)
	p := Portion{Food: food, Mass: l.Taken().Of(u.Part()), Temp: l.At.V}
	if at != nil {
		p.Temp = *at
	}
	return p, ok
}

// made gives what there is after a step. Where it reaches a temperature, all is
// one portion at that, its fat liquid where it was warm enough on the way. One
// that only pours, waits or mixes leaves all as warm as it came; what it comes
// to is for [Mix] to say.
func (w *walk) made(id string, seen map[string]bool) ([]Portion, bool) {
	st := w.find(id)
	if st == nil {
		return nil, false
	}
	target, ok := asked(st)
	if !ok || target.Kind == unit.AtMost || target.Kind == unit.AtLeast {
		if Warms(st) || cools(st) || ok {
			return nil, false
		}
		return w.into(st, seen)
	}
	temp := target.Mid()
	var all []Portion
	melted := false
	for _, s := range append([]*shop.Step{st}, w.before(st, seen)...) {
		for _, r := range s.Reach {
			melted = melted || r.To.V.Lo >= meltsAll
		}
		p, ok := w.lines(s, &temp)
		if !ok {
			return nil, false
		}
		all = append(all, p...)
	}
	food, m := together(all)
	if m == 0 {
		return nil, true
	}
	return []Portion{{Food: food, Mass: m, Temp: temp, Melted: melted}}, true
}

// meltsAll is where neither cocoa butter nor milk fat has crystals left.
const meltsAll = 36 * unit.Temp(unit.DegC)

// before gives all that a step needs, each once.
func (w *walk) before(st *shop.Step, seen map[string]bool) []*shop.Step {
	var all []*shop.Step
	for _, n := range st.After() {
		if next := w.find(n.V); next != nil && !seen[n.V] {
			seen[n.V] = true
			all = append(append(all, next), w.before(next, seen)...)
		}
	}
	return all
}

// Check cautions where a step asks for a temperature that its mix does not
// come up to and nothing in the step warms it.
func Check(sh *shop.Shop, found *diag.List) {
	for _, id := range sh.FormulaIDs {
		f := sh.Formulas[id]
		for i := range f.Steps {
			st := &f.Steps[i]
			if st.Because.Set() {
				continue
			}
			fc, ok := Step(sh, f, st.ID.V)
			if !ok || !fc.Below {
				continue
			}
			found.Warnf(reachPos(st), "heat", "let something go in warmer, or warm the mix at this step; or write under because: why it is so",
				"step %s asks for %s, but the mix comes to about %.0f °C (%.0f °F)", st.ID.V, fc.Asked, fc.Expected.C(), fc.Expected.F())
		}
	}
}

func reachPos(st *shop.Step) diag.Pos {
	if n := len(st.Reach); n > 0 {
		return st.Reach[n-1].To.Pos
	}
	return st.Limit.Reach.Pos
}
