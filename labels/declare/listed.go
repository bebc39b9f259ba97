package declare

import (
	"chablon/labels/reserved"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// listed doubts names in a list that leave out what the law wants beside them:
// an oil or fat without its plant (Reg. (EU) 1169/2011 Annex VII Part A point
// 8), and where flour is fortified by law, wheat flour without what is added.
func (w *work) listed(parts []scale.Contribution) {
	for _, i := range bought(parts) {
		if w.market.List.DefinedOnly && isCalled(i.Name, "vegetable-oil") && len(i.Plant) == 0 && len(i.MadeOf) == 0 {
			w.bare(i.Name[0].V)
		}
		deep(i.MadeOf, func(in shop.Inner) {
			if w.market.List.DefinedOnly && isCalled(in.Name, "vegetable-oil") && len(in.MadeOf) == 0 {
				w.bare(in.Name[0].V)
			}
		})
		w.fortified(i)
	}
}

func (w *work) bare(name shop.Text) {
	w.found.Warnf(name.Pos, "plant", "name the plant, as in rapeseed oil, or write plant: and join them", "%q does not say of which plant it is (%s)", name.V, w.market.List.Cite)
}

// fortified doubts wheat flour that is one entry where the law has things added
// to it. Wholemeal is not fortified.
func (w *work) fortified(i *shop.Ingredient) {
	if w.market.Fortified.Act == "" || len(i.MadeOf) > 0 || !isCalled(i.Name, "wheat-flour") || !shop.Names(i.Contains, "wheat") ||
		calledSo(i.Name, func(h reserved.Hit) bool { return h.Key == "wholemeal" }) {
		return
	}
	w.found.Warnf(i.Name[0].V.Pos, "fortified", "ask the mill; write made-of: with the flour and what is added, such as calcium carbonate, iron, niacin, thiamin; or give it another name, such as wholemeal wheat flour",
		"%q stands without what the law has added to it (%s)", i.Name[0].V.V, w.market.Fortified)
}

// smallPack refuses to leave the nutrition declaration out for the size of a
// pack that is too large for that.
func (w *work) smallPack() {
	p := w.facts.Pack
	if p.Nutrition.V != "exempt-small-pack" || !p.Face.Set() || w.market.Small(p.Face.V, role.Nutrition) {
		return
	}
	w.found.Errorf(p.Nutrition.Pos, "small-pack", "declare it", "the largest face of the pack is %d cm², too large to leave the nutrition declaration out", p.Face.V/unit.CM2)
}
