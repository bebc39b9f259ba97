package shop

import (
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/unit"
)

// Weighed is how a pack is sold by its weight.
type Weighed struct {
	SoldBy  Text                `key:"sold-by" one:"piece|weight" help:"weight: every pack is weighed, and its label says what this one weighs and costs; net and pieces are then what a usual one has. Piece when left out."`
	PerKilo diag.At[unit.Money] `key:"price-per-kg" help:"Of what is sold by weight: the price of a kilogram, all taxes included, such as 38.00 EUR."`
	Item    Text                `key:"item-number" help:"Of what is weighed at the shop's own counter: its item in counter-number of shop.yaml, digits as text."`
}

// ByWeight reports whether each pack has a weight of its own.
func (w Weighed) ByWeight() bool { return w.SoldBy.V == "weight" }

// Weighing is a pack that weighs so much: a copy of its own, as it is weighed
// each time.
func (k *Pack) Weighing(m unit.Mass) *Pack {
	out := *k
	out.Net.V = m
	return &out
}

// Pay is what a pack sold by weight costs: the price of a kilogram times its
// weight, to the smallest coin, halves up (a house rule, from memory: the law
// leaves rounding to the trade). It reports false where it has no such price.
func (k *Pack) Pay() (unit.Money, bool) {
	if !k.ByWeight() || !k.PerKilo.Set() {
		return unit.Money{}, false
	}
	return k.PerKilo.V.For(k.Net.V, unit.Kilogram)
}

// CounterNumber is the number of a pack that is weighed at the shop's own
// counter: its item, with its weight or price, as the shop's template has it.
// It is "" where the pack has no item number. The error says what has no room.
func (s *Shop) CounterNumber(k *Pack) (string, error) {
	if !k.Item.Set() {
		return "", nil
	}
	t, err := gs1.ParseCounterNumber(s.Profile.CounterNumber.V)
	if err != nil {
		return "", err
	}
	value := int64(k.Net.V / unit.Gram)
	if t.Of() == "price" {
		pay, _ := k.Pay() // see counterItem
		value = pay.Minor
	}
	return t.Number(k.Item.V, value)
}
