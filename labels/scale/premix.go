package scale

import (
	"math/big"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Remedy is what to do about an amount that its scale cannot show within 1 %:
// a finer scale of the bench, or a premix. Neither is always there.
type Remedy struct {
	Amount *Amount
	Scale  *shop.Scale // a scale on which it is good; nil where the bench has none
	Times  int64       // premix: this many times the amount, which is
	Weigh  unit.Mass   // weighed, and
	With   unit.Mass   // mixed evenly with this much of
	Other  *Amount     // a dry line of the same formula; then
	Take   unit.Mass   // is taken of the mix. All zero where no premix helps
}

// Remedies proposes, for each amount of a formula that may be more than 1 %
// off, a finer scale of the bench; and where there is none, for what must be
// weighed closely (exact: yes) and may be more than 5 % off, a premix. For it k times the
// amount is made up to k times itself with a dry line of the same column; as
// much as was weighed is taken of it and holds the amount, the rest is kept or
// thrown away. k is the least with which the scale shows 50 steps or more, so
// that the error stays within 1 %: half a step in 50 (the least load of 50
// divisions is that of NIST Handbook 44, G-UR.1.1, made for other trades).
func Remedies(sh *shop.Shop, col []Amount) []Remedy {
	var all []Remedy
	for i := range col {
		if !col[i].Coarse || col[i].Ingredient == nil {
			continue
		}
		if r := remedy(sh, col, &col[i]); r.Scale != nil || col[i].close() {
			all = append(all, r)
		}
	}
	return all
}

// close reports whether an amount must be weighed closely and may be more than
// 5 % off on its scale: half a step is more than a twentieth of it.
func (a *Amount) close() bool { return a.Line.Exact.V && a.Step/2 > a.Exact/20 }

func remedy(sh *shop.Shop, col []Amount, a *Amount) Remedy {
	r := Remedy{Amount: a}
	scales := scalesOf(sh)
	for i := range scales {
		if s := &scales[i]; a.Exact <= s.UpTo.V && a.Exact/50 >= s.Step.V {
			r.Scale = s
			return r
		}
	}
	finest := pick(scales, a.Exact).Step.V
	k := int64((50*finest-1)/a.Exact) + 1
	other := diluent(col, a)
	if !a.close() {
		return r
	}
	if other == nil || k > maxPremix || a.Exact*unit.Mass(k-1) > other.Exact {
		return r
	}
	r.Times, r.Other = k, other
	r.Weigh = mass(times(rat(k, 1), a.Exact)).Round(finest)
	r.With = r.Weigh * unit.Mass(k-1)
	r.Take = r.Weigh
	return r
}

// maxPremix keeps the premix from becoming a batch of its own.
const maxPremix = 20

// diluent is the largest line of a sugar, weighed itself well: it mixes evenly,
// and what is left over of it holds no allergen. Flour, flakes and nuts do not
// do.
func diluent(col []Amount, a *Amount) *Amount {
	var best *Amount
	for i := range col {
		o := &col[i]
		if o == a || o.Coarse || o.Ingredient == nil || !sugar(o.Ingredient) {
			continue
		}
		if best == nil || o.Exact > best.Exact {
			best = o
		}
	}
	return best
}

// sugar reports whether an ingredient is a dry sugar that holds no allergen, and
// may hold none.
func sugar(i *shop.Ingredient) bool {
	const dry, pure = 2 * unit.Percent, 90 * unit.Gram
	return i.Water.Set() && i.Water.V < dry && i.Per100 != nil && i.Per100.Sugars.V >= pure && len(i.Contains)+len(i.MayContain) == 0
}

// Reviewed gives the amounts of a batch of a formula that do not grow in
// proportion and are past the factor from which somebody should look at them.
func (m *Make) Reviewed() []*Amount {
	in := m.Formula.In()
	var all []*Amount
	for i := range m.Lines {
		r := m.Lines[i].Line.Review
		if r.Set() && in > 0 && rat(m.In, in).Cmp(rat(r.V, shop.One)) > 0 {
			all = append(all, &m.Lines[i])
		}
	}
	return all
}

// Conversion is an amount of gelatine turned from the strength it was weighed
// for into that of what is on the shelf.
type Conversion struct {
	From, To int64 // Bloom
	Rule     Strength
	Mass     unit.Mass // what to weigh of the gelatine on the shelf
	Same     bool      // both are equally strong
}

// Converted gives the conversion that the line asks for; false where it asks
// for none or a strength is not known.
func (a *Amount) Converted() (Conversion, bool) {
	s := a.Line.WeighedFor
	if s == nil || a.Ingredient == nil {
		return Conversion{}, false
	}
	c := Conversion{From: int64(s.Bloom.V), To: a.Ingredient.Bloom(), Rule: Strength(s.Rule.V)}
	if c.From <= 0 || c.To <= 0 {
		return Conversion{}, false
	}
	c.Mass = Gelatine(a.Written, c.From, c.To, c.Rule)
	c.Same = c.From == c.To
	return c, true
}

// replaced is how much of the ingredient stands for one of what the line was
// written for: 1, but for gelatine of another strength.
func replaced(l shop.Line, i *shop.Ingredient) *big.Rat {
	if l.WeighedFor == nil || i == nil {
		return rat(int64(1), 1)
	}
	from, to := int64(l.WeighedFor.Bloom.V), i.Bloom()
	return rat(Gelatine(shop.MaxMass, from, to, Strength(l.WeighedFor.Rule.V)), shop.MaxMass)
}
