package compose

import (
	"chablon/labels/declare"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/words"
)

// UnitPrice says what a kilogram costs of a pack with a price, where the market
// asks for it and it is not the price itself; without words where it does not,
// or where it cannot be computed.
func UnitPrice(f *declare.Facts, k *shop.Pack, l *words.Lang) words.Said {
	rule, ok := f.Market.UnitPrice()
	if !ok || !k.Price.Set() || !rule.Asked(k.Net.V) {
		return words.Said{}
	}
	m, ok := rule.Of(k.Price.V, k.Net.V)
	if !ok {
		return words.Said{}
	}
	kg, _ := l.Word("unit.kg") // every language has it
	return words.Said{Role: role.Note, Src: k.Price.Pos,
		Text: l.MoneyIn(k.Price.V.Currency, m.N, m.Decimals) + NoBreak + "/" + NoBreak + kg}
}
