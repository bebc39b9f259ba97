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
	"slices"
	"strings"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/flow"
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
	Batched  diag.Pos   // where the batch code comes from
	Packs    unit.Count // packs in each carton; 0 for as many as it holds
	Of       int        // cartons of the run; 0 means 1
	SSCCs    []string   // one for each carton, or none; see [Numbers]
	Numbered diag.Pos   // where the SSCCs come from
	Stock    *stock.Stock
	Dots     unit.Dots
}

// Pack is the carton as the market's rules see it. The law looks at the
// figures of the net quantity of one pack.
func (c Carton) Pack() market.Pack {
	d := c.Facts.Date
	return market.Pack{Sale: market.Case, Net: market.Quantity{Mass: c.Facts.Pack.Net.V},
		UseBy: d.Kind == "use-by", DayMonth: d.Kind != "none"}
}

// Set is the finished labels: the artwork, and the marks of each carton.
type Set struct {
	Art  *page.Art
	Safe page.Rect
	// Keys are words from memory that stand on the label beside those that
	// Told knows of: keys of the language files by language code.
	Keys map[string][]string

	own [][]page.Item
}

// Count is the number of labels.
func (s *Set) Count() int { return len(s.own) }

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
	c := &composer{Carton: l, faces: faces, found: found}
	if !c.ready() {
		return nil
	}
	for _, els := range c.codings() {
		if c.found.Errors() > c.before {
			return nil
		}
		if c.code(els) != nil {
			continue
		}
		if t := c.best(); t != nil {
			c.saySplit(els)
			return c.finish(t)
		}
	}
	c.refuse()
	return nil
}

// composer is one run of labels under way.
type composer struct {
	Carton
	faces  *text.Faces
	found  *diag.List
	carton *shop.Carton
	titles *words.Lang // whose words stand over the figures
	safe   page.Rect   // where marks may lie
	area   page.Rect   // where words are set
	bars   []bars      // from top to bottom
	last   error       // why the best try did not fit
	before int         // errors found by others
}

// ready looks up what is missing and reports what cannot be.
func (c *composer) ready() bool {
	c.before = c.found.Errors()
	p := c.Facts.Product
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
	w, h := c.Stock.Size()
	c.safe = page.Rect{W: w, H: h}.Inset(c.Stock.Safe.V)
	c.area = c.safe.Inset(c.Dots.At(1)) // a rule may move by a dot
	c.titles = titles(c.Langs)
	c.check()
	return c.found.Errors() == c.before
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

// check reports numbers that do not go together.
func (c *composer) check() {
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
	c.checkNumbers()
	c.checkData()
}

// refuse says that the label does not fit, and what can be done.
func (c *composer) refuse() {
	w, h := c.Stock.Size()
	hint := "take a larger paper, or fewer languages"
	if a5, ok := stock.Get("roll-a5"); ok && w < a5.Width.V {
		hint = "take a larger paper, such as roll-a5 or a4-2, or fewer languages"
	}
	c.found.Errorf(c.carton.Paper.Pos, "does-not-fit", hint,
		"the carton label of %s does not fit on %s × %s (%s) with letters 3 mm high: %v", c.Facts.Product.ID, w, h, c.Stock.ID, c.last)
}

// finish makes the artwork and the marks of each carton.
func (c *composer) finish(t *try) *Set {
	if c.found.Errors() > c.before {
		return nil
	}
	w, h := c.Stock.Size()
	s := &Set{Art: &page.Art{W: w, H: h, Items: t.pen.Items}, Safe: c.safe, Keys: c.unchecked()}
	for n := range c.Of {
		own, err := c.own(t, n)
		if err != nil {
			c.found.Errorf(c.Numbered, "carton", "look at the number of this carton", "carton %d of %d: %v", n+1, c.Of, err)
			return nil
		}
		s.own = append(s.own, own)
	}
	return s
}

// unchecked lists the words of the label that a native reader must check.
func (c *composer) unchecked() map[string][]string {
	out := map[string][]string{}
	add := func(l *words.Lang, keys ...string) {
		for _, k := range keys {
			if _, err := l.Word(k); err == nil && l.FromMemory(k) && !slices.Contains(out[l.Code()], k) {
				out[l.Code()] = append(out[l.Code()], k)
			}
		}
	}
	add(c.titles, "carton.of", "carton.content", "carton.net", "carton.gross", "carton."+c.Facts.Product.Keep.Store.V)
	for _, l := range c.Langs {
		add(l, "net.multi")
		if len(c.Facts.Contains) > 0 {
			add(l, "contains")
		}
		for _, id := range c.Facts.Contains {
			add(l, "allergen."+strings.ReplaceAll(id, " ", "-"))
		}
	}
	return out
}

// own are the marks of carton n, counted from 0.
func (c *composer) own(t *try, n int) ([]page.Item, error) {
	said, err := c.ofText(n + 1)
	if err != nil {
		return nil, err
	}
	p := c.pen()
	if _, err := p.Line(t.spot.x, t.spot.base, flow.Strong(role.Serial, c.Numbered, said), flow.Style{Size: t.spot.size, Align: flow.Centre}); err != nil {
		return nil, err
	}
	for _, b := range c.bars {
		if b.own {
			if err := c.numbered(p, b, n); err != nil {
				return nil, err
			}
		}
	}
	return p.Items, nil
}

func (c *composer) pen() *flow.Pen { return &flow.Pen{Faces: c.faces, Dots: c.Dots} }
