package card

import (
	"slices"

	forecast "chablon/labels/heat"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
)

// warmth foretells how warm the mix of a step gets, where what goes in tells
// enough: a warning where that is less than the step asks for, and by how much
// it must cool where it is more. What only leads to a step that asks is left
// for that one to say.
func (t *teller) warmth(out *content, f *shop.Formula, s *shop.Step) []advice {
	if f == nil {
		return nil
	}
	c, ok := forecast.Step(t.Shop, f, s.ID.V)
	if !ok || !c.Asks && leads(out, f, s.ID.V) {
		return nil
	}
	key, icon := "card.mix-at", flow.Probe
	if c.Below {
		key, icon = "card.mix-below", flow.Warning
	}
	all := []advice{{Icon: icon, Said: t.slots(key, s.Pos, func(_ int, l *words.Lang) map[string]string {
		return map[string]string{"temp": l.Temp(whole(c.Expected), true)}
	})}}
	if c.Cool >= worthCooling {
		all = append(all, advice{Icon: flow.Warning, Said: t.slots("card.cool-by", s.Pos, func(_ int, l *words.Lang) map[string]string {
			return map[string]string{"diff": l.Difference(c.Cool, true), "temp": l.Limit(c.Asked, true)}
		})})
	}
	return all
}

// worthCooling is how far a mix must be too warm to be worth a word; the
// forecast is no better.
const worthCooling = 2 * unit.DegC

// leads reports whether another step of the formula comes behind this one.
func leads(out *content, f *shop.Formula, id string) bool {
	return slices.ContainsFunc(out.work.Tasks, func(k scale.Task) bool {
		return k.Formula == f && slices.ContainsFunc(k.Step.After(), func(n shop.Text) bool { return n.V == id })
	})
}
