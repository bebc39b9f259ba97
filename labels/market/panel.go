package market

import (
	"slices"

	"chablon/labels/role"
	"chablon/labels/unit"
)

// Panel is how a market wants its nutrition declaration drawn; without forms it
// says nothing about that.
type Panel struct {
	Forms []PanelForm // in the order in which the law lets them be taken
	Cite
}

// PanelForm is one prescribed way to draw the declaration.
type PanelForm struct {
	Key   string // "vertical"; Canada numbers its figures: "3.3"
	Shape Shape
	// Over and UpTo bound the surface of the pack that can bear print: the form is
	// for packs with more than Over and at most UpTo of it. 0 is no bound.
	Over, UpTo unit.Area
	Part       unit.Share // of that surface that the panel may take; 0 is no bound
	Narrow     bool       // in letters of a condensed face
	Short      bool       // words may be abbreviated
	Light      []string   // nutrients below a thick line, in letters that are not bold
	Types      []Type
	Lines      []Line
	Cite
}

// Shape is how the parts of a panel stand.
type Shape string

// The shapes.
const (
	Upright   Shape = "upright"   // one part under the other
	SideNote  Shape = "side-note" // the footnote beside the rest
	Tabular   Shape = "tabular"   // the nutrients in two columns side by side
	Linear    Shape = "linear"    // running words
	ThreeCols Shape = "columns"   // names, for a portion, for 100 g
	Bilingual Shape = "bilingual" // two languages beside each other, one part under the other
	Lying     Shape = "lying"     // the same, the nutrients in two columns
)

// Type is the least size of the letters of one part (their em), in which weight
// they stand, and the least white between its lines.
type Type struct {
	Part  string // as labels/role names it
	Least unit.Length
	Bold  bool
	Lead  unit.Length
	Cite
}

// Line is how thick a line is drawn that the law asks for by its kind.
type Line struct {
	Part  string
	Thick unit.Length
	Cite
}

// Type gives the size of a part; of a part that the form does not have it is
// zero.
func (f PanelForm) Type(part string) Type {
	for _, t := range f.Types {
		if t.Part == part {
			return t
		}
	}
	return Type{}
}

// Line gives the thickness of a kind of line; 0 where the form has none.
func (f PanelForm) Line(part string) unit.Length {
	for _, l := range f.Lines {
		if l.Part == part {
			return l.Thick
		}
	}
	return 0
}

// For gives the forms that a pack may bear, the first to be taken where it fits.
// A surface of 0 is not known and gives no relief.
func (p Panel) For(surface unit.Area) []PanelForm {
	var out []PanelForm
	for _, f := range p.Forms {
		if f.fits(surface) {
			out = append(out, f)
		}
	}
	return out
}

func (f PanelForm) fits(surface unit.Area) bool {
	return (f.UpTo == 0 || surface > 0 && surface <= f.UpTo) && (f.Over == 0 || surface > f.Over)
}

// Most is how much of a surface the panel may take in this form; 0 where there is
// no bound, or nobody knows the surface.
func (f PanelForm) Most(surface unit.Area) unit.Area {
	return unit.Area(unit.MulDiv(int64(surface), int64(f.Part), int64(unit.Whole)))
}

// Find gives a form by its key.
func (p Panel) Find(key string) (PanelForm, bool) {
	i := slices.IndexFunc(p.Forms, func(f PanelForm) bool { return f.Key == key })
	if i < 0 {
		return PanelForm{}, false
	}
	return p.Forms[i], true
}

// sized makes the types of a form from sizes in points.
func sized(lead unit.Length, c Cite, points map[string]float64, bold ...string) []Type {
	var out []Type
	for _, part := range panelParts() {
		if pt, ok := points[part]; ok {
			out = append(out, Type{part, unit.Pts(pt), slices.Contains(bold, part), lead, c})
		}
	}
	return out
}

// panelParts are the parts with letters, from the top of a panel.
func panelParts() []string {
	return []string{role.Heading, role.Servings, role.Serving, role.AmountPer, role.Energy, role.EnergyIs,
		role.DailyValue, role.Nutrient, role.Share, role.Mineral, role.Footnote}
}
