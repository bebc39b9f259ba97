package shop

import (
	"slices"

	"chablon/labels/gs1"
)

// Says lists what the batch mark of a pack says beside its GTIN: date, batch
// and number, in this order; date and batch when the pack does not say.
func (k *Pack) Says() []string {
	if len(k.MarkSays) == 0 {
		return []string{"date", "batch"}
	}
	var out []string
	for _, what := range []string{"date", "batch", "number"} {
		if slices.ContainsFunc(k.MarkSays, func(t Text) bool { return t.V == what }) {
			out = append(out, what)
		}
	}
	return out
}

// Marked reports whether the pack bears a batch mark.
func (k *Pack) Marked() bool { return k.Mark.Set() && k.Mark.V != "none" }

// marks: a batch mark has a GTIN to begin with, a link has an address, and what
// it says can be said.
func (c *checker) marks() {
	if s := c.Profile.LinkStem; s.Set() {
		if _, err := gs1.Link(s.V, []gs1.Element{{AI: "01", Value: "09520001000010"}}); err != nil {
			c.wrong(s.Pos, "link-stem", "write it like https://label.example", "no link can begin with %q: %v", s.V, err)
		}
	}
	c.products(func(p *Product) {
		for i := range p.Packs {
			c.mark(p, &p.Packs[i])
		}
	})
}

func (c *checker) mark(p *Product, k *Pack) {
	switch {
	case !k.Marked() && len(k.MarkSays) > 0:
		c.wrong(k.MarkSays[0].Pos, "batch-mark", "write batch-mark: matrix, or take the line out", "%s in %s says what a mark says, but bears none", p.ID, k.ID.V)
	case !k.Marked():
	case !k.GTIN.Set():
		c.wrong(k.Mark.Pos, "batch-mark", "give the pack its GTIN", "%s in %s has no GTIN, and a batch mark begins with it", p.ID, k.ID.V)
	case k.Mark.V == "link" && !c.Profile.LinkStem.Set():
		c.wrong(k.Mark.Pos, "batch-mark", "write link-stem: in shop.yaml, or take matrix", "the link on %s in %s has no address to begin with", p.ID, k.ID.V)
	case !slices.Contains(k.Says(), "batch"):
		c.wrong(k.MarkSays[0].Pos, "batch-mark", "add batch", "the batch mark of %s in %s does not say the batch", p.ID, k.ID.V)
	}
}
