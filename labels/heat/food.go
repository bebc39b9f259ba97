package heat

import (
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// FoodOf gives the composition of an ingredient; false where its file does not
// tell water, fat, protein and carbohydrate. What is left counts as ash, as in
// the tables that composition comes from.
func FoodOf(i *shop.Ingredient) (Food, bool) {
	c := i.Per100
	if c == nil || !i.Water.Set() || !c.Fat.Set() || !c.Protein.Set() || !c.Carbohydrate.Set() {
		return Food{}, false
	}
	per100 := func(m unit.Mass) unit.Share { return m.In(100 * unit.Gram) }
	f := Food{Water: i.Water.V, Protein: per100(c.Protein.V), Fat: per100(c.Fat.V), Carbohydrate: per100(c.Carbohydrate.V), Fibre: per100(c.Fibre.V)}
	f.Ash = max(unit.Whole-f.Water-f.Protein-f.Fat-f.Carbohydrate-f.Fibre, 0)
	f.CocoaButter, _ = i.Trait("cocoa-butter")
	f.MilkFat, _ = i.Trait("milk-fat")
	f.CocoaButter = min(f.CocoaButter, f.Fat)
	f.MilkFat = min(f.MilkFat, f.Fat-f.CocoaButter)
	return f, true
}

// together gives the composition of several portions as one food.
func together(portions []Portion) (Food, unit.Mass) {
	var sum unit.Mass
	for _, p := range portions {
		sum += p.Mass
	}
	if sum <= 0 {
		return Food{}, 0
	}
	var f Food
	for _, p := range portions {
		of := func(s unit.Share) unit.Share { return p.Mass.Of(s).In(sum) }
		f.Water += of(p.Food.Water)
		f.Protein += of(p.Food.Protein)
		f.Fat += of(p.Food.Fat)
		f.Carbohydrate += of(p.Food.Carbohydrate)
		f.Fibre += of(p.Food.Fibre)
		f.Ash += of(p.Food.Ash)
		f.CocoaButter += of(p.Food.CocoaButter)
		f.MilkFat += of(p.Food.MilkFat)
	}
	return f, sum
}
