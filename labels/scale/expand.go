package scale

import (
	"math/big"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// Contribution is what one line brings of one bought ingredient, by its mass
// at use. What stays behind in bowls is not in it; water that evaporates is.
type Contribution struct {
	Ingredient *shop.Ingredient
	Line       shop.Line
	Product    *shop.Product   // the product whose make-up it is in: a component, in an assortment
	Via        []*shop.Formula // the formulas it came through, outermost first
	Through    []unit.Mass     // for each of Via, how much of the finished formula came in at that place
	Path       []diag.Pos      // the lines it came through, outermost first; the last is Line
	Mass       unit.Mass
	InMedium   bool // taken up from a cooking medium
}

// Expand takes [Basis] pieces of a product apart into what was bought. Losses
// in handling do not count, for they change no piece. Of a cooking medium only
// what is taken up counts, made up like the medium. A contribution is listed
// even when its mass is zero, so that its allergens are not lost. Gelatine
// counts as the formula is written, whatever its strength: a declaration should
// not change with the box that was delivered, and the difference is small.
func Expand(sh *shop.Shop, p *shop.Product) []Contribution {
	w := &walk{shop: sh}
	w.product(p, rat(Basis, 1), place{})
	return w.out
}

// ExpandFormula takes the mass out of a finished formula apart.
func ExpandFormula(sh *shop.Shop, f *shop.Formula, out unit.Mass) []Contribution {
	w := &walk{shop: sh}
	w.formula(f, rat(out, 1), place{})
	return w.out
}

// maxParts is where a walk gives up; the checks of a shop refuse such products
// long before.
const maxParts = 100_000

type walk struct {
	shop *shop.Shop
	out  []Contribution
}

// place is where the walk stands.
type place struct {
	product  *shop.Product
	above    []*shop.Product
	via      []*shop.Formula
	through  []unit.Mass
	path     []diag.Pos
	inMedium bool
}

func (at place) step(pos diag.Pos) place {
	at.path = append(slices.Clone(at.path), pos)
	return at
}

func (w *walk) product(p *shop.Product, n *big.Rat, at place) {
	k := perUnit(w.shop, p, n)
	if k == nil || slices.Contains(at.above, p) || len(w.out) > maxParts {
		return
	}
	at.product, at.above = p, append(slices.Clone(at.above), p)
	for _, l := range p.Lines() {
		if q := w.shop.Products[l.Use.V]; q != nil {
			w.product(q, times(k, l.Counted()), at.step(l.Pos))
			continue
		}
		w.line(l, times(k, l.Taken()), at.step(l.Pos))
	}
}

// line adds m of what the line uses.
func (w *walk) line(l shop.Line, m *big.Rat, at place) {
	if f := w.shop.Formulas[l.Use.V]; f != nil {
		w.formula(f, m, at)
		return
	}
	if ing := w.shop.Ingredients[l.Use.V]; ing != nil {
		w.out = append(w.out, Contribution{ing, l, at.product, at.via, at.through, at.path, mass(m), at.inMedium})
	}
}

// formula adds what out of the finished formula holds.
func (w *walk) formula(f *shop.Formula, out *big.Rat, at place) {
	k := factor(f, out)
	if k == nil || slices.Contains(at.via, f) || len(w.out) > maxParts {
		return
	}
	k = mul(k, kept(f))
	at.via = append(slices.Clone(at.via), f)
	at.through = append(slices.Clone(at.through), mass(out))
	for _, l := range f.Lines {
		w.line(l, times(k, l.Taken()), at.step(l.Pos))
	}
	if med := f.CookedIn; med != nil {
		if g := w.shop.Formulas[med.Use.V]; g != nil {
			at = at.step(med.Pos)
			at.inMedium = true
			w.formula(g, times(k, min(max(med.SoakedUp.V, 0), shop.MaxMass)), at)
		}
	}
}

// kept is the share of the food that is not left behind at any stage.
func kept(f *shop.Formula) *big.Rat {
	k, m := rat(int64(1), 1), f.In()
	for _, l := range f.Losses {
		left := m - l.Of(m)
		if l.LeftBehind.Set() && m > 0 {
			k = mul(k, rat(left, m))
		}
		m = left
	}
	return k
}
