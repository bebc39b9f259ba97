// Package tub answers: what goes on the tub?
//
// A tub holds a sub-batch: a formula that was made for later. Its label says
// what it is, when it was made and until when it may be used, its batch, how it
// is kept, which allergens are in it, and whether it is raw. A tub without a
// label is thrown away or, worse, used; so the label fits on a roll of small
// labels too, with what matters most, or it is refused.
//
// What the shop's files say of allergens is always on the label. That a food is
// ready to eat is never concluded: somebody ticks it.
package tub

import (
	"errors"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// Tub is what is to be set, in one or two languages; figures stand on it once
// and are written as in the first.
type Tub struct {
	Shop    *shop.Shop
	Formula *shop.Formula
	Mass    unit.Mass // in this tub; 0 leaves a line to write it on
	Made    unit.Date
	Until   unit.Date // where something in it must be used sooner than the formula's life says; zero for none
	Batch   string    // stays with what was made, whatever becomes of it
	N, Of   int       // tub N of so many; 0 of 0 leaves the count out
	Langs   []*words.Lang
	Stock   *stock.Stock // a roll, or a sheet of labels
	Dots    unit.Dots
	// Contains and May are allergen ids that are known beside those of the
	// shop's files, such as those of what took another's place today.
	Contains, May []string
}

// UseBy is the last day of use: the life that the formula states, from the day
// made as day 0, or Until where that is sooner. It is false where the formula
// states no life.
func (t Tub) UseBy() (unit.Date, bool) {
	if t.Formula.Keep == nil || !t.Formula.Keep.Life.Set() {
		return unit.Date{}, false
	}
	end := t.Formula.Keep.Life.V.End(t.Made)
	if !t.Until.IsZero() && t.Until.Before(end) {
		end = t.Until
	}
	return end, true
}

// Compose sets one label on a page of its stock; on a sheet it takes the first
// place. What is missing or does not fit is added to found, and then there are
// no pages.
func Compose(t Tub, faces *text.Faces, found *diag.List) []*page.Page {
	art := Set(t, faces, found)
	if art == nil {
		return nil
	}
	return t.Stock.Deal([]*page.Art{art}, stock.Bed{Dots: t.Dots})
}

// Set sets one label by itself, for [Sheets]. It returns nil, with findings,
// when something is missing or does not fit.
func Set(t Tub, faces *text.Faces, found *diag.List) *page.Art {
	before := found.Errors()
	s := tell(t, found)
	if found.Errors() > before {
		return nil
	}
	w, h := t.Stock.Size()
	c := &composer{Tub: t, said: s, faces: faces, safe: page.Rect{W: w, H: h}.Inset(t.Stock.Safe.V + t.Dots.At(1))}
	items := c.best()
	if items == nil {
		c.refuse(found)
		return nil
	}
	return &page.Art{W: w, H: h, Items: items}
}

// composer is one label under way.
type composer struct {
	Tub
	*said
	faces *text.Faces
	safe  page.Rect // where marks may lie
	last  error     // why the last try did not fit
}

// best sets the label at the largest size that fits, with more or with less
// white, or returns nil.
func (c *composer) best() []page.Item {
	for _, w := range []white{roomy, tight, joined} {
		if items := c.largest(w); items != nil {
			return items
		}
	}
	return nil
}

func (c *composer) largest(w white) []page.Item {
	var best []page.Item
	var top unit.Length
	least := leastAt(c.Stock, c.faces)
	flow.Largest(least.key, least.key.Mul(mostName, 10), 20, func(name unit.Length) bool {
		h := &hand{Pen: &flow.Pen{Faces: c.faces, Dots: c.Dots}, z: least.grown(name), src: c.Formula.Pos, white: w}
		if c.set(h); h.err != nil {
			c.last = h.err
			return false
		}
		if best == nil || name > top {
			best, top = h.Items, name
		}
		return true
	})
	return best
}

// set tries one size: everything, or on a small label what matters most.
func (c *composer) set(h *hand) {
	if c.safe.W < full {
		c.small(h)
		return
	}
	c.whole(h)
}

// refuse says that the label does not fit, and what can be done.
func (c *composer) refuse(found *diag.List) {
	var finding interface{ Diag() diag.Diag }
	var over *flow.Overflow
	var wide *text.TooWide
	if errors.As(c.last, &finding) && !errors.As(c.last, &over) && !errors.As(c.last, &wide) {
		found.Add(finding.Diag())
		return
	}
	w, h := c.Stock.Size()
	found.Errorf(c.Formula.Pos, "does-not-fit", "take a larger label, such as roll-100x60 or roll-100x100, or print it in one language; the letters may not become smaller",
		"the tub label of %s does not fit on %s × %s (%s): %v", c.Formula.ID, w, h, c.Stock.ID, c.last)
}
