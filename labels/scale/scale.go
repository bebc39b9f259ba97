// Package scale answers: how much of everything for this batch?
//
// [Pieces], [Mass] and [Have] scale a product or a formula to a batch, with
// every sub-formula, loss and cooking medium, rounded to the scales of the
// bench. [Expand] takes a product apart into the ingredients that were bought,
// for its declaration. [PlanDay] works out a day: what is made once for all,
// and what is bought. [Share] and [Trays] fill whole vessels, [Remedies] helps
// where a scale is too coarse, [Balance] tells what a formula holds. [Order]
// puts the steps of a product into an order of work with its critical path,
// [Clashes] tells where jobs want the same tool.
//
// Amounts are computed as exact fractions; each is rounded once, to the
// nanogram, when it is handed out. Losses are chained, never added: a yield is
// the product of the yields of its stages, and what is made is what is wanted
// divided by the yield (W. Gisslen, Professional Baking: yield and trim).
package scale

import (
	"math"
	"math/big"

	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Basis is how many pieces [Expand] and [FinishedMass] count for, so that
// small parts keep their digits.
const Basis unit.Count = 1000

// rat is n/d; d must not be zero.
func rat[T ~int64](n, d T) *big.Rat { return big.NewRat(int64(n), int64(d)) }

func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

func quo(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

func times[T ~int64](a *big.Rat, n T) *big.Rat { return mul(a, rat(n, 1)) }

// mass rounds to the nearest nanogram, halves up. What is too much for a Mass
// becomes the largest one; the checks of a shop keep amounts far below.
func mass(r *big.Rat) unit.Mass { return unit.Mass(floor(new(big.Rat).Add(r, big.NewRat(1, 2)))) }

// floor is the largest whole number that is not above r, as far as it fits.
func floor(r *big.Rat) int64 {
	n := new(big.Int).Div(r.Num(), r.Denom())
	if !n.IsInt64() {
		return math.MaxInt64
	}
	return n.Int64()
}

func ceil(r *big.Rat) int64 { return -floor(new(big.Rat).Neg(r)) }

// factor is by how much f as written is multiplied to give out; nil when f
// gives nothing.
func factor(f *shop.Formula, out *big.Rat) *big.Rat {
	if f.Out() <= 0 {
		return nil
	}
	return quo(out, rat(f.Out(), 1))
}

// Finished is the finished mass of one piece: its make-up less what the oven
// takes, stage by stage, or the mass it is cut to.
func Finished(sh *shop.Shop, p *shop.Product) unit.Mass { return sh.Finished(p) }

// FinishedMass is the finished mass of [Basis] pieces.
func FinishedMass(sh *shop.Shop, p *shop.Product) unit.Mass {
	return mass(times(rat(sh.Finished(p), 1), Basis))
}

// perUnit is how often the make-up is needed for n pieces: n times, or, where
// a slab is cut, as many slabs as that; nil when the make-up is nothing.
func perUnit(sh *shop.Shop, p *shop.Product, n *big.Rat) *big.Rat {
	if p.CutTo.V <= 0 {
		return n
	}
	slab := sh.Made(p)
	if slab <= 0 {
		return nil
	}
	return mul(n, rat(sh.Finished(p), slab))
}

// portioned is how much of a line of a make-up is needed for as many times the
// parts: more by what is lost as it is portioned.
func portioned(n *big.Rat, l shop.Line) *big.Rat {
	m := times(n, l.Taken())
	if left := whole - l.LostInHandling.V; left > 0 && l.LostInHandling.V > 0 {
		m = mul(m, rat(whole, left))
	}
	return m
}
