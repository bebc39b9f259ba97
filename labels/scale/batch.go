package scale

import (
	"fmt"
	"math/big"
	"slices"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Batch is all that is needed for one batch of a product or of a formula.
type Batch struct {
	Product *shop.Product // nil in a batch of a formula
	Formula *shop.Formula // nil in a batch of a product
	Pieces  unit.Count    // good pieces wanted
	Out     unit.Mass     // finished mass of the pieces, or of the formula
	Makes   []Make        // every formula to make, each before those that use it
	Lines   []Amount      // the product's own lines, stage by stage
	Parts   []Part        // the products of an assortment
}

// Make is one formula to make, once for all that use it.
type Make struct {
	Formula *shop.Formula
	In, Out unit.Mass // before and after the losses
	Shown   unit.Mass // what goes in, at the coarsest step of its lines
	Lines   []Amount
	Medium  *Amount // what it is cooked in; made in full, and counted in Makes too
	Uptake  unit.Mass
	For     []Use // where it goes, in order of use
}

// Use says how much of a formula goes where.
type Use struct {
	Formula *shop.Formula // nil when it goes into the product itself
	Line    shop.Line
	Mass    unit.Mass
	Medium  bool          // as a cooking medium
	Product *shop.Product // whose line it is, when it goes into a product
}

// Part is one product of an assortment, with the pieces that are needed.
type Part struct {
	Line    shop.Line
	Product *shop.Product
	Pieces  unit.Count
}

// Pieces gives the batch for n good pieces. More is made where the product
// loses pieces in handling: n ÷ (1 − handling).
func Pieces(sh *shop.Shop, p *shop.Product, n unit.Count) (*Batch, error) {
	if n < 1 || n > shop.MaxPieces {
		return nil, fmt.Errorf("a batch has 1 to %d pieces, not %d", shop.MaxPieces, n)
	}
	t, err := need(sh, p, rat(n, 1))
	if err != nil {
		return nil, err
	}
	return t.batch(sh, p, n), nil
}

// batch turns the tally of a product into its batch.
func (t *tally) batch(sh *shop.Shop, p *shop.Product, n unit.Count) *Batch {
	b := &Batch{Product: p, Pieces: n, Out: mass(times(rat(Finished(sh, p), 1), n)), Makes: t.makes(sh)}
	for _, l := range p.Lines() {
		if q := sh.Products[l.Use.V]; q != nil {
			b.Parts = append(b.Parts, Part{l, q, unit.Count(ceil(times(t.times, l.Counted())))})
			continue
		}
		b.Lines = append(b.Lines, amount(sh, l, portioned(t.times, l)))
	}
	column(sh, b.Lines)
	return b
}

// Mass gives the batch that makes out of a formula, after its losses.
func Mass(sh *shop.Shop, f *shop.Formula, out unit.Mass) (*Batch, error) {
	if out <= 0 || out > shop.MaxMass {
		return nil, fmt.Errorf("a batch weighs more than nothing and no more than %s, not %s", shop.MaxMass, out)
	}
	t := &tally{shop: sh, out: map[*shop.Formula]*big.Rat{}, uses: map[*shop.Formula][]use{}}
	if err := t.add(f, rat(out, 1), use{}); err != nil {
		return nil, err
	}
	if err := t.settle(); err != nil {
		return nil, err
	}
	return &Batch{Formula: f, Out: out, Makes: t.makes(sh)}, nil
}

// Have gives the largest batch that an amount of one ingredient allows: the
// limiting ingredient. The target is the id of a product or of a formula; the
// amount is weighed as bought, before peeling.
func Have(sh *shop.Shop, target, ingredient string, have unit.Mass) (*Batch, error) {
	ing := sh.Ingredients[ingredient]
	switch {
	case ing == nil:
		return nil, fmt.Errorf("there is no ingredient %q", ingredient)
	case have <= 0 || have > shop.MaxMass:
		return nil, fmt.Errorf("%s of %s makes no batch", have, ingredient)
	case sh.Products[target] != nil:
		return havePieces(sh, sh.Products[target], ing, have)
	case sh.Formulas[target] != nil:
		return haveMass(sh, sh.Formulas[target], ing, have)
	}
	return nil, fmt.Errorf("there is no product or formula %q", target)
}

func havePieces(sh *shop.Shop, p *shop.Product, ing *shop.Ingredient, have unit.Mass) (*Batch, error) {
	t, err := need(sh, p, rat(int64(1), 1))
	if err != nil {
		return nil, err
	}
	one := t.of(ing)
	for _, l := range p.Lines() {
		if l.Use.V == ing.ID {
			one.Add(one, mul(portioned(t.times, l), replaced(l, ing)))
		}
	}
	if one.Sign() <= 0 {
		return nil, fmt.Errorf("%s does not use %s", p.ID, ing.ID)
	}
	n := floor(quo(edible(ing, have), one))
	if n < 1 {
		return nil, fmt.Errorf("%s of %s is not enough for one piece of %s", have, ing.ID, p.ID)
	}
	return Pieces(sh, p, min(unit.Count(n), shop.MaxPieces))
}

func haveMass(sh *shop.Shop, f *shop.Formula, ing *shop.Ingredient, have unit.Mass) (*Batch, error) {
	whole, err := Mass(sh, f, f.Out())
	if err != nil {
		return nil, err
	}
	one := new(big.Rat)
	for _, m := range whole.Makes {
		for _, a := range m.Lines {
			if a.Ingredient == ing {
				one.Add(one, rat(a.Exact, 1))
			}
		}
	}
	if one.Sign() <= 0 {
		return nil, fmt.Errorf("%s does not use %s", f.ID, ing.ID)
	}
	return Mass(sh, f, mass(times(quo(edible(ing, have), one), f.Out())))
}

// edible is what is left of a bought mass once it is peeled and cored.
func edible(ing *shop.Ingredient, m unit.Mass) *big.Rat {
	if s := ing.Edible.V; s > 0 && s < unit.Whole {
		return times(rat(s, unit.Whole), m)
	}
	return rat(m, 1)
}

// Amounts gives every amount of the batch: those of its formulas, then its own.
func (b *Batch) Amounts() []*Amount {
	var all []*Amount
	for i := range b.Makes {
		for j := range b.Makes[i].Lines {
			all = append(all, &b.Makes[i].Lines[j])
		}
	}
	for i := range b.Lines {
		all = append(all, &b.Lines[i])
	}
	return all
}

// EndWeight is what the pan holds at the end of a step of a formula of the
// batch; false where nobody can say, as [shop.Formula.EndWeight] has it.
func (b *Batch) EndWeight(f *shop.Formula, s *shop.Step) (unit.Mass, bool) {
	if f == nil {
		return 0, false
	}
	m, ok := b.Make(f)
	written, known := f.EndWeight(s)
	if !ok || !known {
		return 0, false
	}
	return m.In.Mul(written, f.In()), true
}

// Make finds what is made of one formula.
func (b *Batch) Make(f *shop.Formula) (*Make, bool) {
	i := slices.IndexFunc(b.Makes, func(m Make) bool { return m.Formula == f })
	if i < 0 {
		return nil, false
	}
	return &b.Makes[i], true
}
