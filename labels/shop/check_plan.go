package shop

import (
	"strconv"
	"strings"

	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/unit"
)

// planDays: a day has one plan.
func (c *checker) planDays() {
	first := map[PlanDay]diag.Pos{}
	for _, p := range c.Plans {
		if !p.Day.Set() {
			continue
		}
		if at, twice := first[p.Day.V]; twice {
			c.wrong(p.Day.Pos, "plan", "put the two plans together", "there is another plan for this day, at %s", at)
			continue
		}
		first[p.Day.V] = p.Day.Pos
	}
}

// eachRun calls do for every run of every plan.
func (c *checker) eachRun(do func(*Plan, Run)) {
	for _, p := range c.Plans {
		for _, r := range p.Runs {
			do(p, r)
		}
	}
}

// runs: a run makes a known product in a known pack, in a possible number.
func (c *checker) runs() {
	c.eachRun(func(_ *Plan, r Run) {
		for _, n := range append([]diag.At[unit.Count]{r.Pieces, r.FirstPlace}, append(r.Skip, r.Sizes...)...) {
			c.pieces(n, "a number")
		}
		for _, n := range []diag.At[unit.Count]{r.Labels, r.Cartons} {
			if n.Set() && n.V != 0 {
				c.pieces(n, "a number")
			}
		}
		if len(r.Sizes) > 3 {
			c.wrong(r.Sizes[3].Pos, "plan", "leave three", "a card shows no more than three batch sizes side by side")
		}
		c.runProduct(r)
	})
}

// promises: packs and assortments of a day take no more pieces than are made
// that day. What a plan makes none of comes from another day.
func (c *checker) promises() {
	for _, p := range c.Plans {
		made, packed, taken := c.promised(p)
		for _, r := range p.Runs {
			id := r.Product.V
			if n := made[id]; n > 0 && packed[id]+taken[id] > n {
				c.wrong(r.Pieces.Pos, "promised", "make more of it, or write labels: and for how many packs of it there are to be labels",
					"%d pieces of %s are made, but its packs take %d and assortments %d", n, id, packed[id], taken[id])
				delete(made, id)
			}
		}
	}
}

// promised counts the pieces of each product that a plan makes, puts into
// packs with labels, and puts into assortments. Spare labels are no packs.
func (c *checker) promised(p *Plan) (made, packed, taken map[string]int64) {
	made, packed, taken = map[string]int64{}, map[string]int64{}, map[string]int64{}
	for _, r := range p.Runs {
		q := c.Products[r.Product.V]
		if q == nil || r.Pieces.V <= 0 || r.Pieces.V > MaxPieces || !c.linked(q) {
			continue
		}
		made[q.ID] += int64(r.Pieces.V)
		if k, ok := q.Pack(r.Pack.V); ok && k.Pieces.V > 0 {
			packs := r.Pieces.V / k.Pieces.V
			if r.Labels.Set() {
				packs = min(packs, max(r.Labels.V, 0))
			}
			packed[q.ID] += int64(packs) * int64(k.Pieces.V)
		}
		c.assorted(q, int64(r.Pieces.V), taken)
	}
	return made, packed, taken
}

// assorted counts the pieces that n pieces of an assortment take, however deep.
func (c *checker) assorted(p *Product, n int64, taken map[string]int64) {
	for _, l := range p.Lines() {
		if q := c.Products[l.Use.V]; q != nil {
			each := min(n, int64(MaxPieces)) * int64(min(max(l.Pieces.V, 0), MaxPieces))
			taken[q.ID] += each
			c.assorted(q, each, taken)
		}
	}
}

func (c *checker) runProduct(r Run) {
	p := c.Products[r.Product.V]
	if p == nil {
		if r.Product.Set() && !c.refused[r.Product.V] {
			c.wrong(r.Product.Pos, "plan", meant(r.Product.V, c.ProductIDs, "products are "+list(c.ProductIDs)), "there is no product %q", r.Product.V)
		}
		return
	}
	k, ok := p.Pack(r.Pack.V)
	if !ok && c.whole(p.Pos) {
		c.wrong(r.Pack.Pos, "plan", meant(r.Pack.V, p.PackIDs(), "its packs are "+list(p.PackIDs())), "%s has no pack %q", p.ID, r.Pack.V)
	}
	if ok && !k.ByWeight() && k.Pieces.V > 0 && r.Pieces.V > 0 && r.Pieces.V <= MaxPieces && r.Pieces.V%k.Pieces.V != 0 {
		c.caution(r.Pieces.Pos, "plan", "plan whole packs, or use up the rest", "%d pieces do not fill whole packs of %d", r.Pieces.V, k.Pieces.V)
	}
	if r.Cartons.V > 0 && p.Carton == nil && c.whole(p.Pos) {
		c.wrong(r.Cartons.Pos, "plan", "write carton: in the product", "%s has no carton", p.ID)
	}
	c.lastCarton(p, r)
}

