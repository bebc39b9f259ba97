package scale

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"chablon/labels/shop"
)

// A tally gathers how much of each formula is needed, whoever needs it.
type tally struct {
	shop  *shop.Shop
	times *big.Rat // how often the product's make-up is needed
	first []*shop.Formula
	order []*shop.Formula // each before those that use it
	out   map[*shop.Formula]*big.Rat
	uses  map[*shop.Formula][]use
}

type use struct {
	by     *shop.Formula
	line   shop.Line
	mass   *big.Rat
	medium bool
	whose  *shop.Product
}

// need tallies n good pieces of a product. The products of an assortment are
// not taken apart: they are batches of their own.
func need(sh *shop.Shop, p *shop.Product, n *big.Rat) (*tally, error) {
	t := newTally(sh)
	if err := t.product(p, n); err != nil {
		return nil, err
	}
	return t, t.settle()
}

func newTally(sh *shop.Shop) *tally {
	return &tally{shop: sh, out: map[*shop.Formula]*big.Rat{}, uses: map[*shop.Formula][]use{}}
}

// product asks for what n good pieces of a product take; settle must follow.
func (t *tally) product(p *shop.Product, n *big.Rat) error {
	if left := whole - p.LostInHandling.V; left > 0 && p.LostInHandling.V > 0 {
		n = mul(n, rat(whole, left))
	}
	if t.times = perUnit(t.shop, p, n); t.times == nil {
		return fmt.Errorf("nothing is left of %s to cut", p.ID)
	}
	for _, l := range p.Lines() {
		if f := t.shop.Formulas[l.Use.V]; f != nil {
			if err := t.add(f, portioned(t.times, l), use{line: l, whose: p}); err != nil {
				return err
			}
		}
	}
	return nil
}

// add asks for some of f.
func (t *tally) add(f *shop.Formula, m *big.Rat, u use) error {
	if f.Out() <= 0 {
		return fmt.Errorf("nothing is left of %s", f.ID)
	}
	if t.out[f] == nil {
		t.out[f] = new(big.Rat)
		t.first = append(t.first, f)
	}
	t.out[f].Add(t.out[f], m)
	if u.line.Use.V != "" {
		u.mass = m
		t.uses[f] = append(t.uses[f], u)
	}
	return nil
}

// settle hands the needs down, from what is asked for to what that is made of.
func (t *tally) settle() error {
	var err error
	if t.order, err = dependencies(t.shop, t.first); err != nil {
		return err
	}
	for i := len(t.order) - 1; i >= 0; i-- {
		f := t.order[i]
		k := factor(f, t.out[f])
		for _, l := range f.Lines {
			if g := t.shop.Formulas[l.Use.V]; g != nil {
				if err := t.add(g, times(k, l.Taken()), use{by: f, line: l}); err != nil {
					return err
				}
			}
		}
		if g := medium(t.shop, f); g != nil {
			l := shop.Line{Pos: f.CookedIn.Pos, Use: f.CookedIn.Use}
			if err := t.add(g, times(k, mediumMade(f, g)), use{by: f, line: l, medium: true}); err != nil {
				return err
			}
		}
	}
	return nil
}

// dependencies gives the formulas and all that they are made of, each before
// those that use it; otherwise in the order in which they are first named.
func dependencies(sh *shop.Shop, first []*shop.Formula) ([]*shop.Formula, error) {
	var order, above []*shop.Formula
	done := map[*shop.Formula]bool{}
	var visit func(f *shop.Formula) error
	visit = func(f *shop.Formula) error {
		if slices.Contains(above, f) {
			return fmt.Errorf("formulas in a circle: %s", circle(above, f))
		}
		if done[f] {
			return nil
		}
		above = append(above, f)
		for _, g := range parts(sh, f) {
			if err := visit(g); err != nil {
				return err
			}
		}
		above = above[:len(above)-1]
		done[f] = true
		order = append(order, f)
		return nil
	}
	for _, f := range first {
		if err := visit(f); err != nil {
			return nil, err
		}
	}
	return order, nil
}

// circle writes the formulas from f round to f again.
func circle(above []*shop.Formula, f *shop.Formula) string {
	var names []string
	for _, g := range above {
		if g == f || names != nil {
			names = append(names, g.ID)
		}
	}
	return strings.Join(append(names, f.ID), " → ")
}

// parts gives the formulas that f is made of, its medium last.
func parts(sh *shop.Shop, f *shop.Formula) []*shop.Formula {
	var all []*shop.Formula
	for _, l := range f.Lines {
		if g := sh.Formulas[l.Use.V]; g != nil {
			all = append(all, g)
		}
	}
	if g := medium(sh, f); g != nil {
		all = append(all, g)
	}
	return all
}

// of sums what the formulas of the tally take of one ingredient.
func (t *tally) of(ing *shop.Ingredient) *big.Rat {
	sum := new(big.Rat)
	for _, f := range t.order {
		k := factor(f, t.out[f])
		for _, l := range f.Lines {
			if l.Use.V == ing.ID {
				sum.Add(sum, mul(times(k, l.Taken()), replaced(l, ing)))
			}
		}
	}
	return sum
}

// makes turns the tally into what the bench reads.
func (t *tally) makes(sh *shop.Shop) []Make {
	var all []Make
	for _, f := range t.order {
		k := factor(f, t.out[f])
		m := Make{Formula: f, In: mass(times(k, f.In())), Out: mass(t.out[f])}
		for _, l := range f.Lines {
			m.Lines = append(m.Lines, amount(sh, l, times(k, l.Taken())))
		}
		m.Shown = column(sh, m.Lines)
		if g := medium(sh, f); g != nil {
			one := []Amount{amount(sh, shop.Line{Pos: f.CookedIn.Pos, Use: f.CookedIn.Use}, times(k, mediumMade(f, g)))}
			column(sh, one)
			m.Medium, m.Uptake = &one[0], mass(times(k, f.CookedIn.SoakedUp.V))
		}
		for _, u := range t.uses[f] {
			m.For = append(m.For, Use{u.by, u.line, mass(u.mass), u.medium, u.whose})
		}
		all = append(all, m)
	}
	return all
}
