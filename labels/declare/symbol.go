package declare

import (
	"slices"
	"strings"

	"chablon/labels/market"
	"chablon/labels/unit"
)

// Symbol is what the symbol at the front of the pack says, where the market has
// one and the food is high in something.
type Symbol struct {
	Version int
	Over    []string  // what the food is high in
	Basis   unit.Mass // that it was judged on
	Share   unit.Share
	NotDue  string // why it is not due all the same, as the pack says; "" where it is
}

// Due reports whether the pack must bear the symbol.
func (s *Symbol) Due() bool { return s != nil && s.Version > 0 && s.NotDue == "" }

// symbol judges the food by what all of it holds.
func (w *work) symbol(sums map[string]unit.Mass) *Symbol {
	rule, pack := w.market.Nutrition.Symbol, w.facts.Pack
	if !rule.Asked(w.facts.Made) || pack.Sale.V == "direct" || pack.Surface.Set() && pack.Surface.V < rule.Never {
		return nil
	}
	front := pack.Front
	if front == nil {
		w.found.Errorf(pack.Pos, "front-symbol", "write front-symbol: with reference-amount: of this food, as the Table of Reference Amounts has it",
			"%s judges by the reference amount whether this food bears a symbol at the front of its pack (%s)", w.market.Name(), rule.Cite)
		return nil
	}
	over := rule.Over(func(k string) market.Amount { return market.Amount(sums[k]) }, w.facts.Finished, pack.Portion.V, front.ReferenceAmount.V, front.MainDish.V)
	out := &Symbol{Over: over, Version: rule.Version(over, pack.Face.V), Basis: max(pack.Portion.V, front.ReferenceAmount.V),
		Share: rule.Share(front.ReferenceAmount.V, front.MainDish.V)}
	if front.NotDue.Set() {
		out.NotDue = w.notDue(rule)
	}
	if out.Due() {
		w.found.Warnf(front.Pos, "front-symbol", "get it from Health Canada's Compendium of Nutrition Symbol Formats and put it into the empty frame; until then the label is a draft",
			"symbol %d is due at the front of the pack: %s holds so much %s that %s of the daily value is reached in %s (%s)",
			out.Version, w.product.ID, strings.Join(out.Over, ", "), out.Share, out.Basis, rule.Cite)
	}
	return out
}

// notDue is the reason that the pack gives for bearing no symbol, where it holds.
func (w *work) notDue(rule market.Symbol) string {
	why, pack := w.facts.Pack.Front.NotDue, w.facts.Pack
	r, ok := rule.Reason(why.V)
	switch {
	case !ok:
		w.found.Errorf(why.Pos, "front-symbol", "take one of "+strings.Join(reasonKeys(rule), ", "), "%s knows no reason %q", w.market.Name(), why.V)
	case r.Below > 0 && (!pack.Surface.Set() || pack.Surface.V >= r.Below):
		w.found.Errorf(why.Pos, "front-symbol", "measure surface: of the pack, or leave the reason out",
			"%s holds for a pack with less than %s of surface (%s)", why.V, r.Below, r.Cite)
	default:
		return why.V
	}
	return ""
}

func reasonKeys(rule market.Symbol) (out []string) {
	for _, r := range rule.Reasons {
		out = append(out, r.Key)
	}
	slices.Sort(out)
	return out
}
