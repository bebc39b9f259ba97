package shop

import (
	"chablon/labels/diag"
	"chablon/labels/unit"
)

// waters: no more water goes off than there is. It is a caution, for the
// water in the specifications is rarely exact. Where the water of an
// ingredient is not known nothing is said.
func (c *checker) waters() {
	w := &waterer{c, map[string]watery{}}
	c.formulas(func(f *Formula) { w.formula(f) })
	c.products(w.product)
}

// watery is how much water is in a mass of food, where that is known.
type watery struct {
	water, mass unit.Mass
	known       bool
}

type atPortion = diag.At[Portion]

type waterer struct {
	*checker
	done map[string]watery
}

// formula gives the finished formula as written.
func (w *waterer) formula(f *Formula) watery {
	if s, ok := w.done[f.ID]; ok {
		return s
	}
	w.done[f.ID] = watery{} // unknown while in a circle
	s := w.lines(f.Lines)
	if m := f.CookedIn; m != nil {
		s = s.add(w.use(m.Use.V, bounded(m.SoakedUp.V)))
	}
	for _, l := range f.Losses {
		switch {
		case l.WaterLost.Set():
			s = w.off(s, l.WaterLost, l.Of(s.mass))
		case s.mass > 0:
			left := s.mass - l.Of(s.mass)
			s.water, s.mass = s.water.Mul(left, s.mass), left
		}
	}
	w.done[f.ID] = s
	return s
}

func (w *waterer) product(p *Product) {
	s := watery{known: true}
	for _, st := range p.Parts {
		s = s.add(w.lines(st.Add))
		if st.WaterLost.Set() {
			s = w.off(s, st.WaterLost, st.Off(s.mass))
		}
	}
}

func (w *waterer) lines(lines []Line) watery {
	s := watery{known: true}
	for _, l := range lines {
		s = s.add(w.use(l.Use.V, l.Taken()))
	}
	return s
}

// use gives m of an ingredient or a formula.
func (w *waterer) use(id string, m unit.Mass) watery {
	if f := w.Formulas[id]; f != nil {
		s := w.formula(f)
		if s.mass <= 0 {
			return watery{mass: m}
		}
		return watery{s.water.Mul(m, s.mass), m, s.known}
	}
	ing := w.Ingredients[id]
	switch {
	case ing == nil:
		return watery{mass: m}
	case ing.AddedWater.V || ing.Evaporates.V:
		return watery{m, m, true}
	case !ing.Water.Set() || ing.Water.V < 0 || ing.Water.V > unit.Whole:
		return watery{mass: m}
	}
	return watery{m.Of(ing.Water.V), m, true}
}

func (s watery) add(t watery) watery {
	return watery{s.water + t.water, s.mass + t.mass, s.known && t.known}
}

func (w *waterer) off(s watery, at atPortion, lost unit.Mass) watery {
	if s.known && lost > s.water && lost < s.mass {
		w.caution(at.Pos, "water", "weigh again before and after, and look at the water in the ingredients",
			"%s of water go off, but the ingredients hold %s", lost.Round(unit.Milligram), s.water.Round(unit.Milligram))
		s.known = false
	}
	return watery{max(s.water-lost, 0), s.mass - lost, s.known}
}
