// Package carton answers: what goes on the carton label?
//
// [Compose] sets one label with three parts, one below the other: who sends
// what; the figures that a person reads (contents, batch, date, storage,
// allergens, numbers); the bar codes, the SSCC lowest. Each part of the text
// is at least 3 mm high, and the figures 7 mm where there is room: the rules
// of the GS1 logistic label (GGS release 18, 6.6; GS1 Sweden, rules for the
// logistic label, read November 2026). The particulars that have to stand on
// the outer packaging are those of Regulation (EU) No 1169/2011 Art. 8(7).
//
// What stands still becomes an artwork; "carton n of m" and the SSCC are the
// label's own.
package carton

import (
	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/look"
	"chablon/layout/page"
	"chablon/layout/stock"
	"chablon/layout/text"
)

// MaxCartons is how many cartons one run may have.
const MaxCartons = 10_000

// Carton is what is to be set: the cartons of one batch, all filled alike.
type Carton struct {
	Facts    *declare.Facts // of the pack that is in the carton
	Told     []*words.Label // one for each language, in order
	Langs    []*words.Lang
	Batch    string
	Batched  diag.Pos         // where the batch code comes from
	Packs    unit.Count       // packs in each carton; 0 for as many as it holds
	With     []Inside         // what else is in each: another batch, another product
	Of       int              // cartons of the run; 0 means 1
	Goes     shop.Consignment // for whom they are packed
	SSCCs    []string         // one for each carton, or none; see [Numbers]
	Numbered diag.Pos         // where the SSCCs come from
	Stock    *stock.Stock
	Dots     unit.Dots
	Look     *look.Look // of the shop; nil for the plain label
}

// Pack is the carton as the market's rules see it. The law looks at the
// figures of the net quantity of one pack; of several, at those of the largest.
func (c Carton) Pack() market.Pack {
	d, net := c.First().Date, c.Facts.Pack.Net.V
	for _, w := range c.With {
		net = max(net, w.Facts.Pack.Net.V)
	}
	return market.Pack{Sale: market.Case, Net: market.Quantity{Mass: net},
		UseBy: d.Kind == "use-by", DayMonth: d.Kind != "none", Calls: c.Facts.Calls()}
}

// Set is the finished labels: the artwork, and the marks of each carton.
type Set struct {
	Art  *page.Art
	Safe page.Rect
	// Keys are words from memory that stand on the label beside those that
	// Told knows of: keys of the language files by language code.
	Keys map[string][]string
	// Scan is what a scanner must show of the matrix of carton 1; "" where the
	// GS1-128 hold all.
	Scan string
	Gave string // what of the look gave way to the words; "" for nothing

	own [][]page.Item
}

// Own are the marks of carton n, counted from 1, relative to the artwork.
func (s *Set) Own(n int) []page.Item {
	if n < 1 || n > len(s.own) {
		return nil
	}
	return s.own[n-1]
}

// Compose sets the labels. It returns nil, with a finding, when something is
// wrong or does not fit.
func Compose(l Carton, faces *text.Faces, found *diag.List) *Set {
	c := &run{Carton: l, paper: compose.On(l.Stock, l.Dots, faces), found: found}
	if !c.sound() || !c.tell() {
		return nil
	}
	if l := c.best(); l != nil {
		l, gave := c.crowned(l)
		set := c.finish(l)
		if set != nil {
			set.Gave = gave
		}
		return set
	}
	c.refuse()
	return nil
}

// run is one run of labels under way.
type run struct {
	Carton
	content
	paper  *compose.Paper
	found  *diag.List
	carton *shop.Carton
	titles *words.Lang // whose words say which carton it is
	second *words.Lang // whose words stand beside the titles of GS1; nil for none
	last   error       // why the best try did not fit

	dressed bool // set in the look of the shop
}

// sound looks up what is left out and reports what cannot be.
func (c *run) sound() bool {
	before, p := c.found.Errors(), c.Facts.Product
	c.carton, c.Of = p.Carton, max(c.Of, 1)
	if c.carton == nil {
		c.found.Errorf(p.Pos, "carton", "write carton: with pack, holds, gtin and paper", "%s is not shipped in cartons", p.ID)
		return false
	}
	if len(c.Told) == 0 || len(c.Told) != len(c.Langs) {
		c.found.Errorf(p.Pos, "carton", "name the languages of the label", "the carton label of %s has no language", p.ID)
		return false
	}
	if c.Packs == 0 {
		c.Packs = c.carton.Holds.V
	}
	c.titles, c.second = titles(c.Langs), second(c.Langs)
	c.checkCarton()
	c.checkNumbers()
	if c.mixed() {
		c.checkMixed()
	}
	c.checkData()
	return c.found.Errors() == before
}

// titles is the first language that has words for the heads of a carton
// label, or English, which GS1 takes for data titles where nothing else is
// agreed. The particulars of the law never fall back.
func titles(langs []*words.Lang) *words.Lang {
	for _, l := range langs {
		if l.Has("sheet") {
			return l
		}
	}
	en, _ := words.Get("en")
	return en
}

// second is the first language but English that has words for the heads of a
// carton label: they stand beside the titles of GS1, which are English unless
// something else is agreed (GGS release 18, 6.6.4.3).
func second(langs []*words.Lang) *words.Lang {
	for _, l := range langs {
		if l.Has("sheet") && l.Code() != "en" {
			return l
		}
	}
	return nil
}

// checkCarton reports counts that do not go together.
func (c *run) checkCarton() {
	k := c.carton
	if k.Pack.V != c.Facts.Pack.ID.V {
		c.found.Errorf(k.Pack.Pos, "carton", "print the carton of that pack", "the carton holds the pack %s, not %s", k.Pack.V, c.Facts.Pack.ID.V)
	}
	if c.Packs < 0 || c.Packs > k.Holds.V {
		c.found.Errorf(k.Holds.Pos, "carton", "count again, or change holds", "%d packs do not go into a carton that holds %d", c.Packs, k.Holds.V)
	}
	if c.Of > MaxCartons {
		c.found.Errorf(c.Numbered, "carton", "print them in several runs", "a run has at most %d cartons, not %d", MaxCartons, c.Of)
	}
}

// refuse says that the label does not fit, and what can be done.
func (c *run) refuse() {
	hint := "take a larger paper, or fewer languages"
	w, _ := c.Stock.Size()
	if a5, ok := stock.Get("roll-a5"); ok && w < a5.Width.V {
		hint = "take a larger paper, such as roll-a5 or a4-2, or fewer languages"
	}
	compose.Refusal{At: c.carton.Paper.Pos, What: "the carton label of " + c.Facts.Product.ID, Stock: c.Stock,
		With: "with letters 3 mm high", Hint: hint}.Refuse(c.last, c.found)
}

// finish makes the artwork and the marks of each carton.
func (c *run) finish(l *layout) *Set {
	w, h := c.Stock.Size()
	s := &Set{Art: c.paper.Art(l.items), Safe: page.Rect{W: w, H: h}.Inset(c.Stock.Safe.V), Keys: c.unchecked(), Scan: l.matrix.Says()}
	for n := range c.Of {
		in := c.paper.Setter()
		l.own(in, n)
		if err := in.Err(); err != nil {
			c.found.Errorf(c.Numbered, "carton", "look at the number of this carton", "carton %d of %d: %v", n+1, c.Of, err)
			return nil
		}
		s.own = append(s.own, in.Items)
	}
	return s
}
