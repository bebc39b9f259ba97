package margin

import (
	"maps"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// knob is a figure that can be changed in the shop of a trial.
type knob struct {
	Figure
	most int64 // it can be no more
	set  func(int64)
}

// most is how many times what is written a mass is tried up to.
const most = 4

// own gives the trial a shop in which its figures can be changed: formulas and
// products of its own, all else shared.
func (t *trial) own() {
	sh := *t.Shop
	sh.Formulas, sh.Products = maps.Clone(sh.Formulas), maps.Clone(sh.Products)
	for _, id := range sh.MadeOf(t.Product.ID) {
		if f := sh.Formulas[id]; f != nil {
			g := *f
			g.Lines, g.Losses = slices.Clone(f.Lines), slices.Clone(f.Losses)
			if f.CookedIn != nil {
				c := *f.CookedIn
				g.CookedIn = &c
			}
			sh.Formulas[id] = &g
		}
		if p := sh.Products[id]; p != nil {
			sh.Products[id] = copied(p)
		}
	}
	t.Shop, t.Product = &sh, sh.Products[t.Product.ID]
}

func copied(p *shop.Product) *shop.Product {
	q := *p
	q.Parts = slices.Clone(p.Parts)
	for i, s := range q.Parts {
		q.Parts[i].Add = slices.Clone(s.Add)
	}
	return &q
}

// knobs are the figures behind the label, each once, the product's first.
func (t *trial) knobs() []knob {
	var all []knob
	for _, id := range t.Shop.MadeOf(t.Product.ID) {
		if p := t.Shop.Products[id]; p != nil {
			all = append(all, ofProduct(p)...)
		}
		if f := t.Shop.Formulas[id]; f != nil {
			all = append(all, ofFormula(f)...)
		}
	}
	return slices.DeleteFunc(all, func(k knob) bool { return k.Value <= 0 })
}

func ofProduct(p *shop.Product) (out []knob) {
	for i := range p.Parts {
		s := &p.Parts[i]
		out = append(out, portion(Figure{Kind: WaterLost, Of: p.ID, What: s.Stage.V}, &s.WaterLost)...)
		for j := range s.Add {
			out = append(out, ofLine(Part, p.ID, &s.Add[j])...)
		}
	}
	return append(out, mass(Figure{Kind: CutTo, Of: p.ID}, &p.CutTo))
}

func ofFormula(f *shop.Formula) (out []knob) {
	for i := range f.Losses {
		l := &f.Losses[i]
		out = append(out, portion(Figure{Kind: WaterLost, Of: f.ID, What: l.Stage.V}, &l.WaterLost)...)
		out = append(out, portion(Figure{Kind: LeftBehind, Of: f.ID, What: l.Stage.V}, &l.LeftBehind)...)
	}
	for i := range f.Lines {
		out = append(out, ofLine(Take, f.ID, &f.Lines[i])...)
	}
	if c := f.CookedIn; c != nil {
		out = append(out, mass(Figure{Kind: SoakedUp, Of: f.ID, What: c.Use.V}, &c.SoakedUp))
	}
	return out
}

func ofLine(kind Kind, of string, l *shop.Line) []knob {
	out := []knob{mass(Figure{Kind: kind, Of: of, What: l.Ref()}, &l.Take)}
	return append(out, portion(Figure{Kind: Remains, Of: of, What: l.Ref()}, &l.Left)...)
}

// mass is the knob of a mass.
func mass(f Figure, at *diag.At[unit.Mass]) knob {
	f.Value, f.At = int64(at.V), at.Pos
	return knob{f, most * f.Value, func(v int64) { at.V = unit.Mass(v) }}
}

// portion is the knob of what is written as a mass or as a share; none where it
// is not written.
func portion(f Figure, at *diag.At[shop.Portion]) []knob {
	f.At = at.Pos
	switch {
	case at.V.Mass > 0:
		f.Value = int64(at.V.Mass)
		return []knob{{f, most * f.Value, func(v int64) { at.V.Mass = unit.Mass(v) }}}
	case at.V.Share > 0:
		f.Value, f.Share = int64(at.V.Share), true
		return []knob{{f, int64(unit.Whole), func(v int64) { at.V.Share = unit.Share(v) }}}
	}
	return nil
}