// lastCarton: what is left over goes into a carton of the product, with what the
// shop lets be mixed.
func (c *checker) lastCarton(p *Product, r Run) {
	l := r.LastCarton
	switch {
	case l == nil || !c.whole(p.Pos):
		return
	case p.Carton == nil:
		c.wrong(l.Pos, "plan", "write carton: in the product", "%s has no carton", p.ID)
		return
	}
	if r.SSCCFrom.Set() {
		c.wrong(r.SSCCFrom.Pos, "sscc", "write carton-numbers: {from: 1} in shop.yaml, and leave it out here", "the last carton needs a number of its own, which the print book gives")
	}
	c.pieces(l.Packs, "what is in the last carton")
	if len(l.With) == 0 && p.Carton.Holds.V > 0 && l.Packs.V >= p.Carton.Holds.V {
		c.wrong(l.Packs.Pos, "plan", "count it among cartons:", "a carton with %d packs of %d is full", l.Packs.V, p.Carton.Holds.V)
	}
	for _, in := range l.With {
		c.pieces(in.Packs, "what else is in the last carton")
		q := c.Products[in.Product.V]
		if q == nil {
			if in.Product.Set() && !c.refused[in.Product.V] {
				c.wrong(in.Product.Pos, "plan", meant(in.Product.V, c.ProductIDs, "products are "+list(c.ProductIDs)), "there is no product %q", in.Product.V)
			}
			continue
		}
		if msg := c.Shop.MayMix(p.ID, q.ID); msg != "" {
			c.wrong(in.Pos, "carton", "write mixed-cartons: in shop.yaml, if your customers take them", "%s", msg)
		}
	}
}

// MayMix says why packs of another batch of a product, or of another product,
// may not be in one carton by the shop's rule; "" where they may.
func (s *Shop) MayMix(one, other string) string {
	rule := s.Profile.MixedCartons.V
	switch {
	case one == other && rule != "batches" && rule != "products":
		return "two batches of " + one + " may not be in one carton here"
	case one != other && rule != "products":
		return one + " and " + other + " may not be in one carton here"
	}
	return ""
}

// dayOf gives a day on which the plan is used.
func (p *Plan) dayOf() unit.Date {
	if p.Day.V.Every || !p.Day.Set() {
		return unit.Date{Year: 2026, Month: 12, Day: 31}
	}
	return p.Day.V.Date
}

// batches: every batch code can be printed, and no two batches of one product
// share one on the same day.
func (c *checker) batches() {
	rule := c.Profile.BatchCode
	first := map[[3]string]diag.Pos{}
	c.eachRun(func(p *Plan, r Run) {
		if !r.Batch.Set() && (!rule.Set() || c.unsound[rule.Pos.File]) {
			return
		}
		code := c.BatchCode(r, p.dayOf())
		pos := r.Product.Pos
		switch {
		case r.Batch.Set():
			pos = r.Batch.Pos
		case r.Letter.Set():
			pos = r.Letter.Pos
		}
		if r.Batch.Set() || r.Letter.Set() {
			if !c.batchCode(code, pos) {
				return
			}
		}
		key := [3]string{p.ID, r.Product.V, code}
		if at, twice := first[key]; twice {
			c.wrong(pos, "batch", "give the second run another letter:", "two batches of %s are called %s, the first at %s", r.Product.V, code, at)
			return
		}
		first[key] = pos
	})
}

// serials: cartons of one plan never share a number.
func (c *checker) serials() {
	type span struct {
		plan, run string
		from, to  int64
		pos       diag.Pos
	}
	var given []span
	c.eachRun(func(p *Plan, r Run) {
		if !r.SSCCFrom.Set() || !c.places(r.SSCCFrom, "{yy}", "{day}") {
			return
		}
		from, ok := c.serial(r, p.dayOf())
		if !ok {
			return
		}
		to := from + int64(min(max(r.Cartons.V, 1), MaxPieces)) - 1
		now := span{p.ID, r.Product.V, from, to, r.SSCCFrom.Pos}
		for _, g := range given {
			if g.plan == now.plan && now.from <= g.to && g.from <= now.to {
				c.wrong(now.pos, "sscc", "begin behind the last carton of the other run", "a carton gets the number of one of %s, at %s", g.run, g.pos)
				break
			}
		}
		given = append(given, now)
	})
}

// serial reads the serial reference of a run's first carton and sees whether
// that of its last one fits behind the company prefix.
func (c *checker) serial(r Run, day unit.Date) (int64, bool) {
	text := c.SSCCFrom(r, day)
	from, err := strconv.ParseInt(text, 10, 64)
	if err != nil || strings.Trim(text, "0123456789") != "" {
		c.wrong(r.SSCCFrom.Pos, "sscc", `write digits, such as "1" or "{yy}{day}0001"`, "%q is not a serial reference", r.SSCCFrom.V)
		return 0, false
	}
	prefix := c.Profile.GS1Prefix
	if !prefix.Set() {
		if c.whole(c.Profile.Pos) {
			c.wrong(r.SSCCFrom.Pos, "sscc", "write gs1-prefix: in shop.yaml", "a carton's number needs the shop's company prefix")
		}
		return 0, false
	}
	if gs1.ValidPrefix(prefix.V) != nil {
		return 0, false
	}
	last := from + int64(min(max(r.Cartons.V, 1), MaxPieces)) - 1
	if _, err := gs1.SSCC(0, prefix.V, last); err != nil {
		c.wrong(r.SSCCFrom.Pos, "sscc", "use fewer digits", "the last carton's serial reference has no room: behind the prefix there are %d digits", 16-len(prefix.V))
		return 0, false
	}
	return from, true
}
