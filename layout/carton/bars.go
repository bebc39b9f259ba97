package carton

import (
	"fmt"
	"slices"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/shop"
	"chablon/layout/compose"
)

// Numbers makes the SSCCs of count cartons from the company prefix and the
// serial reference of the first one; the extension digit is 0. A number may
// not be given again within a year (GGS 4.4.1.1).
func Numbers(prefix string, from int64, count int) ([]string, error) {
	var out []string
	for i := range max(0, min(count, MaxCartons)) {
		s, err := gs1.SSCC(0, prefix, from+int64(i))
		if err != nil {
			return nil, err
		}
		out = append(out, s)
	}
	return out, nil
}

// checkNumbers reports SSCCs that are wrong, missing or there twice.
func (c *run) checkNumbers() {
	const hint = "give each carton a number of its own"
	if n := len(c.SSCCs); n != 0 && n != c.Of {
		c.found.Errorf(c.Numbered, "sscc", hint, "there are %d numbers for %d cartons", n, c.Of)
	}
	seen := map[string]bool{}
	for _, s := range c.SSCCs {
		if err := gs1.ValidAs(gs1.KindSSCC, s); err != nil {
			c.found.Errorf(c.Numbered, "sscc", "copy the number again from its source", "%v", err)
		}
		if seen[s] {
			c.found.Errorf(c.Numbered, "sscc", hint, "two cartons have the SSCC %s", s)
		}
		seen[s] = true
	}
}

// numbered reports whether the number of the carton itself says what is in it:
// it has one, and it is full.
func (c *run) numbered() bool { return c.carton.GTIN.Set() && c.Packs == c.carton.Holds.V }

// named is the number that says what is in the carton: its own where it is
// full, else that of one pack.
func (c *run) named() shop.Text {
	if c.numbered() {
		return c.carton.GTIN
	}
	return c.Facts.Pack.GTIN
}

// elements is what the bars say about the carton. A full one has a GTIN of
// its own (01), which says how many packs are in it: a count (37) may not
// stand beside it. A carton that is not full, or has no number of its own,
// names the GTIN of its contents (02) and counts them.
//
// A mixed carton has its SSCC alone, and what is about the customer: nothing
// that is true of a part of it may stand as if it were true of all (GGS release
// 18, 6.6.4: what is in a mixed unit is not shown by (02)).
func (c *run) elements() []gs1.Element {
	if c.mixed() {
		return c.alone()
	}
	gtin, _ := gs1.Pad(c.named().V) // see checkData
	els := []gs1.Element{{AI: "01", Value: gtin}, {AI: "10", Value: c.Batch}}
	if !c.numbered() {
		els = []gs1.Element{{AI: "02", Value: gtin}, {AI: "10", Value: c.Batch}, {AI: "37", Value: fmt.Sprint(c.Packs)}}
	}
	els = append(els, c.weighed()...)
	if ai := c.dateAI(); ai != "" {
		els = append(els, gs1.Element{AI: ai, Value: gs1.Date(c.Facts.Date.Shown.Last)})
	}
	els = append(els, c.Goes.Elements()...)
	if len(c.SSCCs) > 0 {
		els = append(els, gs1.Element{AI: "00", Value: c.SSCCs[0]})
	}
	return gs1.Order(els)
}

// alone is the SSCC of a mixed carton, and whatever may stand with nothing else.
func (c *run) alone() (els []gs1.Element) {
	if len(c.SSCCs) > 0 {
		els = append(els, gs1.Element{AI: "00", Value: c.SSCCs[0]})
	}
	for _, e := range c.Goes.Elements() {
		if gs1.Together(append(els[:len(els):len(els)], e)) == nil {
			els = append(els, e)
		}
	}
	return gs1.Order(els)
}

// dateAI is the Application Identifier of the date, or "".
func (c *run) dateAI() string {
	return map[string]string{"use-by": "17", "best-before": "15"}[c.First().Date.Kind]
}

// checkData reports data that bars cannot carry.
func (c *run) checkData() {
	if !c.mixed() && !c.numbered() && !c.Facts.Pack.GTIN.Set() {
		c.found.Errorf(c.Facts.Pack.Pos, "carton", "give the pack its GTIN, or the carton one of its own, and fill it",
			"a carton with %d packs is named by the GTIN of the pack, and %s of %s has none", c.Packs, c.Facts.Pack.ID.V, c.Facts.Product.ID)
		return
	}
	if n := c.named(); !c.mixed() && c.bad(n.Pos, gs1.Valid(n.V)) {
		return
	}
	if c.bad(c.Batched, gs1.Check(gs1.Element{AI: "10", Value: c.Batch})) {
		return
	}
	if err := gs1.Together(c.elements()); err != nil {
		c.found.Errorf(c.carton.Pos, "carton", "give the cartons their SSCCs", "%v", err)
	}
}

// bad reports what bars cannot carry, and that there is something.
func (c *run) bad(pos diag.Pos, err error) bool {
	if err != nil {
		c.found.Errorf(pos, "carton", "write it as GS1 has it", "%v", err)
	}
	return err != nil
}

// coding is how the data of the carton are parted over symbols: the GS1-128,
// the SSCC lowest, and a matrix of all of them where they do not hold all.
type coding struct {
	stack  *compose.Stack
	matrix *compose.Matrix // nil for none
}

// codings lists how the data may be coded, the best first: all of them in
// GS1-128; or, where those take more room than there is, all of them in a matrix
// and as many in GS1-128 as have room, of which the SSCC is always one. What the
// bars say never leaves them.
func (c *run) codings() (bars, matrix []coding) {
	all := c.elements()
	if k, ok := c.coding(all, nil); ok {
		bars = append(bars, k)
	}
	if c.carton.Bars.V {
		return bars, nil
	}
	own := c.withoutConsignment(all)
	for _, els := range [][]gs1.Element{own, without(own, "10"), only(all, "00")} {
		if k, ok := c.coding(els, all); ok && len(els) < len(all) && len(els) > 0 {
			matrix = append(matrix, k)
		}
	}
	return bars, matrix
}

// coding makes the symbols; it reports false, and remembers why, when they
// cannot be set on the paper at all.
func (c *run) coding(bars, all []gs1.Element) (k coding, ok bool) {
	var err error
	if len(bars) == 0 {
		return k, false
	}
	if k.stack, err = c.paper.Stack(gs1.Order(bars), c.named().Pos, c.elements()...); err == nil && all != nil {
		k.matrix, err = c.paper.Matrix(all, c.named().Pos)
	}
	if err != nil {
		c.missed(err)
	}
	return k, err == nil
}

func without(els []gs1.Element, ai string) []gs1.Element {
	return slices.DeleteFunc(slices.Clone(els), func(e gs1.Element) bool { return e.AI == ai })
}

func only(els []gs1.Element, ai string) []gs1.Element {
	return slices.DeleteFunc(slices.Clone(els), func(e gs1.Element) bool { return e.AI != ai })
}
