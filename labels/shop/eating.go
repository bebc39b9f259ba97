package shop

// Eating is what a buyer must know to use the food as it is meant
// (Reg. (EU) 1169/2011 Art. 9(1)(j) and 27).
type Eating struct {
	Before       Text  `key:"before-eating" one:"nothing|thaw|heat|bake" help:"What the buyer does before the food is eaten: thaw, heat or bake, which the label must then say how; nothing where it is eaten as it is. Must stand for what is sold frozen."`
	Instructions Words `key:"instructions" help:"Instructions for use, per language, such as: Bake from frozen at 180 °C for 25 minutes, core 75 °C."`
}

// eatings: what is sold frozen says what is done with it, and instructions say
// something.
func (c *checker) eatings() {
	c.products(func(p *Product) {
		if p.Keep.Store.V == "frozen" && !p.Before.Set() && !p.Thawed.V && c.whole(p.Pos) {
			c.wrong(p.Keep.Store.Pos, "instructions", "write before-eating: thaw, heat, bake or nothing",
				"%s is sold frozen, but nobody says what the buyer does with it", p.ID)
		}
		if p.Prepared() && len(p.Instructions) == 0 && c.whole(p.Pos) {
			c.wrong(p.Before.Pos, "instructions", "write instructions: with how and how long, per language (Reg. (EU) 1169/2011 Art. 9(1)(j), 27)",
				"%s must be prepared before it is eaten (%s), but has no instructions", p.ID, p.Before.V)
		}
	})
}

// Prepared reports whether the buyer must do something before eating.
func (e Eating) Prepared() bool { return e.Before.Set() && e.Before.V != "nothing" }

// OpenedCold reports whether the food is kept cold once it is opened: because
// it is said, or because it is kept cold before.
func (k Keep) OpenedCold() bool {
	return k.OpenedStore.V == "chilled" || !k.OpenedStore.Set() && (k.Store.V == "chilled" || k.Store.V == "frozen")
}

// opened is about food that a packaging gas keeps: its life ends with the
// opening, so the label says what holds from then on (Art. 25(2)).
func (c *checker) opened() {
	c.products(func(p *Product) {
		if k := p.Keep; k.OpenedStore.Set() && !k.Opened.Set() && c.whole(p.Pos) {
			c.wrong(k.OpenedStore.Pos, "keep", "write after-opening: and how long", "%s says where it is kept once opened, but not how long", p.ID)
		}
		for _, k := range p.Packs {
			if k.Gas.V && !p.Keep.Opened.Set() && c.whole(p.Pos) {
				c.caution(k.Gas.Pos, "keep", "write after-opening: and how long, where that is less than the date says (Reg. (EU) 1169/2011 Art. 25(2))",
					"a gas keeps %s until it is opened, and nothing says how long it keeps then", p.ID)
			}
		}
	})
}
