package declare

import (
	"slices"

	"chablon/labels/market"
	"chablon/labels/role"
)

// Calls are the particulars that this food calls for where the law asks for
// them only of some foods: what [market.Market.Needs] has as When is then due,
// on every label, whoever set it.
func (f *Facts) Calls() []role.Role {
	var out []role.Role
	call := func(what role.Role, when bool) {
		if when {
			out = append(out, what)
		}
	}
	k := f.Product.Keep
	call(role.Keep, k.Temp.Set() || k.Opened.Set())
	call(role.Use, f.Product.Prepared())
	call(role.Quid, f.quantified())
	call(role.Origin, f.says("origin"))
	call(role.OriginOf, f.says("origin-of"))
	call(role.Statement, len(f.Loose) > 0)
	return out
}

// says reports whether a statement is made.
func (f *Facts) says(key string) bool {
	return slices.ContainsFunc(f.Statements, func(s Statement) bool { return s.Key == key })
}

// quantified reports whether some list declares the quantity of a part.
func (f *Facts) quantified() bool {
	return slices.ContainsFunc(f.Lists, func(l List) bool { return declaresOne(l.Parts) })
}

func declaresOne(parts []Part) bool {
	return slices.ContainsFunc(parts, func(p Part) bool { return p.Quid != nil || declaresOne(p.Inner) })
}

// AsPack is the pack as the market's rules see it, sold as the kitchen says.
func (f *Facts) AsPack() market.Pack {
	p := f.asSold(market.Prepacked)
	if f.Pack.Sale.V == "direct" {
		p.Sale = market.Direct
	}
	p.Face, p.Surface, p.Net = f.Pack.Face.V, f.Pack.Surface.V, market.Quantity{Mass: f.Pack.Net.V}
	p.Local = f.Pack.Nutrition.V == "exempt-small-maker"
	return p
}

// AsLoose is the food as the market's rules see it where it is sold unpacked.
func (f *Facts) AsLoose() market.Pack { return f.asSold(market.Loose) }

func (f *Facts) asSold(s market.Sale) market.Pack {
	d := f.Date
	return market.Pack{Sale: s, Served: f.Pack.Served.V, Calls: f.Calls(), Fresh: f.DayFresh(),
		UseBy: d.Kind == "use-by", DayMonth: d.Kind != "none" && (d.Shown.Form == market.DayMonth || d.Shown.Form == market.DayMonthYear)}
}
