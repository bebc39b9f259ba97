package card

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
)

// TestTable measures every card of the demo shop, products in three sizes and
// formulas as written, in one and two languages, on A4, A3 and letter: the wall
// form has two sheets at most, no letter under 16 minutes of arc, and is followed
// from step to step with no more jumps than the full form. With -v it prints the
// table.
func TestTable(t *testing.T) {
	sh := layouttest.Shop(t)
	t.Logf("%-26s %-7s %-12s %-6s  %-24s  %s", "card", "batch", "paper", "in", "wall: sheets, arc, jumps", "full: pages, jumps")
	for _, on := range []string{"card-a4", "card-a3", "card-letter"} {
		for _, langs := range []string{"en", "en+fr"} {
			for _, id := range slices.Concat(sh.ProductIDs, sh.FormulaIDs) {
				for _, c := range batches(t, sh, id, on, langs) {
					measured(t, c, id, langs)
				}
			}
		}
	}
}

func batches(t *testing.T, sh *shop.Shop, id, on, langs string) (out []Card) {
	sizes := []unit.Count{24, 48, 480}
	if sh.Products[id] == nil {
		sizes = []unit.Count{0}
	}
	for _, n := range sizes {
		c := hung(t, sh, id, on, langs)
		if n > 0 {
			var err error
			if c.Batch, err = scale.Pieces(sh, c.Product, n); err != nil {
				t.Fatal(err)
			}
		}
		out = append(out, c)
	}
	return out
}

func measured(t *testing.T, c Card, id, langs string) {
	wall := composed(t, c)
	arc, jumps := 60.0, jumpsOf(wall)
	runs(wall, func(it page.Item) {
		from := c.Stock.WordsAt.V
		switch it.Role {
		case role.Amount, role.Heat, role.Limit, role.Figure, role.Name, role.Batch, role.Allergens:
			from = c.Stock.ReadAt.V
		}
		arc = min(arc, arcOf(it, from))
	})
	c.Form = Full
	full := composed(t, c)
	most := jumpsOf(full)
	t.Logf("%-26s %-7s %-12s %-6s  %d, %.1f′, %d %14s  %d, %d", id, fmt.Sprint(c.Batch.Pieces), c.Stock.ID, langs, len(wall), arc, jumps, "", len(full), most)
	if len(wall) > 2 || arc < 16 || jumps > most {
		t.Errorf("%s on %s in %s: %d sheets, %.1f minutes of arc, %d jumps (%d in the full form)", id, c.Stock.ID, langs, len(wall), arc, jumps, most)
	}
}

// jumpsOf counts how often the next step by number is not the next one below, on
// the same page.
func jumpsOf(pages []*page.Page) int {
	type place struct{ page, no int }
	var order []place
	for i, pg := range pages {
		at := map[int]page.Item{}
		runs([]*page.Page{pg}, func(it page.Item) {
			var n int
			if _, err := fmt.Sscanf(it.Run.Text, "%d", &n); err != nil || fmt.Sprint(n) != it.Run.Text || it.Role != role.Step && it.Role != role.Figure || it.Run.Face != "bold" {
				return
			}
			if old, ok := at[n]; !ok || it.Box.X < old.Box.X {
				at[n] = it
			}
		})
		var left unit.Length = 1 << 60
		for _, it := range at {
			left = min(left, it.Box.X)
		}
		var here []int
		for n, it := range at {
			if it.Box.X-left < 3*unit.MM {
				here = append(here, n)
			}
		}
		slices.SortFunc(here, func(a, b int) int { return cmp.Compare(at[a].Box.Y, at[b].Box.Y) })
		for _, n := range here {
			order = append(order, place{i, n})
		}
	}
	count := 0
	for k := range order {
		next := slices.IndexFunc(order, func(p place) bool { return p.no == order[k].no+1 })
		if next >= 0 && (next != k+1 || order[next].page != order[k].page) {
			count++
		}
	}
	return count
}
