package market

import "chablon/labels/unit"

// Composition is the least share of a component that a food must have to bear
// a name. A Composition with Most is an upper bound.
type Composition struct {
	Food  string
	Of    string
	Share unit.Share
	Most  bool
	Cite
}

// Compositions gives the minima behind the names of chocolate and
// butter in the Union, in percent of the dry or whole food as the acts say.
func Compositions() []Composition {
	at := func(food, of string, tenths int64, c Cite) Composition {
		return Composition{Food: food, Of: of, Share: unit.Share(tenths) * unit.Percent / 10, Cite: c}
	}
	read, mem := readIn(chocolate, "Annex I"), memory(chocolate, "Annex I A")
	butter := memory("Regulation (EU) No 1308/2013", "Annex VII, Part VII, Appendix II")
	water, solids := at("butter", "water", 160, butter), at("butter", "non-fat-milk-solids", 20, butter)
	water.Most, solids.Most = true, true
	fat := at("chocolate", "vegetable-fat", 50, readIn(chocolate, "Art. 2(1)").via("fsai.ie"))
	fat.Most = true
	return []Composition{
		at("chocolate", "dry-cocoa-solids", 350, mem), at("chocolate", "cocoa-butter", 180, mem),
		at("chocolate", "non-fat-cocoa", 140, mem), fat,
		at("milk-chocolate", "dry-cocoa-solids", 250, mem), at("milk-chocolate", "milk-solids", 140, mem),
		at("milk-chocolate", "non-fat-cocoa", 25, mem), at("milk-chocolate", "milk-fat", 35, mem),
		at("milk-chocolate", "total-fat", 250, mem),
		at("family-milk-chocolate", "dry-cocoa-solids", 200, read), at("family-milk-chocolate", "milk-solids", 200, read),
		at("family-milk-chocolate", "non-fat-cocoa", 25, read), at("family-milk-chocolate", "milk-fat", 50, read),
		at("family-milk-chocolate", "total-fat", 250, read),
		at("white-chocolate", "cocoa-butter", 200, mem), at("white-chocolate", "milk-solids", 140, mem),
		at("white-chocolate", "milk-fat", 35, mem),
		at("filled-chocolate", "chocolate-coating", 250, mem), at("praline", "chocolate", 250, mem),
		at("cocoa-powder", "cocoa-butter", 200, read),
		at("butter", "milk-fat", 800, butter), water, solids,
	}
}
