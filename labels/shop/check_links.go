package shop

import (
	"fmt"
	"slices"
	"strings"

	"chablon/labels/diag"
)

// sameID: an id means one thing, so that a line cannot be misread.
func (c *checker) sameID() {
	for _, id := range c.FormulaIDs {
		if c.Ingredients[id] != nil {
			c.wrong(c.Formulas[id].Pos, "id", "rename one of the two", "%q is an ingredient as well; a line that uses it could mean either", id)
		}
	}
	for _, id := range c.ProductIDs {
		if c.Ingredients[id] != nil || c.Formulas[id] != nil {
			c.wrong(c.Products[id].Pos, "id", "rename one of the two", "%q is an ingredient or a formula as well; a line that uses it could mean either", id)
		}
	}
}

// links: every line uses something that is there and may be used there.
func (c *checker) links() {
	c.formulas(func(f *Formula) {
		for _, l := range f.Lines {
			c.link(l, slices.Concat(c.IngredientIDs, c.FormulaIDs))
			if c.Products[l.Use.V] != nil {
				c.wrong(l.Use.Pos, "use", "use the formulas that the product is made of", "%s is a product; a formula cannot use it", l.Use.V)
			}
		}
		c.sameRef(f.Lines)
		if f.CookedIn != nil {
			c.medium(f)
		}
		if len(f.Lines) == 0 && c.whole(f.Pos) {
			c.wrong(f.Pos, "empty", "write what goes in", "%s has no lines", f.ID)
		}
	})
	all := c.Known()
	c.products(func(p *Product) {
		for _, l := range p.Lines() {
			c.link(l, all)
		}
		c.sameRef(p.Lines())
		if len(p.Lines()) == 0 && c.whole(p.Pos) {
			c.wrong(p.Pos, "empty", "write what a piece is made of", "%s is made of nothing", p.ID)
		}
	})
}

func (c *checker) link(l Line, known []string) {
	id := l.Use.V
	if !c.loose(l) || c.refused[id] {
		return
	}
	c.wrong(l.Use.Pos, "use", meant(id, known, fmt.Sprintf("write ingredients/%s.yaml or formulas/%s.yaml first", id, id)),
		"there is no ingredient or formula %q", id)
}

// loose reports whether a line uses something that is not there.
func (c *checker) loose(l Line) bool { return l.Use.Set() && !c.known(l.Use.V) }

func (c *checker) known(id string) bool {
	return c.Ingredients[id] != nil || c.Formulas[id] != nil || c.Products[id] != nil
}

func (c *checker) medium(f *Formula) {
	use := f.CookedIn.Use
	if use.Set() && c.Formulas[use.V] == nil && !c.refused[use.V] {
		c.wrong(use.Pos, "use", meant(use.V, c.FormulaIDs, "what it is cooked in is a formula of its own"), "there is no formula %q", use.V)
	}
}

// sameRef: lines of one formula can be told apart by the steps.
func (c *checker) sameRef(lines []Line) {
	first := map[string]diag.Pos{}
	for _, l := range lines {
		if !l.Use.Set() {
			continue
		}
		if at, twice := first[l.Ref()]; twice {
			c.wrong(l.Pos, "use", "give this one another name with as, or add the two together",
				"%q comes in twice, first at %s; steps cannot tell the lines apart", l.Ref(), at)
			continue
		}
		first[l.Ref()] = l.Pos
	}
}

// circles: nothing is made of itself.
func (c *checker) circles() {
	state := map[string]int{} // 1 under way, 2 done
	var above []string
	var visit func(id string)
	visit = func(id string) {
		state[id] = 1
		above = append(above, id)
		for _, l := range c.madeWith(id) {
			switch state[l.V] {
			case 0:
				visit(l.V)
			case 1:
				round := append(slices.Clone(above[slices.Index(above, l.V):]), l.V)
				c.wrong(l.Pos, "circle", "take one of the links out", "made of itself: %s", strings.Join(round, " → "))
			}
		}
		above = above[:len(above)-1]
		state[id] = 2
	}
	for _, id := range slices.Concat(c.FormulaIDs, c.ProductIDs) {
		if state[id] == 0 {
			visit(id)
		}
	}
}

// madeWith gives what a formula or product is directly made of.
func (c *checker) madeWith(id string) []Text {
	var all []Text
	if f := c.Formulas[id]; f != nil {
		for _, l := range f.Lines {
			if c.Products[l.Use.V] == nil {
				all = append(all, l.Use)
			}
		}
		if f.CookedIn != nil {
			all = append(all, f.CookedIn.Use)
		}
	}
	if p := c.Products[id]; p != nil {
		for _, l := range p.Lines() {
			all = append(all, l.Use)
		}
	}
	return all
}

// Bounds of one product, taken apart; far above what a kitchen makes.
const (
	maxLines = 5000
	maxSteps = 1000
)

// size: a product taken apart stays within what can be computed and read.
func (c *checker) size() {
	count := map[string][2]int{}
	var visit func(id string) [2]int
	visit = func(id string) [2]int {
		if n, ok := count[id]; ok {
			return n
		}
		count[id] = [2]int{1, 0}
		if c.Ingredients[id] != nil {
			return count[id]
		}
		n := [2]int{1, c.stepCount(id)}
		for _, l := range c.madeWith(id) {
			m := visit(l.V)
			n[0], n[1] = min(n[0]+m[0], maxLines+1), min(n[1]+m[1], maxSteps+1)
		}
		count[id] = n
		return n
	}
	for _, id := range slices.Concat(c.FormulaIDs, c.ProductIDs) {
		n, pos := visit(id), diag.Pos{}
		if f := c.Formulas[id]; f != nil {
			pos = f.Pos
		} else {
			pos = c.Products[id].Pos
		}
		switch {
		case n[0] > maxLines:
			c.wrong(pos, "too-large", "use fewer formulas within formulas", "%s comes to more than %d lines when it is taken apart", id, maxLines)
		case n[1] > maxSteps:
			c.wrong(pos, "too-large", "write fewer steps", "%s comes to more than %d steps with its formulas", id, maxSteps)
		}
	}
}

func (c *checker) stepCount(id string) int {
	if f := c.Formulas[id]; f != nil {
		return len(f.Steps)
	}
	if p := c.Products[id]; p != nil {
		return len(p.Steps)
	}
	return 0
}

// reach calls do once for each formula and ingredient that a product or
// formula is made of, however deep.
func (c *checker) reach(id string, do func(*Formula, *Ingredient)) {
	seen := map[string]bool{id: true}
	var visit func(id string)
	visit = func(id string) {
		for _, l := range c.madeWith(id) {
			if seen[l.V] {
				continue
			}
			seen[l.V] = true
			if f, ing := c.Formulas[l.V], c.Ingredients[l.V]; f != nil || ing != nil {
				do(f, ing)
			}
			visit(l.V)
		}
	}
	visit(id)
}
